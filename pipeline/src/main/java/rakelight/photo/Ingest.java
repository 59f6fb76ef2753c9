package rakelight.photo;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Predicate;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.Incoming;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.PhotographId;

/**
 * Takes folders of photographs into an archive.
 *
 * <p>Workers read, digest, judge and store files; the calling thread writes the rows in the order
 * of the paths, {@value #FILES_PER_COMMIT} in one transaction, each time after the folders of the
 * originals have been flushed. So a row never speaks of a file that isn't there; a file without a
 * row, left by a run that died, is taken up by the next. Several processes may ingest at once.
 */
public final class Ingest {
  /** One flush of the ledger costs as much as several photographs (measured: 32 is enough). */
  private static final int FILES_PER_COMMIT = 32;

  /** Digesting and copying keep two cores busy; more only wait for the disk. */
  private static final int MOST_WORKERS = 2;

  private static final int READ_AHEAD = 8;

  private final Archive archive;
  private final PhotoStore store;
  private final Credits credits;
  private final String reader;
  private final Predicate<FileFormat> shown;
  private final IngestListener listener;

  private int taken;
  private int alreadyThere;
  private int duplicates;
  private int refused;
  private int withoutPicture;
  private int mended;
  private int withdrawn;

  /** Where pictures of every kind can be shown. */
  public Ingest(Archive archive, Credits credits, String reader, IngestListener listener) {
    this(archive, credits, reader, format -> true, listener);
  }

  /**
   * @param shown whether pictures of a kind can be shown here; others are taken all the same
   */
  public Ingest(
      Archive archive,
      Credits credits,
      String reader,
      Predicate<FileFormat> shown,
      IngestListener listener) {
    this.archive = archive;
    this.store = new PhotoStore(archive);
    this.credits = credits;
    this.reader = reader;
    this.shown = shown;
    this.listener = listener;
  }

  /**
   * Takes every photograph below the folders.
   *
   * @param folders folders, or single files
   * @param leftAside files not to be looked at, such as a manifest that lies among them
   * @throws ArchiveException if the archive can't be written; what was taken so far is kept
   */
  public IngestReport run(List<Path> folders, Set<Path> leftAside) {
    archive.requireWritable();
    Set<Path> aside = new HashSet<>();
    leftAside.forEach(path -> aside.add(path.toAbsolutePath().normalize()));
    aside.add(archive.root().toAbsolutePath().normalize());
    FolderWalk walk = FolderWalk.of(folders, aside);
    listener.found(walk.files().size(), walk.sizeBytes());
    archive
        .ledger()
        .write(
            handle -> {
              walk.refusals().forEach(this::refuse);
              return 0;
            });
    int workers = Math.min(MOST_WORKERS, Runtime.getRuntime().availableProcessors());
    ExecutorService pool = Executors.newFixedThreadPool(workers);
    try (Incoming incoming = archive.originals().receive()) {
      takeAll(walk.files(), pool, incoming);
    } finally {
      pool.shutdownNow();
    }
    archive.withdrawals().putAway();
    return new IngestReport(
        taken,
        alreadyThere,
        duplicates,
        refused,
        withoutPicture,
        mended,
        withdrawn,
        walk.passedOver());
  }

  private void takeAll(List<FolderWalk.Found> files, ExecutorService pool, Incoming incoming) {
    Deque<Future<FileReading>> ahead = new ArrayDeque<>();
    List<FileReading> batch = new ArrayList<>();
    int next = 0;
    try {
      while (next < files.size() || !ahead.isEmpty()) {
        while (next < files.size() && ahead.size() < READ_AHEAD) {
          FolderWalk.Found file = files.get(next++);
          ahead.add(pool.submit(() -> FileReading.of(file, archive, store, incoming)));
        }
        FileReading reading = await(ahead.removeFirst());
        listener.read(reading.sizeBytes());
        batch.add(reading);
        if (batch.size() == FILES_PER_COMMIT) {
          commit(batch, incoming);
          batch.clear();
        }
      }
    } finally {
      ahead.forEach(future -> future.cancel(false));
      commit(batch, incoming);
    }
  }

  private static FileReading await(Future<FileReading> future) {
    try {
      return future.get();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof ArchiveException archiveException) {
        throw archiveException;
      }
      throw new IllegalStateException("a file could not be judged: " + e.getCause(), e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new ArchiveException("Interrupted. Run the command again; it goes on.", e);
    }
  }

  private void commit(List<FileReading> batch, Incoming incoming) {
    if (batch.isEmpty()) {
      return;
    }
    try {
      incoming.settle();
    } catch (IOException e) {
      throw new ArchiveException(
          archive.root() + ": its folders can't be flushed (" + e + "). Check the disk.", e);
    }
    archive
        .ledger()
        .write(
            handle -> {
              batch.forEach(this::record);
              return 0;
            });
  }

  private void record(FileReading reading) {
    String path = reading.path().toString();
    if (reading.refusal().isPresent()) {
      refuse(reading.refusal().get());
      return;
    }
    Optional<Photograph> known = store.photograph(reading.digest().orElseThrow());
    if (known.isPresent()) {
      if (reading.stored() && reading.content().isEmpty()) {
        mend(known.get(), path);
      }
      meetAgain(known.get(), path);
      return;
    }
    Optional<DecisionId> withdrawal = archive.withdrawals().of(reading.digest().orElseThrow());
    if (withdrawal.isPresent()) {
      withdrawn++;
      listener.withdrawn(path, withdrawal.get());
      return;
    }
    if (reading.content().isEmpty()) {
      throw new ArchiveException(
          path + ": its row was removed while it was being read. Run the command again.");
    }
    take(reading, reading.content().get());
  }

  private void take(FileReading reading, FileContent content) {
    Inspection file = content.inspection();
    FileTags tags = content.tags();
    String path = reading.path().toString();
    archive
        .journal()
        .append(
            NewDecision.of(
                reader,
                PhotoDecisions.INGESTED,
                1,
                PhotographId.next().value(),
                new PhotoDecisions.Ingested(
                    reading.digest().orElseThrow(),
                    String.valueOf(reading.path().getFileName()),
                    path,
                    encoded(reading.path()),
                    reading.sizeBytes(),
                    file.format(),
                    file.picture(),
                    file.preview(),
                    file.widthPx(),
                    file.heightPx(),
                    content.orientation(),
                    tags.taken(),
                    tags.position(),
                    tags.direction(),
                    tags.camera(),
                    tags.cameraSerial(),
                    tags.lens(),
                    tags.focalLengthMm(),
                    tags.focalLength35mm(),
                    credits.photographer(),
                    credits.credit(),
                    credits.rights(),
                    Json.tree(tags.all()),
                    tags.errors(),
                    file.damage(),
                    Optional.of(tags.offered()))));
    taken++;
    file.damage().ifPresent(damage -> listener.damaged(path, damage));
    if (file.picture() == PictureKind.NONE
        || (file.picture() == PictureKind.ITSELF && !shown.test(file.format()))) {
      withoutPicture++;
      listener.withoutPicture(path, file.format(), file.picture());
    }
  }

  /** What a machine made of the damaged bytes goes; it is made anew. */
  private void mend(Photograph known, String path) {
    try {
      archive.derived().dropMadeFrom(Set.of(known.sha256()));
    } catch (IOException e) {
      throw new ArchiveException(
          archive.root() + ": what was made of a damaged original can't be deleted (" + e + ").",
          e);
    }
    mended++;
    listener.mended(path, known.originalName());
  }

  private void meetAgain(Photograph known, String path) {
    if (known.originalPath().equals(path) || store.otherPaths(known.id()).contains(path)) {
      alreadyThere++;
      return;
    }
    archive
        .journal()
        .append(
            NewDecision.of(
                reader,
                PhotoDecisions.MET_AGAIN,
                1,
                known.id().value(),
                new PhotoDecisions.MetAgain(path)));
    duplicates++;
    listener.duplicate(path, known.originalPath());
  }

  private void refuse(RefusedFile refusal) {
    if (!store.refusals().contains(refusal)) {
      archive
          .journal()
          .append(
              NewDecision.of(
                  reader, PhotoDecisions.REFUSED, 1, refusalId(refusal.path()), refusal));
    }
    refused++;
    listener.refused(refusal);
  }

  /** The same path always has the same id, so that its latest refusal replaces the one before. */
  private static UUID refusalId(String path) {
    return UUID.nameUUIDFromBytes(
        ("refusal " + path).getBytes(java.nio.charset.StandardCharsets.UTF_8));
  }

  /** A path whose bytes are no text on this machine is also kept percent-encoded. */
  private static Optional<String> encoded(Path path) {
    return path.toString().indexOf('\uFFFD') < 0
        ? Optional.empty()
        : Optional.of(path.toUri().getRawPath());
  }
}
