package rakelight.archive;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Predicate;
import org.jdbi.v3.core.Handle;

/**
 * A part of an archive as an archive of its own: some of its decisions, unchanged, and what was
 * derived from some of its originals, but no originals. It has the archive's id, so what is decided
 * in it can be merged into the archive again.
 */
public final class LentPart {
  private LentPart() {}

  /**
   * What was written.
   *
   * @param decisions of the archive
   * @param sizeBytes of what was derived
   */
  public record Written(int decisions, long sizeBytes) {}

  /**
   * Writes a part. What rests on a decision that isn't in it is left out too.
   *
   * @param target a folder that is empty or doesn't exist yet
   * @param which of the decisions that stand
   * @param originals those whose derivations go along, unless others had a part in them
   * @param notes subjects whose notes of the newest derivation go along
   * @param noteKind the kind of these notes
   * @throws ArchiveException if the folder is in use or can't be written
   */
  public static Written write(
      Archive archive,
      Path target,
      UUID lending,
      Predicate<Decision> which,
      Set<Sha256> originals,
      List<UUID> notes,
      String noteKind) {
    try {
      Files.createDirectories(target);
      try (DirectoryStream<Path> entries = Files.newDirectoryStream(target)) {
        if (entries.iterator().hasNext()) {
          throw new ArchiveException(
              target + ": the folder isn't empty. Give a new folder for the part.");
        }
      }
      Files.createDirectories(target.resolve(Originals.FOLDER));
      Files.createDirectories(target.resolve(Derived.FOLDER));
      long sizeBytes = derived(archive, target, originals, notes, noteKind);
      // The ledger is written under another name, so that half a part isn't taken for an archive.
      Path part = target.resolve(Ledger.FILE + ".part");
      int decisions;
      try (Ledger ledger = Ledger.open(part)) {
        decisions = ledger.write(handle -> decisions(archive, handle, lending, which));
        archive.journal().on(ledger).rebuild();
      }
      Durable.rename(part, target.resolve(Ledger.FILE));
      Durable.flushFolder(target);
      return new Written(decisions, sizeBytes);
    } catch (IOException e) {
      throw new ArchiveException(
          target + ": the part can't be written (" + e + "). Remove the folder and try again.", e);
    }
  }

  private static int decisions(
      Archive archive, Handle part, UUID lending, Predicate<Decision> which) {
    Set<String> taken = new HashSet<>();
    archive
        .ledger()
        .read(
            handle -> {
              for (DecisionOrder.Row row : DecisionOrder.rows(handle)) {
                DecisionId id = DecisionId.of(row.id());
                if (taken.containsAll(row.restsOn())
                    && archive.journal().stands(id)
                    && (row.kind().equals(SameThings.JOINED)
                        || archive.journal().find(id).filter(which).isPresent())) {
                  DecisionOrder.append(part, row);
                  taken.add(row.id());
                }
              }
              return 0;
            });
    Chain.complete(part);
    DecisionOrder.count(part);
    part.execute("INSERT INTO lent_part (lending) VALUES (?)", lending.toString());
    return taken.size();
  }

  private static long derived(
      Archive archive, Path target, Set<Sha256> originals, List<UUID> notes, String noteKind)
      throws IOException {
    Path from = archive.root().resolve(Derived.FOLDER);
    Path to = target.resolve(Derived.FOLDER);
    List<Derived.Lying> made = archive.derived().madeFrom(originals);
    Set<String> known = new HashSet<>();
    originals.forEach(original -> known.add(original.hex()));
    made.forEach(lying -> known.add(lying.name()));
    long sizeBytes = 0;
    for (Derived.Lying lying : made) {
      Set<String> others = new HashSet<>(Derived.digests(lying));
      others.removeAll(known);
      // Digests that name neither an original nor a derivation here are those of models.
      others.removeIf(digest -> archive.originals().find(new Sha256(digest)).isEmpty());
      if (others.isEmpty()) {
        for (Path file : lying.files()) {
          sizeBytes += copy(from, file, to);
        }
      }
    }
    for (UUID subject : notes) {
      for (Path file : archive.derived().ofNote(noteKind, subject)) {
        sizeBytes += copy(from, file, to);
      }
    }
    return sizeBytes;
  }

  private static long copy(Path from, Path file, Path to) throws IOException {
    Path copy = to.resolve(from.relativize(file).toString());
    Files.createDirectories(copy.resolveSibling("."));
    Files.copy(file, copy);
    return Files.size(copy);
  }

  /** The lending by which an archive is a part of another; empty for an archive of its own. */
  public static Optional<UUID> of(Archive archive) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT lending FROM lent_part")
                    .mapTo(String.class)
                    .findFirst()
                    .map(UUID::fromString));
  }
}
