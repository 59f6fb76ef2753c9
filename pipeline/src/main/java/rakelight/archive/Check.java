package rakelight.archive;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;

/**
 * Compares an archive with what it promises: every original with its digest, the ledger with
 * itself, the state tables with a replay of the journal. Changes nothing; the replay is done on a
 * copy of the ledger, so others may go on working.
 */
public final class Check {
  private final Archive archive;
  private final boolean readsOriginals;
  private final List<Fault> faults = new ArrayList<>();

  public Check(Archive archive) {
    this(archive, true);
  }

  private Check(Archive archive, boolean readsOriginals) {
    this.archive = archive;
    this.readsOriginals = readsOriginals;
  }

  /** A check of what lies in a bag, whose originals have just been compared with its manifests. */
  public static Check afterVerifying(Archive archive) {
    return new Check(archive, false);
  }

  /**
   * Something that isn't as promised.
   *
   * @param code a word for machines, such as {@code original-changed}
   * @param where the file, table or decision
   * @param text what was found and what to do, one line
   */
  public record Fault(String code, String where, String text) {}

  /**
   * What was found.
   *
   * @param originals how many were read and compared
   * @param decisions how many the journal holds
   * @param derived how many derivations there are of each stage
   */
  public record Result(
      List<Fault> faults, int originals, long decisions, Map<String, Long> derived) {
    public Result {
      faults = List.copyOf(faults);
      derived = Map.copyOf(derived);
    }
  }

  /**
   * Checks everything.
   *
   * @param expected the originals that the ledger speaks of
   * @param progress is told of each original as it has been read
   */
  public Result run(Collection<Path> expected, Consumer<Path> progress) {
    originals(expected, progress);
    ledger();
    return new Result(faults, expected.size(), archive.journal().lastCounter(), derived());
  }

  private void originals(Collection<Path> expected, Consumer<Path> progress) {
    Set<Path> known = new HashSet<>(expected);
    for (Path original : expected) {
      if (!Files.exists(original)) {
        add(
            "original-missing",
            original,
            "the original is gone. Restore it from a backup, or ingest the same file again.");
      } else if (readsOriginals) {
        compare(original);
      }
      progress.accept(original);
    }
    for (Path file : archive.originals().all()) {
      if (!known.contains(file)) {
        add(
            "original-stray",
            file,
            "no row speaks of this file. If an ingest or merge was cut short, run it again: it"
                + " takes the file up.");
      }
    }
  }

  private void compare(Path original) {
    try {
      Sha256 found = Sha256.of(original);
      if (!Originals.digestInName(original).filter(found::equals).isPresent()) {
        add(
            "original-changed",
            original,
            "its content has changed: its SHA-256 is now "
                + found
                + ". Restore it from a backup, or ingest the same file again.");
      }
    } catch (IOException e) {
      add("original-unreadable", original, "can't be read (" + e + "). Check the disk.");
    }
  }

  private void ledger() {
    Path copy = archive.workingFolder().resolve("check-" + Uuid7.next() + ".sqlite");
    try {
      archive.ledger().backupTo(copy);
      try (Ledger ledger = Ledger.open(copy)) {
        inspect(ledger);
      }
    } catch (ArchiveException e) {
      add("ledger-damaged", archive.root().resolve(Ledger.FILE), String.valueOf(e.getMessage()));
    } catch (DateTimeException | IllegalArgumentException e) {
      add(
          "ledger-damaged",
          archive.root().resolve(Ledger.FILE),
          "the journal can't be replayed (" + e.getMessage() + "). Restore it from a backup.");
    } finally {
      removeCopy(copy);
    }
  }

  private void removeCopy(Path copy) {
    for (String ending : List.of("", "-wal", "-shm")) {
      try {
        Files.deleteIfExists(copy.resolveSibling(copy.getFileName() + ending));
      } catch (IOException e) {
        add("check-copy-left", copy, "can't be removed (" + e + "). Remove it.");
      }
    }
  }

  private void inspect(Ledger copy) {
    Path file = archive.root().resolve(Ledger.FILE);
    copy.read(
        handle -> {
          handle
              .createQuery("PRAGMA integrity_check")
              .mapTo(String.class)
              .filter(line -> !line.equals("ok"))
              .forEach(line -> add("ledger-damaged", file, line + ". Restore it from a backup."));
          handle
              .createQuery("PRAGMA foreign_key_check")
              .map((row, context) -> row.getString(1) + " points to " + row.getString(3))
              .forEach(
                  line -> add("ledger-reference", file, line + ", where there is no such row."));
          return 0;
        });
    copy.read(Chain::firstBreak)
        .ifPresent(
            counter ->
                faults.add(
                    new Fault(
                        "journal-broken",
                        "decision " + counter,
                        "isn't as it was written, or one is missing there: the chain of digests"
                            + " breaks. Compare it with a backup (`check --against`).")));
    Journal journal = archive.journal().on(copy);
    unknownKinds(copy, journal);
    Map<String, Map<String, Integer>> stored = copy.read(handle -> rows(handle, journal));
    journal.rebuild();
    Map<String, Map<String, Integer>> replayed = copy.read(handle -> rows(handle, journal));
    for (String table : journal.rebuiltTables()) {
      compare(table, stored.getOrDefault(table, Map.of()), replayed.getOrDefault(table, Map.of()));
    }
  }

  /**
   * Compares the journal with that of a backup: all that the backup holds must still be there.
   *
   * @throws ArchiveException if there is no ledger in the folder
   */
  public void against(Path backup) {
    Path file = (Bag.isAt(backup) ? backup.resolve(Bag.PAYLOAD) : backup).resolve(Ledger.FILE);
    if (!Files.isRegularFile(file)) {
      throw new ArchiveException(backup + ": not a backup, it has no " + Ledger.FILE + ".");
    }
    Path copy = archive.workingFolder().resolve("check-" + Uuid7.next() + ".sqlite");
    try {
      Files.copy(file, copy);
      Optional<Chain.Head> head;
      try (Ledger ledger = Ledger.open(copy)) {
        ledger.write(
            handle -> {
              Chain.complete(handle);
              return 0;
            });
        head = ledger.read(Chain::head);
      }
      if (head.isPresent()
          && !archive.ledger().read(h -> Chain.at(h, head.get().counter())).equals(head)) {
        add(
            "journal-rewritten",
            archive.root().resolve(Ledger.FILE),
            "the journal isn't the one that was backed up to "
                + backup
                + ": up to decision "
                + head.get().counter()
                + " they should be alike. Find out which is right before you go on.");
      }
    } catch (IOException e) {
      throw new ArchiveException(copy + ": can't be written (" + e + "). Check the disk.", e);
    } finally {
      removeCopy(copy);
    }
  }

  private void unknownKinds(Ledger copy, Journal journal) {
    copy
        .read(
            handle ->
                handle
                    .createQuery("SELECT DISTINCT kind FROM decision ORDER BY kind")
                    .mapTo(String.class)
                    .list())
        .stream()
        .filter(kind -> !kind.equals(Decision.UNDONE) && !journal.kinds().contains(kind))
        .forEach(
            kind ->
                faults.add(
                    new Fault(
                        "unknown-kind",
                        kind,
                        "this program knows no decisions of that kind. Use a newer version.")));
  }

  private void compare(String table, Map<String, Integer> stored, Map<String, Integer> replayed) {
    long tooMany = surplus(stored, replayed);
    long missing = surplus(replayed, stored);
    if (tooMany + missing > 0) {
      faults.add(
          new Fault(
              "state-differs",
              table,
              missing
                  + " rows that follow from the journal are missing, "
                  + tooMany
                  + " others are there. Rebuild the state with `check --rebuild`."));
    }
  }

  private static long surplus(Map<String, Integer> of, Map<String, Integer> over) {
    return of.entrySet().stream()
        .mapToLong(e -> Math.max(0, e.getValue() - over.getOrDefault(e.getKey(), 0)))
        .sum();
  }

  /** How often each row occurs, by the digest of its JSON, per table: rows can be long. */
  private static Map<String, Map<String, Integer>> rows(Handle handle, Journal journal) {
    Map<String, Map<String, Integer>> tables = new TreeMap<>();
    for (String table : journal.rebuiltTables()) {
      Map<String, Integer> rows = new TreeMap<>();
      handle
          .createQuery("SELECT * FROM " + table)
          .mapToMap()
          .forEach(
              row -> rows.merge(Sha256.of(Json.canonical((Object) row)).hex(), 1, Integer::sum));
      tables.put(table, rows);
    }
    return tables;
  }

  private Map<String, Long> derived() {
    Map<String, Long> counts = new TreeMap<>();
    archive
        .derived()
        .eachLying(
            lying -> {
              counts.merge(lying.stage(), 1L, Long::sum);
              changed(lying);
            });
    return counts;
  }

  private void changed(Derived.Lying lying) {
    try {
      for (Path file : archive.derived().changed(lying)) {
        add(
            "derived-changed",
            file,
            "isn't as it was written. `check --drop-unneeded` deletes it; it is made anew.");
      }
    } catch (IOException e) {
      add("derived-unreadable", lying.files().get(0), "can't be read (" + e + "). Check the disk.");
    }
  }

  private void add(String code, Path where, String text) {
    faults.add(new Fault(code, where.toString(), text));
  }
}
