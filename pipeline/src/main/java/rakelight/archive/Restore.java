package rakelight.archive;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * Makes an archive of a backup: every file is first compared with its digest, what is sound is
 * copied, the ledger last. What isn't sound is left out and named, so that one bad file costs no
 * other.
 */
public final class Restore {
  private final Path bag;
  private final Path target;

  private Restore(Path bag, Path target) {
    // As the verifier names what isn't sound.
    this.bag = bag.toAbsolutePath().normalize();
    this.target = target;
  }

  /**
   * What was restored.
   *
   * @param originals copied
   * @param faults what in the backup isn't as it must be
   */
  public record Result(int originals, List<Check.Fault> faults) {
    public Result {
      faults = List.copyOf(faults);
    }
  }

  /**
   * Copies an archive out of a backup.
   *
   * @param target a folder that is empty or doesn't exist yet
   * @param ledger the time of an earlier ledger that is to be taken instead of the last
   * @param progress is told of each file as it has been compared
   * @throws ArchiveException if there is no backup, its ledger isn't sound, or the folder can't be
   *     written
   */
  public static Result copy(
      Path bag, Path target, Optional<String> ledger, Consumer<Path> progress) {
    if (!Bag.isAt(bag) || !Files.isDirectory(bag.resolve(Bag.PAYLOAD))) {
      throw new ArchiveException(
          bag
              + ": not a backup, it has no "
              + Bag.DECLARATION
              + " and "
              + Bag.PAYLOAD
              + ". Give the folder `backup` wrote.");
    }
    try {
      return new Restore(bag, target).copy(ledger, progress);
    } catch (IOException e) {
      throw new ArchiveException(
          target + ": couldn't be restored (" + e + "). Remove the folder and try again.", e);
    }
  }

  private Result copy(Optional<String> earlier, Consumer<Path> progress) throws IOException {
    Files.createDirectories(target);
    try (DirectoryStream<Path> entries = Files.newDirectoryStream(target)) {
      if (entries.iterator().hasNext()) {
        throw new ArchiveException(target + ": the folder isn't empty. Give a new folder.");
      }
    }
    List<Check.Fault> faults = Bag.verify(bag, progress);
    Set<Path> unsound = new HashSet<>();
    faults.forEach(fault -> unsound.add(Path.of(fault.where()).normalize()));
    Path ledger = ledger(earlier);
    if (unsound.contains(ledger.normalize()) || !Files.isRegularFile(ledger)) {
      throw new ArchiveException(
          ledger
              + ": the ledger is missing or damaged in the backup. "
              + others(unsound, ledger)
              + " Nothing was restored.");
    }
    Files.createDirectories(target.resolve(Originals.FOLDER));
    Files.createDirectories(target.resolve(Derived.FOLDER));
    Path data = bag.resolve(Bag.PAYLOAD);
    int originals = 0;
    for (Path file : Bag.files(bag, Bag.PAYLOAD).values()) {
      if (unsound.contains(file.normalize()) || file.equals(data.resolve(Ledger.FILE))) {
        continue;
      }
      Path copy = target.resolve(data.relativize(file).toString());
      Files.createDirectories(copy.resolveSibling("."));
      Files.copy(file, copy);
      if (Originals.digestInName(copy).isPresent()) {
        Durable.readOnly(copy);
        originals++;
      }
    }
    Path part = target.resolve(Ledger.FILE + ".part");
    Files.copy(ledger, part, StandardCopyOption.REPLACE_EXISTING);
    Durable.rename(part, target.resolve(Ledger.FILE));
    Durable.flushFolder(target);
    return new Result(originals, faults);
  }

  private Path ledger(Optional<String> earlier) throws IOException {
    if (earlier.isEmpty()) {
      return bag.resolve(Bag.PAYLOAD).resolve(Ledger.FILE);
    }
    Map<Instant, Path> ledgers = Backup.ledgers(bag);
    return Backup.time(earlier.get())
        .flatMap(time -> Optional.ofNullable(ledgers.get(time)))
        .orElseThrow(
            () ->
                new ArchiveException(
                    earlier.get()
                        + ": the backup has no ledger of that time. It has "
                        + names(ledgers.values().stream().toList())
                        + "."));
  }

  private String others(Set<Path> unsound, Path ledger) throws IOException {
    List<Path> sound = new ArrayList<>();
    for (Path other : Backup.ledgers(bag).values()) {
      if (!unsound.contains(other.normalize()) && !other.equals(ledger)) {
        sound.add(other);
      }
    }
    return sound.isEmpty()
        ? "Take another backup."
        : "Earlier ones are sound: give --ledger with one of " + names(sound) + ".";
  }

  private static String names(List<Path> ledgers) {
    return ledgers.isEmpty()
        ? "none"
        : String.join(
            ", ",
            ledgers.stream()
                .map(file -> String.valueOf(file.getFileName()).replaceFirst("\\.sqlite$", ""))
                .toList());
  }
}
