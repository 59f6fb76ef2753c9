package rakelight.reading;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
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
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.archive.ProposalId;
import rakelight.archive.Sha256;
import rakelight.archive.Stage;
import rakelight.finding.FoundLine;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.PictureKind;
import rakelight.photo.Preview;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;
import rakelight.relief.HeightMap;
import rakelight.relief.LightDirection;
import rakelight.relief.RakingSet;
import rakelight.relief.Registration;

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
  private static final Stage READING = new Stage("reading", 4);
  private static final String MARK = "started";

  /** What one worker needs at most besides pixels, and the program without workers. */
  private static final long WORKER_BYTES = 600L << 20;

  private static final long PROGRAM_BYTES = 700L << 20;

  /** Pixels being worked on at one time, in megapixels; a larger picture is read alone. */
  private static final int MEGAPIXELS_IN_FLIGHT = 60;

  /** From fewer lights no surface is had. */
  private static final int FEWEST_LIGHTS = 3;

  /** Lights under which the shape of a raking set is read: from both sides and from above. */
  private static final List<NewLight> NEW_LIGHTS =
      List.of(
          new NewLight("the left", LightDirection.raking(-45, 20)),
          new NewLight("the right", LightDirection.raking(45, 20)),
          new NewLight("above", LightDirection.raking(0, 15)));

  private record NewLight(String from, LightDirection direction) {}

  private final Archive archive;
  private final PhotoStore photos;
  private final ProposalStore proposals;
  private final MachineReader reader;
  private final Lexicon lexicon = Lexicon.standard();
  private final Language language = new Language(new LetterOrder(lexicon));
  private final List<ModelUsed> models;
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
    List<ModelUsed> used = new ArrayList<>();
    used.add(new ModelUsed(reader.finder().name(), new Sha256(reader.finder().digest())));
    for (MachineReader.Voice voice : reader.voices()) {
      used.add(new ModelUsed(voice.recogniser().name(), new Sha256(voice.recogniser().digest())));
    }
    this.models = List.copyOf(used);
  }

  /** A photograph that has no proposal, and why. */
  public record Refused(Photograph photograph, String reason) {}

  /**
   * What a run did.
   *
   * @param read photographs read now
   * @param readBefore photographs that had been read with these models
   * @param made proposals made now
   * @param madeBefore proposals that were up to date
   * @param refused photographs that couldn't be read or were set aside
   */
  public record Report(int read, int readBefore, int made, int madeBefore, List<Refused> refused) {
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
    List<Photograph> readable =
        photos.photographs().stream()
            .filter(p -> p.picture() != PictureKind.NONE && p.card().isEmpty())
            .toList();
    Map<Photograph, DerivationKey> keys = new LinkedHashMap<>();
    readable.forEach(p -> keys.put(p, readingKey(p)));
    List<Photograph> missing =
        readable.stream().filter(p -> reading(keyOf(keys, p)).isEmpty()).toList();
    List<Refused> refused = readMissing(missing, keys, workers, progress);
    int made = 0;
    int before = 0;
    for (Map.Entry<UUID, List<Photograph>> subject : subjects(readable).entrySet()) {
      if (propose(subject.getKey(), subject.getValue(), keys)) {
        made++;
      } else {
        before++;
      }
    }
    return new Report(
        missing.size() - refused.size(), readable.size() - missing.size(), made, before, refused);
  }

  /** Reads one photograph, or takes what was read before. */
  public ReadPicture read(Photograph photograph) throws PictureException, IOException {
    DerivationKey key = readingKey(photograph);
    Optional<ReadPicture> before = reading(key);
    if (before.isPresent()) {
      return before.get();
    }
    ReadPicture picture = reader.read(pixels(archive, photograph));
    archive.derived().write(READING, key, "json", out -> out.write(ProposalStore.bytes(picture)));
    return picture;
  }

  /** The key under which a photograph's reading lies. */
  public DerivationKey readingKey(Photograph photograph) {
    return DerivationKey.of(
        READING,
        models.stream().map(ModelUsed::digest).toList(),
        reader.parameters(),
        List.of(photograph.sha256()));
  }

  /**
   * The upright picture of a photograph, from its original or the preview inside.
   *
   * @throws PictureException if it can't be decoded
   */
  public static GrayImage pixels(Archive archive, Photograph photograph)
      throws PictureException, IOException {
    return Picture.upright(bytes(archive, photograph), photograph.orientation());
  }

  /** The file, or the preview inside it, that holds the picture of a photograph. */
  static byte[] bytes(Archive archive, Photograph photograph) throws PictureException, IOException {
    Path file =
        archive
            .originals()
            .find(photograph.sha256())
            .orElseThrow(
                () -> new PictureException("its original is missing; run `check` and restore it"));
    Optional<Preview> preview = photograph.preview();
    if (preview.isPresent()) {
      byte[] bytes = new byte[Math.toIntExact(preview.get().lengthBytes())];
      try (RandomAccessFile in = new RandomAccessFile(file.toFile(), "r")) {
        in.seek(preview.get().offsetBytes());
        in.readFully(bytes);
      }
      return bytes;
    }
    return Files.readAllBytes(file);
  }

  private Optional<ReadPicture> reading(DerivationKey key) {
    return ProposalStore.read(archive.derived().path(READING, key, "json"), ReadPicture.class);
  }

  private static DerivationKey keyOf(Map<Photograph, DerivationKey> keys, Photograph photograph) {
    return Optional.ofNullable(keys.get(photograph)).orElseThrow();
  }

  private List<Refused> readMissing(
      List<Photograph> missing,
      Map<Photograph, DerivationKey> keys,
      int workers,
      Progress progress) {
    List<Refused> refused = new ArrayList<>();
    Thread takeMarksAway = new Thread(() -> marks.forEach(Proposer::deleteQuietly));
    Runtime.getRuntime().addShutdownHook(takeMarksAway);
    ExecutorService pool = Executors.newFixedThreadPool(Math.max(1, workers));
    try {
      List<Future<Optional<String>>> results = new ArrayList<>();
      int[] done = {0};
      for (Photograph photograph : missing) {
        results.add(
            pool.submit(
                () -> {
                  Optional<String> problem = readMarked(photograph, keyOf(keys, photograph));
                  synchronized (done) {
                    progress.done(++done[0], missing.size(), photograph);
                  }
                  return problem;
                }));
      }
      for (int i = 0; i < missing.size(); i++) {
        Photograph photograph = missing.get(i);
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
      return Optional.of("reading it failed, please report this: " + e.getCause());
    }
  }

  /** Reads a photograph under its mark; answers with the reason if it can't be read. */
  private Optional<String> readMarked(Photograph photograph, DerivationKey key)
      throws IOException, InterruptedException {
    Path mark = archive.derived().path(READING, key, MARK);
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
              READING,
              key,
              MARK,
              out -> out.write(Long.toString(deaths + 1).getBytes(StandardCharsets.UTF_8)));
      try {
        read(photograph);
        return Optional.empty();
      } catch (PictureException e) {
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
  private static Map<UUID, List<Photograph>> subjects(List<Photograph> photographs) {
    Map<UUID, List<Photograph>> subjects = new TreeMap<>();
    for (Photograph photograph : photographs) {
      UUID subject = photograph.face().map(FaceId::value).orElse(photograph.id().value());
      subjects.computeIfAbsent(subject, s -> new ArrayList<>()).add(photograph);
    }
    subjects.values().forEach(list -> list.sort(Comparator.comparing(p -> p.sha256().hex())));
    return subjects;
  }

  /** Makes the proposal of one face unless it is up to date; whether it was made. */
  private boolean propose(
      UUID subject, List<Photograph> photographs, Map<Photograph, DerivationKey> keys) {
    List<Views.View> views = new ArrayList<>();
    List<DerivationKey> inputs = new ArrayList<>();
    for (Photograph photograph : photographs) {
      DerivationKey key = keyOf(keys, photograph);
      reading(key)
          .ifPresent(
              picture -> {
                views.add(new Views.View(photograph.id(), picture, Optional.empty()));
                inputs.add(key);
              });
    }
    if (views.isEmpty()) {
      return false;
    }
    DerivationKey key =
        DerivationKey.of(
            ProposalStore.STAGE,
            List.of(),
            Map.of(
                "subject", subject.toString(),
                "odds", reader.odds().digest(),
                "lexicon", lexicon.digest()),
            inputs);
    try {
      Optional<Proposal> before = proposals.made(key);
      if (before.isPresent()) {
        proposals.pointTo(before.get(), subject);
        return false;
      }
      List<Views.View> laid = laidOverLeading(Views.surestFirst(views));
      List<FaceView> faceViews =
          laid.stream()
              .map(
                  view ->
                      new FaceView(
                          view.photograph(),
                          view.picture().face(),
                          Optional.of(view.picture().proportion()),
                          view.toLeading(),
                          view.picture().emblems(),
                          view.picture().otherStones()))
              .toList();
      proposals.write(
          new Proposal(
              ProposalId.next(),
              key,
              photographs.get(0).face(),
              faceViews,
              Views.lines(laid, new Again(faceViews), reader.odds()).stream()
                  .map(line -> line.with(language.leant(line.lattice())))
                  .toList(),
              models,
              Clock.systemUTC().instant()),
          subject);
      return true;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Finds how the other photographs of a face lie over the first. */
  private List<Views.View> laidOverLeading(List<Views.View> views) throws IOException {
    List<Views.View> laid = new ArrayList<>();
    laid.add(views.get(0).laid(Optional.of(Homography.identity())));
    if (views.size() > 1) {
      Optional<GrayImage> leading = pixels(views.get(0));
      for (Views.View view : views.subList(1, views.size())) {
        laid.add(
            view.laid(
                leading.flatMap(
                    first -> pixels(view).flatMap(other -> Registration.of(other, first)))));
      }
    }
    return laid;
  }

  private Optional<GrayImage> pixels(Views.View view) {
    try {
      return Optional.of(pixels(archive, photos.photograph(view.photograph()).orElseThrow()));
    } catch (PictureException e) {
      return Optional.empty(); // It was read before, so this is rare; its lines are placed by text.
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Reads lines of one face once more. */
  private final class Again implements Views.Again {
    private final List<FaceView> views;

    Again(List<FaceView> views) {
      this.views = views;
    }

    @Override
    public List<LineLattice> read(PhotographId photograph, List<FoundLine> lines) {
      try {
        GrayImage picture = pixels(archive, photos.photograph(photograph).orElseThrow());
        return reader.readLines(picture, lines);
      } catch (PictureException e) {
        return List.of(); // It was read before, so this is rare; the others speak for it.
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public List<List<LineLattice>> relit(List<FoundLine> lines) {
      return litAnew(views, lines).stream()
          .map(light -> reader.readLines(light.picture(), light.lines()))
          .toList();
    }
  }

  /** The surface of a face under a light that no photograph had, and where lines lie there. */
  private record LitAnew(String from, GrayImage picture, List<FoundLine> lines) {}

  /**
   * @param lines in pixels of the leading photograph
   */
  private List<LitAnew> litAnew(List<FaceView> views, List<FoundLine> lines) {
    long laid = views.stream().filter(view -> view.toLeading().isPresent()).count();
    if (lines.isEmpty() || laid < FEWEST_LIGHTS) {
      return List.of();
    }
    try {
      RakedShots raked = RakedShots.of(archive, photos, views);
      double capital =
          lines.stream()
              .mapToDouble(FoundLine::heightPx)
              .sorted()
              .skip(lines.size() / 2)
              .findFirst()
              .orElseThrow();
      return RakingSet.of(raked.shots(), capital * raked.scale())
          .filter(set -> set.source() != RakingSet.LightSource.ONE_LINE)
          .map(set -> litAnew(raked, set.heights(), lines))
          .orElse(List.of());
    } catch (PictureException e) {
      return List.of();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<LitAnew> litAnew(RakedShots raked, HeightMap heights, List<FoundLine> lines) {
    double scale = (double) heights.widthPx() / raked.shots().get(0).squared().widthPx();
    List<FoundLine> there = lines.stream().map(line -> raked.squared(line, scale)).toList();
    return NEW_LIGHTS.stream()
        .map(light -> new LitAnew(light.from(), heights.lit(light.direction()), there))
        .toList();
  }

  /**
   * All that is said of each line of a proposal, read anew and not merged: what {@link Weighing} is
   * fitted on.
   *
   * @throws PictureException if a photograph can't be decoded
   */
  public List<Heard> heard(Proposal proposal) throws IOException, PictureException {
    List<List<Heard.Picture>> heard = new ArrayList<>();
    List<Integer> laid = new ArrayList<>();
    List<FoundLine> onLeading = new ArrayList<>();
    for (ProposedLine line : proposal.lines()) {
      heard.add(new ArrayList<>());
      FoundLine found = new FoundLine(line.box(), line.heightPx(), line.score());
      proposal
          .view(line.photograph())
          .toLeading()
          .ifPresent(
              toLeading -> {
                laid.add(line.number() - 1);
                onLeading.add(Views.laid(found, toLeading));
              });
    }
    for (FaceView view : proposal.views()) {
      if (view.toLeading().isPresent() && !laid.isEmpty()) {
        Homography fromLeading = view.toLeading().get().inverse();
        List<FoundLine> here = onLeading.stream().map(l -> Views.laid(l, fromLeading)).toList();
        Photograph photograph = photos.photograph(view.photograph()).orElseThrow();
        hear(pixels(archive, photograph), here, Optional.empty(), laid, heard);
      }
    }
    for (LitAnew light : litAnew(proposal.views(), onLeading)) {
      hear(light.picture(), light.lines(), Optional.of(light.from()), laid, heard);
    }
    return heard.stream().map(Heard::new).toList();
  }

  private void hear(
      GrayImage picture,
      List<FoundLine> lines,
      Optional<String> litFrom,
      List<Integer> numbers,
      List<List<Heard.Picture>> heard) {
    List<List<LineLattice>> byVoice = reader.readByVoice(picture, lines);
    for (int i = 0; i < lines.size(); i++) {
      Map<String, LineLattice> said = new LinkedHashMap<>();
      for (int v = 0; v < byVoice.size(); v++) {
        said.put(reader.voices().get(v).recogniser().name(), byVoice.get(v).get(i));
      }
      heard.get(numbers.get(i)).add(new Heard.Picture(litFrom, said));
    }
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
