package rakelight.desk;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.ground.KeptAnswers;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Linkage;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;

/**
 * Keeps what follows from all confirmed readings while nothing moves that it follows from. After a
 * reading of one face its marker alone is looked at again. Who may be one with whom is worked out
 * beside, by one thread of its own.
 */
final class Concluding implements AutoCloseable {
  /** Nothing here follows from these. */
  private static final Set<String> WITHOUT_HEED =
      Set.of("reading.drafted", "condition.noted", "face.left", "proposal.kept");

  /** Nor from those whose kind begins so. */
  private static final Set<String> THINGS_WITHOUT_HEED = Set.of("question", "reader");

  /** These leave what readings assert as it is. */
  private static final Set<String> OF_OTHER_THINGS =
      Set.of("person", "source", "sought", "link", "family", "position", "row", "point", "plot");

  /** These are about one face. */
  private static final Set<String> OF_A_FACE =
      Set.of("reading.signed", "reading.imported", "parse.corrected");

  private static final int SECONDS_TO_WAIT = 2;
  private static final int SECONDS_TO_END = 20;

  /** So long nothing must have been decided; a choice. */
  private static final int SECONDS_QUIET = 2;

  private static final long MILLIS_OF_PROPOSED = 30_000;

  private final Archive archive;
  private final Clock clock;
  private final Evidence evidence;
  private final KeptAnswers answers;
  private final PhotoStore photographs;
  private final MarkerStore markers;
  private final ExecutorService worker =
      Executors.newSingleThreadExecutor(
          run -> {
            Thread thread = new Thread(run, "comparing persons");
            thread.setDaemon(true);
            thread.setPriority(Thread.MIN_PRIORITY);
            return thread;
          });
  private final ScheduledExecutorService ahead =
      Executors.newSingleThreadScheduledExecutor(
          run -> {
            Thread thread = new Thread(run, "telling everybody");
            thread.setDaemon(true);
            thread.setPriority(Thread.MIN_PRIORITY);
            return thread;
          });
  private volatile long lastSeen = -1;
  private @Nullable Conclusion conclusion;
  private List<FaceStatements> faces = List.of();
  private long counter = -1;
  private List<FaceStatements> proposed = List.of();
  private @Nullable Conclusion proposedBeside;
  private long proposedAt;
  private Optional<List<Linkage.Pair>> newestPairs = Optional.empty();

  Concluding(Archive archive, Clock clock) {
    this.archive = archive;
    this.clock = clock;
    this.evidence = new Evidence(archive);
    this.answers = new KeptAnswers(archive);
    this.photographs = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
    ScheduledFuture<?> unused =
        ahead.scheduleWithFixedDelay(
            this::tellAhead, SECONDS_QUIET, SECONDS_QUIET, TimeUnit.SECONDS);
  }

  /**
   * Works out what everybody may see as soon as nothing was decided for a moment, where somebody
   * asked for it before, so that guests seldom wait. Whoever asks earlier waits: what was told
   * before the last decision is never shown.
   */
  void tellAhead() {
    Optional<Conclusion> known;
    synchronized (this) {
      known = Optional.ofNullable(conclusion);
    }
    long last = archive.journal().lastCounter();
    boolean quiet = last == lastSeen;
    lastSeen = last;
    if (quiet && known.map(Conclusion::isToldAskedFor).orElse(false)) {
      try {
        now().tell();
      } catch (RuntimeException e) {
        // Whoever asks for it meets it again, and is told.
        lastSeen = -1;
      }
    }
  }

  /**
   * Pairs of mentions that may be of one person and of which nobody has decided.
   *
   * @param behind whether what was decided last isn't reckoned with yet
   */
  record Pairs(List<Linkage.Pair> pairs, boolean behind) {}

  /** What follows from the ledger as it is now. */
  synchronized Conclusion now() {
    return archive
        .ledger()
        .read(
            handle -> {
              long last = archive.journal().lastCounter();
              LocalDate day = LocalDate.now(clock.withZone(archive.ground().zone()));
              List<Decision> since =
                  counter < 0 || last == counter ? List.of() : archive.journal().since(counter);
              List<Decision> heeded =
                  since.stream()
                      .map(this::undone)
                      .filter(decision -> !WITHOUT_HEED.contains(decision.kind()))
                      .filter(decision -> !THINGS_WITHOUT_HEED.contains(thing(decision)))
                      .toList();
              Conclusion known = conclusion;
              if (counter < 0) {
                faces = evidence.confirmed();
              } else if (!heeded.isEmpty()) {
                follow(heeded);
              }
              counter = last;
              if (known == null || !heeded.isEmpty() || !known.day().equals(day)) {
                known = new Conclusion(archive, faces, day, answers);
                conclusion = known;
              }
              return known;
            });
  }

  /** What an undo is about in the end. */
  private Decision undone(Decision decision) {
    return decision.kind().equals(Decision.UNDONE)
        ? archive
            .journal()
            .find(DecisionId.of(decision.payload().path("undoes").asText()))
            .map(this::undone)
            .orElse(decision)
        : decision;
  }

  /** What it is about, as its kind begins. */
  private static String thing(Decision decision) {
    return decision.kind().substring(0, Math.max(0, decision.kind().indexOf('.')));
  }

  private void follow(List<Decision> decisions) {
    Set<MarkerId> touched = new HashSet<>();
    for (Decision decision : decisions) {
      Optional<Face> face =
          OF_A_FACE.contains(decision.kind())
              ? photographs.face(new FaceId(decision.subject()))
              : Optional.empty();
      if (face.isPresent()) {
        touched.add(face.get().marker());
      } else if (!OF_OTHER_THINGS.contains(thing(decision))) {
        faces = evidence.confirmed();
        return;
      }
    }
    if (!touched.isEmpty()) {
      List<FaceStatements> all = new ArrayList<>(faces);
      all.removeIf(face -> touched.contains(face.marker().id()));
      for (MarkerId id : touched) {
        Optional<Marker> marker = markers.marker(id);
        marker.ifPresent(one -> all.addAll(evidence.confirmed(one)));
      }
      all.sort(Comparator.comparing(FaceStatements::marker, MarkerStore.BY_NUMBER));
      faces = List.copyOf(all);
    }
  }

  /**
   * Who may be one with whom; empty while that is worked out for the first time. Waits a moment for
   * what was decided last.
   */
  Optional<Pairs> pairs() {
    Conclusion now = now();
    worker.execute(this::pair);
    try {
      return Optional.of(new Pairs(now.pairs().get(SECONDS_TO_WAIT, TimeUnit.SECONDS), false));
    } catch (TimeoutException e) {
      return newestPairs().map(earlier -> new Pairs(now.stillOpen(earlier), true));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.empty();
    } catch (ExecutionException e) {
      throw e.getCause() instanceof RuntimeException cause
          ? cause
          : new IllegalStateException(e.getCause());
    }
  }

  /**
   * What machines' proposals assert of faces that nobody has confirmed; none of it counts. A
   * proposal isn't told by the journal, so this is looked at anew after a while.
   */
  synchronized List<FaceStatements> proposed() {
    long now = clock.millis();
    Conclusion of = now();
    if (of != proposedBeside || now - proposedAt > MILLIS_OF_PROPOSED) {
      proposed = evidence.proposed();
      proposedBeside = of;
      proposedAt = now;
    }
    return proposed;
  }

  private synchronized Optional<List<Linkage.Pair>> newestPairs() {
    return newestPairs;
  }

  /** Only for the newest state: whoever waits for an older one goes on with what was known. */
  private void pair() {
    Conclusion newest = now();
    newest.pair();
    if (newest.pairs().isDone() && !newest.pairs().isCompletedExceptionally()) {
      synchronized (this) {
        newestPairs = Optional.of(newest.pairs().join());
      }
    }
  }

  @Override
  public void close() {
    ahead.shutdownNow();
    worker.shutdownNow();
    try {
      worker.awaitTermination(SECONDS_TO_END, TimeUnit.SECONDS);
      ahead.awaitTermination(SECONDS_TO_END, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
