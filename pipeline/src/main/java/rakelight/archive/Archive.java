package rakelight.archive;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * One open archive: a folder with the originals, the ledger and what was derived from them.
 *
 * <p>Several processes may have the same archive open, on one machine; never put it on a network
 * share, where SQLite's locks don't hold.
 */
public final class Archive implements AutoCloseable {
  private final Path root;
  private final Ledger ledger;
  private final Journal journal;
  private final Originals originals;
  private final Derived derived;
  private final Conclusions conclusions;
  private final Withdrawals withdrawals;
  private final Optional<Scratch> scratch;
  private final List<Projection> projections;

  private Archive(
      Path root, Ledger ledger, List<Projection> projections, Optional<Scratch> scratch) {
    this.root = root;
    this.ledger = ledger;
    this.scratch = scratch;
    this.projections = List.copyOf(projections);
    List<Projection> all = new ArrayList<>(projections);
    all.add(new GroundProjection());
    all.add(new SameThings());
    all.add(new ApartProjection());
    all.add(new WithdrawalProjection(all));
    this.journal = new Journal(ledger, all);
    this.originals = new Originals(root.resolve(Originals.FOLDER));
    this.derived =
        new Derived(root.resolve(Derived.FOLDER), scratch.map(Scratch::folder), originals);
    this.conclusions = new Conclusions(workingFolder());
    this.withdrawals = new Withdrawals(ledger, journal, originals, derived);
  }

  /**
   * Makes a new archive.
   *
   * @param root a folder that is empty or doesn't exist yet
   * @throws ArchiveException if the folder is in use or can't be written
   */
  public static Archive init(Path root, Ground ground, List<Projection> projections) {
    try {
      Files.createDirectories(root);
      try (DirectoryStream<Path> entries = Files.newDirectoryStream(root)) {
        if (entries.iterator().hasNext()) {
          throw new ArchiveException(
              root + ": the folder isn't empty. Give a new folder for the archive.");
        }
      }
      Files.createDirectories(root.resolve(Originals.FOLDER));
      Files.createDirectories(root.resolve(Derived.FOLDER));
    } catch (IOException e) {
      throw new ArchiveException(
          root + ": no archive can be made there (" + e + "). Give a folder you may write to.", e);
    }
    Archive archive =
        new Archive(root, Ledger.open(root.resolve(Ledger.FILE)), projections, Optional.empty());
    UUID id = Uuid7.next();
    archive
        .journal()
        .append(NewDecision.of(Decision.PROGRAM, GroundProjection.DESCRIBED, 1, id, ground));
    archive.describeItself();
    return archive;
  }

  /** Whether an archive lies in a folder, whole or not. */
  public static boolean isAt(Path root) {
    return Files.isRegularFile(root.resolve(Ledger.FILE));
  }

  /**
   * Opens an archive. One whose folder can't be written is only looked at: what would change it is
   * refused, and what must be made to look at it goes to a folder of its own.
   *
   * @throws ArchiveException if there is none, or it is damaged or newer than this program
   */
  public static Archive open(Path root, List<Projection> projections) {
    Path file = root.resolve(Ledger.FILE);
    requireArchive(root);
    if (!Files.isWritable(root) || !Files.isWritable(file)) {
      return openToLook(root, projections);
    }
    Archive archive = new Archive(root, Ledger.open(file), projections, Optional.empty());
    archive.journal.completeChain();
    archive.describeItself();
    return archive;
  }

  private static void requireArchive(Path root) {
    if (Bag.isAt(root)) {
      throw new ArchiveException(
          root
              + ": a backup, not an archive. `restore` makes an archive of it; `check` tells"
              + " whether it is whole.");
    }
    if (!isAt(root)) {
      throw new ArchiveException(
          root + ": not an archive, it has no " + Ledger.FILE + ". Make one with `init`.");
    }
  }

  /**
   * Opens an archive to look at it only, wherever it lies; nothing in its folder is written.
   *
   * @throws ArchiveException if there is none, or it is damaged or newer than this program
   */
  public static Archive openToLook(Path root, List<Projection> projections) {
    requireArchive(root);
    Scratch scratch = Scratch.with(root.resolve(Ledger.FILE));
    try {
      Ledger ledger = Ledger.open(scratch.folder().resolve(Ledger.FILE));
      Archive archive = new Archive(root, ledger, projections, Optional.of(scratch));
      archive.journal.completeChain();
      ledger.refuseWrites(archive.onlyLookedAt());
      return archive;
    } catch (ArchiveException e) {
      scratch.close();
      throw e;
    }
  }

  /** The same archive with a copy of its ledger, in which what might be can be tried. */
  Archive copiedToLook() {
    Scratch folder = Scratch.of(copy -> ledger.backupTo(copy.resolve(Ledger.FILE)));
    try {
      Ledger copy = Ledger.open(folder.folder().resolve(Ledger.FILE));
      return new Archive(root, copy, projections, Optional.of(folder));
    } catch (ArchiveException e) {
      folder.close();
      throw e;
    }
  }

  /** Whether the archive's folder can't be written, so that nothing can be changed. */
  public boolean isOnlyLookedAt() {
    return scratch.isPresent();
  }

  /**
   * Refuses what would write into the folder.
   *
   * @throws ArchiveException if the archive is only looked at
   */
  public void requireWritable() {
    if (isOnlyLookedAt()) {
      throw new ArchiveException(onlyLookedAt());
    }
  }

  private String onlyLookedAt() {
    return root
        + ": the folder can't be written, so the archive is only looked at. Make it writable, or"
        + " copy it with `backup`, `restore` it elsewhere and work there.";
  }

  /** Where what is made on the way, and may be deleted, can be written. */
  public Path workingFolder() {
    return scratch.map(Scratch::folder).orElse(root.resolve(Derived.FOLDER));
  }

  /** Lays the pages that say what the archive is beside it, where they aren't true any more. */
  private void describeItself() {
    try {
      Notice.write(root, ground(), ledger.schema());
    } catch (IOException e) {
      throw new ArchiveException(
          root + ": its own description can't be written (" + e + "). Check the folder.", e);
    }
  }

  public Path root() {
    return root;
  }

  /** The archive's own id: the subject of what is decided about the ground. */
  public UUID id() {
    return ledger.read(GroundProjection::id);
  }

  /** The ground as last described. */
  public Ground ground() {
    return ledger.read(GroundProjection::read);
  }

  /** Describes the ground anew. */
  public void describe(Ground ground, String reader) {
    ledger.write(
        handle ->
            journal.append(
                NewDecision.of(
                    reader,
                    GroundProjection.DESCRIBED,
                    1,
                    GroundProjection.archiveId(handle),
                    ground)));
  }

  public Originals originals() {
    return originals;
  }

  public Derived derived() {
    return derived;
  }

  /** What was worked out from the ledger and needn't be again. */
  public Conclusions conclusions() {
    return conclusions;
  }

  /** What was withdrawn. */
  public Withdrawals withdrawals() {
    return withdrawals;
  }

  public Journal journal() {
    return journal;
  }

  public Ledger ledger() {
    return ledger;
  }

  @Override
  public void close() {
    conclusions.close();
    ledger.close();
    scratch.ifPresent(Scratch::close);
  }
}
