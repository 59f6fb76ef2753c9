package rakelight.reading;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.Semaphore;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.PictureSource;
import rakelight.photo.Showing;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativesMissingException;
import rakelight.picture.Picture;

/**
 * Makes the proposals that an archive lacks: reads every photograph that hasn't been read with
 * these models, then puts the photographs of each face together.
 *
 * <p>Reading one photograph is a derivation ({@code derived/reading}), so a run that was stopped
 * goes on where it was. One that can't be read is named and the run goes on. Before a photograph is
 * read a mark is left beside its derivation, and taken away afterwards; a mark that is still there
 * tells that the program died over it. It is tried once more; if the program dies again, it is set
 * aside.
 */
public final class Proposer {
  private static final String MARK = "started";

  /** What one worker needs at most besides pixels, and the program without workers. */
  private static final long WORKER_BYTES = 600L << 20;

  private static final long PROGRAM_BYTES = 700L << 20;

  /** Pixels being worked on at one time, in megapixels; a larger picture is read alone. */
  private static final int MEGAPIXELS_IN_FLIGHT = 60;

  private final Archive archive;
  private final PhotoStore photos;
  private final ProposalStore proposals;
  private final MachineReader reader;
  private final ReadPhotograph readPhotograph;
  private final MergeFace mergeFace;
  private final StageInputs inputs;
  private final Semaphore megapixels = new Semaphore(MEGAPIXELS_IN_FLIGHT);
  private final Set<Path> marks = ConcurrentHashMap.newKeySet();

  /**
   * @param reader borrowed
   */
  public Proposer(Archive archive, MachineReader reader) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
    this.proposals = new ProposalStore(archive);
    this.reader = reader;
    this.readPhotograph = new ReadPhotograph(reader);
    this.mergeFace = new MergeFace(reader);
    this.inputs = new StageInputs(photos, proposals);
  }

  /** A photograph that has no proposal, or whose face has none, and why. */
  public record Refused(Photograph photograph, String reason) {}

  /**
   * What a run did.
   *
   * @param read photographs read now
   * @param readBefore photographs that had been read with these models
   * @param made proposals made now
   * @param madeBefore proposals that were up to date
   * @param beside stones beside others on what was read now, of which nobody has said which they
   *     are
   * @param refused photographs that couldn't be read or were set aside
   */
  public record Report(
      int read, int readBefore, int made, int madeBefore, int beside, List<Refused> refused) {
    public Report {
      refused = List.copyOf(refused);
    }
  }

  /** Told of every photograph that is done, in any order, one at a time. */
  @FunctionalInterface
  public interface Progress {
    /**
     * @param done photographs done so far in this run
     * @param all photographs to be read in this run
     */
    void done(int done, int all, Photograph photograph);
  }

  /** How many workers this machine has memory and cores for. */
  public static int workersHere() {
    long memory =
        ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class).getTotalMemorySize();
    long byMemory = (memory - PROGRAM_BYTES) / WORKER_BYTES;
    return (int) Math.max(1, Math.min(byMemory, Runtime.getRuntime().availableProcessors()));
  }

  /** Makes what is missing. */
  public Report run(int workers, Progress progress) {
    List<Showing> readable = readable(photos);
    Map<Showing, DerivationKey> keys = new LinkedHashMap<>();
    readable.forEach(shown -> keys.put(shown, readingKey(shown)));
    List<Showing> missing = readable.stream().filter(p -> !isRead(keyOf(keys, p))).toList();
    List<Refused> unread = readMissing(missing, keys, workers, progress);
    List<Refused> refused = new ArrayList<>(unread);
    int made = 0;
    int before = 0;
    for (Map.Entry<UUID, List<Showing>> subject : subjects(readable).entrySet()) {
      List<Showing> read = subject.getValue().stream().filter(p -> isRead(keyOf(keys, p))).toList();
      if (read.isEmpty()) {
        before++;
        continue;
      }
      try {
        if (propose(subject.getKey(), read)) {
          made++;
        } else {
          before++;
        }
      } catch (BadInputException e) {
        refused.add(
            new Refused(read.get(0).photograph(), "its face has no proposal: " + e.getMessage()));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return new Report(
        missing.size() - unread.size(),
        readable.size() - missing.size(),
        made,
        before,
        readBeside(missing.stream().filter(shown -> shown.frame().isEmpty()).toList(), workers),
        refused);
  }

  /**
   * Reads the stones that photographs show beside the one they are of.
   *
   * @return of how many somebody has to say which they are
   */
  private int readBeside(List<Showing> wholes, int workers) {
    StonesBeside beside = new StonesBeside(archive);
    Map<Showing, DerivationKey> keys = new LinkedHashMap<>();
    for (Showing whole : wholes) {
      beside.unread(whole.photograph()).forEach(stone -> keys.put(stone, readingKey(stone)));
    }
    // What can't be read there is no photograph that is missing.
    readMissing(List.copyOf(keys.keySet()), keys, workers, (done, all, photograph) -> {});
    return (int)
        keys.keySet().stream()
            .map(Showing::photograph)
            .distinct()
            .flatMap(photograph -> beside.on(photograph).stream())
            .filter(StoneBeside::isOpen)
            .count();
  }

  /** Reads the stones beside others that no run has read yet, as {@link #run} does. */
  public void readBeside(int workers) {
    readBeside(
        readable(photos).stream().filter(shown -> shown.frame().isEmpty()).toList(), workers);
  }

  /**
   * What is read: photographs with a picture, not of a field card, not set aside, no copies of
   * others that are read, which would count one shot twice; and of photographs of several stones
   * each that is a face.
   */
  static List<Showing> readable(PhotoStore photos) {
    List<Showing> shown =
        photos.showings().stream()
            .filter(showing -> isReadable(showing.photograph(), showing.frame().isPresent()))
            .toList();
    Map<PhotographId, FaceId> faces = new HashMap<>();
    shown.stream()
        .filter(showing -> showing.frame().isEmpty())
        .forEach(whole -> whole.face().ifPresent(f -> faces.put(whole.photograph().id(), f)));
    return shown.stream()
        .filter(
            showing ->
                showing.face().isEmpty()
                    || !showing.face().equals(showing.photograph().copyOf().map(faces::get)))
        .toList();
  }

  /** A person who says which stone on it is which has made out more than it was set aside for. */
  private static boolean isReadable(Photograph photograph, boolean inParts) {
    return photograph.isShown(Picture::isRead)
        && photograph.card().isEmpty()
        && (inParts || photograph.setAside().isEmpty());
  }

  private boolean isRead(DerivationKey key) {
    return archive.derived().has(ReadPhotograph.KIND, key);
  }

  /** Reads one photograph, or takes what was read before. */
  public ReadPicture read(Photograph photograph) throws BadInputException, IOException {
    return read(Showing.whole(photograph, List.of()));
  }

  private ReadPicture read(Showing showing) throws BadInputException, IOException {
    DerivationKey key = archive.derived().make(readPhotograph, input(showing));
    return archive.derived().result(ReadPhotograph.KIND, key).orElseThrow();
  }

  /** The key under which a photograph's reading lies. */
  DerivationKey readingKey(Showing showing) {
    return ReadPhotograph.KIND.key(input(showing));
  }

  private ReadPhotograph.Input input(Showing showing) {
    return readPhotograph.input(showing.photograph().source(), showing.frame());
  }

  /** What is to be merged of photographs that have been read. */
  MergeFace.Input mergeInput(List<Showing> read) {
    return mergeFace.input(read.stream().map(p -> inputs.view(p, readingKey(p))).toList());
  }

  /**
   * The upright picture of a photograph, from its original or the preview inside.
   *
   * @throws BadInputException if it can't be decoded
   */
  public static GrayImage pixels(Archive archive, Photograph photograph) throws BadInputException {
    PictureSource source = photograph.source();
    return Picture.upright(source, archive.derived().given(source));
  }

  private static DerivationKey keyOf(Map<Showing, DerivationKey> keys, Showing showing) {
    return Optional.ofNullable(keys.get(showing)).orElseThrow();
  }

  private List<Refused> readMissing(
      List<Showing> missing, Map<Showing, DerivationKey> keys, int workers, Progress progress) {
    List<Refused> refused = new ArrayList<>();
    Thread takeMarksAway = new Thread(() -> marks.forEach(Proposer::deleteQuietly));
    Runtime.getRuntime().addShutdownHook(takeMarksAway);
    ExecutorService pool = Executors.newFixedThreadPool(Math.max(1, workers));
    try {
      List<Future<Optional<String>>> results = new ArrayList<>();
      int[] done = {0};
      for (Showing showing : missing) {
        results.add(
            pool.submit(
                () -> {
                  Optional<String> problem = readMarked(showing, keyOf(keys, showing));
                  synchronized (done) {
                    progress.done(++done[0], missing.size(), showing.photograph());
                  }
                  return problem;
                }));
      }
      for (int i = 0; i < missing.size(); i++) {
        Photograph photograph = missing.get(i).photograph();
        outcome(results.get(i)).ifPresent(why -> refused.add(new Refused(photograph, why)));
      }
    } finally {
      pool.shutdownNow();
      Runtime.getRuntime().removeShutdownHook(takeMarksAway);
    }
    return refused;
  }

  private static Optional<String> outcome(Future<Optional<String>> result) {
    try {
      return result.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.of("the run was stopped before it was read; run `propose` again");
    } catch (ExecutionException e) {
      if (e.getCause() instanceof NativesMissingException missing) {
        throw missing; // No photograph can be read on this machine.
      }
      return Optional.of("reading it failed, please report this: " + e.getCause());
    }
  }

  /** Reads a photograph under its mark; answers with the reason if it can't be read. */
  private Optional<String> readMarked(Showing showing, DerivationKey key)
      throws IOException, InterruptedException {
    Photograph photograph = showing.photograph();
    Path mark = archive.derived().path(ReadPhotograph.KIND, key, MARK);
    long deaths = deaths(mark);
    if (deaths > 1) {
      return Optional.of(
          "the program died twice while reading it, so it was set aside; delete "
              + mark
              + " to try it again");
    }
    int size = (int) Math.max(1, (long) photograph.widthPx() * photograph.heightPx() / 1_000_000);
    int permits = Math.min(MEGAPIXELS_IN_FLIGHT, size);
    megapixels.acquire(permits);
    try {
      marks.add(mark);
      archive
          .derived()
          .write(
              mark, out -> out.write(Long.toString(deaths + 1).getBytes(StandardCharsets.UTF_8)));
      try {
        read(showing);
        return Optional.empty();
      } catch (BadInputException e) {
        return Optional.of(String.valueOf(e.getMessage()));
      } catch (OutOfMemoryError e) {
        return Optional.of("it needs more memory than there is; use --workers 1 or a smaller copy");
      } finally {
        deleteQuietly(mark);
        marks.remove(mark);
      }
    } finally {
      megapixels.release(permits);
    }
  }

  private static long deaths(Path mark) throws IOException {
    if (!Files.exists(mark)) {
      return 0;
    }
    String text = Files.readString(mark, StandardCharsets.UTF_8).strip();
    return text.matches("\\d{1,9}") ? Long.parseLong(text) : 1;
  }

  private static void deleteQuietly(Path mark) {
    try {
      Files.deleteIfExists(mark);
    } catch (IOException e) {
      // A mark that stays makes the photograph be tried once more: no harm.
    }
  }

  /** Faces with their photographs; a photograph on no face stands by itself. */
  static Map<UUID, List<Showing>> subjects(List<Showing> showings) {
    Map<UUID, List<Showing>> subjects = new TreeMap<>();
    for (Showing showing : showings) {
      subjects.computeIfAbsent(showing.subject(), s -> new ArrayList<>()).add(showing);
    }
    return subjects;
  }

  /** Makes the proposal of one face unless it is up to date; whether it was made. */
  private boolean propose(UUID subject, List<Showing> read) throws IOException, BadInputException {
    MergeFace.Input input = mergeInput(read);
    boolean before = archive.derived().has(MergeFace.KIND, MergeFace.KIND.key(input));
    DerivationKey key = archive.derived().make(mergeFace, input);
    proposals.pointTo(
        key,
        subject,
        read.stream()
            .map(Showing::photograph)
            .map(p -> new ProposalStore.Shot(p.sha256(), p.id()))
            .toList());
    return !before;
  }

  /**
   * All that is said of each line of a proposal, read anew and not merged: what {@link Weighing} is
   * fitted on.
   *
   * @throws BadInputException if a photograph can't be decoded
   */
  public List<Heard> heard(Proposal proposal) throws BadInputException {
    List<List<Map<String, LineLattice>>> heard = new ArrayList<>();
    List<Integer> laid = new ArrayList<>();
    List<LaidLine> onLeading = new ArrayList<>();
    for (ProposedLine line : proposal.lines()) {
      heard.add(new ArrayList<>());
      FoundLine found = line.found();
      proposal
          .view(line.photograph())
          .toLeading()
          .ifPresent(
              toLeading -> {
                laid.add(line.number() - 1);
                onLeading.add(new LaidLine(found, toLeading));
              });
    }
    for (FaceView view : proposal.views()) {
      if (view.toLeading().isPresent() && !laid.isEmpty()) {
        Homography fromLeading = view.toLeading().get().inverse();
        List<LaidLine> here = onLeading.stream().map(l -> l.then(fromLeading)).toList();
        Photograph photograph = photos.photograph(view.photograph()).orElseThrow();
        List<List<LineLattice>> byVoice = reader.readByVoice(pixels(archive, photograph), here);
        for (int i = 0; i < here.size(); i++) {
          Map<String, LineLattice> said = new LinkedHashMap<>();
          for (int v = 0; v < byVoice.size(); v++) {
            said.put(reader.voices().get(v).recogniser().name(), byVoice.get(v).get(i));
          }
          heard.get(laid.get(i)).add(said);
        }
      }
    }
    return heard.stream().map(Heard::new).toList();
  }

  /** Every proposal that is the newest of its face or photograph, faces first by marker number. */
  public static List<Proposal> newest(Archive archive) {
    PhotoStore photos = new PhotoStore(archive);
    ProposalStore store = new ProposalStore(archive);
    return Stream.concat(
            photos.faces().stream().flatMap(face -> store.latest(face.id()).stream()),
            photos.photographs().stream()
                .filter(photograph -> photograph.face().isEmpty())
                .flatMap(photograph -> store.latest(photograph.id()).stream()))
        .toList();
  }
}
