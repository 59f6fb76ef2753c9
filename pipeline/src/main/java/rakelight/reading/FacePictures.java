package rakelight.reading;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.archive.Derived;
import rakelight.archive.Json;
import rakelight.archive.NamedFiles;
import rakelight.archive.PhotographId;
import rakelight.archive.Stage;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.SmallerPicture;
import rakelight.relief.Lettering;
import rakelight.relief.LightStrips;
import rakelight.relief.LineStrips;
import rakelight.relief.LinesDrawn;
import rakelight.relief.RakingSet;
import rakelight.relief.Relief;
import rakelight.relief.ReliefPictures;
import rakelight.relief.SquaredFace;

/**
 * The pictures of a proposed face for a person to look at: the leading photograph with lines and
 * letters boxed, doubtful letters in another colour ("lines"), and the relief images of the squared
 * face; for a face with several photographs also their lights combined ("depth", and a map of
 * heights). Each is a derivation and made on first sight, anew where a light or bearing has been
 * changed since. Thread-safe: what several ask for at once is made once, only so many are made at a
 * time, so that memory holds, and those made before wait for nobody.
 */
public final class FacePictures {
  /** See {@link LineStrips#HEIGHT_PX}. */
  public static final int STRIP_HEIGHT_PX = LineStrips.HEIGHT_PX;

  /** The longest sides of photographs that are lent without their originals, the largest first. */
  public static final List<Integer> LENT_LONGEST_PX = List.of(1600, 800, 240);

  private static final int AT_A_TIME = 2;

  private final Derived derived;
  private final Predicate<Photograph> hasOriginal;
  private final StageInputs inputs;
  private final ReliefPictures reliefPictures = new ReliefPictures();
  private final LineStrips lineStrips = new LineStrips();
  private final LightStrips lightStrips = new LightStrips();
  private final LinesDrawn linesDrawn = new LinesDrawn();
  private final SmallerPicture smallerPicture = new SmallerPicture();
  private final Semaphore making = new Semaphore(AT_A_TIME, true);
  private final Map<DerivationKey, Object> beingMade = new ConcurrentHashMap<>();

  public FacePictures(Archive archive) {
    this.derived = archive.derived();
    this.hasOriginal = photograph -> archive.originals().find(photograph.sha256()).isPresent();
    this.inputs = new StageInputs(new PhotoStore(archive), new ProposalStore(archive));
  }

  /** The key under which it lies, made now if it hasn't been. */
  private <I extends Record> DerivationKey make(Stage<I, NamedFiles> stage, I input)
      throws IOException, BadInputException {
    DerivationKey key = stage.kind().key(input);
    synchronized (beingMade.computeIfAbsent(key, made -> new Object())) {
      if (!derived.has(stage.kind(), key)) {
        making.acquireUninterruptibly();
        try {
          derived.make(stage, input);
        } finally {
          making.release();
        }
      }
    }
    beingMade.remove(key);
    return key;
  }

  /**
   * The leading photograph with lines and letters boxed.
   *
   * @return a JPEG file
   * @throws BadInputException if the photograph can't be decoded
   */
  public Path lines(Proposal proposal) throws IOException, BadInputException {
    DerivationKey key = make(linesDrawn, inputs.lines(proposal));
    return derived.path(LinesDrawn.KIND, key, LinesDrawn.JPEG);
  }

  /**
   * The relief images by name.
   *
   * @return PNG files in the order they were made: grey first, depth last; none of photographs that
   *     aren't in the archive any more
   * @throws BadInputException if a photograph can't be decoded
   */
  public Map<String, Path> reliefs(Proposal proposal) throws IOException, BadInputException {
    if (!inputs.areThere(proposal)) {
      return Map.of();
    }
    DerivationKey key = relief(proposal);
    List<String> made = derived.names(ReliefPictures.KIND, key);
    List<String> names = new ArrayList<>(Relief.NAMES);
    names.add(RakingSet.DEPTH);
    Map<String, Path> files = new LinkedHashMap<>();
    for (String name : names) {
      String file = ReliefPictures.fileOf(name);
      if (made.contains(file)) {
        files.put(name, derived.path(ReliefPictures.KIND, key, file));
      }
    }
    return files;
  }

  private DerivationKey relief(Proposal proposal) throws IOException, BadInputException {
    return make(reliefPictures, inputs.relief(proposal));
  }

  /**
   * Where the squared face of a proposal lies on its leading photograph, without making a picture.
   */
  public static SquaredFace.Shape shape(Proposal proposal) {
    FaceView leading = proposal.views().get(0);
    return SquaredFace.Shape.of(leading.outline(), leading.proportion());
  }

  /** How wide the strips of a line are. */
  public static int stripWidthPx(ProposedLine line) {
    return LineStrips.widthPx(line.found());
  }

  /**
   * The names of the strips a line may have: its relief images, then each light as {@code light-1}
   * for the leading photograph. A strip can be missing where a light shows less of the stone, or
   * where the lights can't be combined.
   */
  public static List<String> stripNames(Proposal proposal) {
    if (proposal.views().isEmpty()) {
      return List.of();
    }
    List<String> names = new ArrayList<>(Relief.NAMES.subList(1, Relief.NAMES.size()));
    if (proposal.views().size() > 1) {
      names.add(0, RakingSet.DEPTH);
    }
    for (int i = 0; i < proposal.views().size(); i++) {
      if (proposal.views().get(i).toLeading().isPresent()) {
        names.add(light(i));
      }
    }
    return names;
  }

  /** The photograph that a strip named {@code light-N} is cut from; empty for other names. */
  public static Optional<PhotographId> lightOf(Proposal proposal, String strip) {
    return viewOf(proposal, strip).map(FaceView::photograph);
  }

  private static Optional<FaceView> viewOf(Proposal proposal, String strip) {
    return IntStream.range(0, proposal.views().size())
        .filter(view -> light(view).equals(strip))
        .mapToObj(proposal.views()::get)
        .findFirst();
  }

  /** The name of the strips cut from a view. */
  private static String light(int view) {
    return "light-" + (view + 1);
  }

  /**
   * One strip of a line, made on first sight with those of all other lines of the face from the
   * same photograph, or from the relief images; those of a line that a reader drew are made by
   * themselves.
   *
   * @param line number of the proposed line, or of a place where one may be
   * @param name one of {@link #stripNames}
   * @return a JPEG file; empty if there is no such strip
   * @throws BadInputException if a photograph can't be decoded
   */
  public Optional<Path> strip(Proposal proposal, int line, String name)
      throws IOException, BadInputException {
    if (!stripNames(proposal).contains(name)
        || line < 1
        || line > proposal.lines().size() + proposal.unsure().size()
        || !inputs.areThere(proposal)) {
      return Optional.empty();
    }
    StageInputs.Strips strips = inputs.strips(proposal, line);
    Optional<FaceView> light = viewOf(proposal, name);
    if (light.isPresent()) {
      LightStrips.Input input =
          inputs.lightStrips(
              strips.with(), light.get().photograph(), light.get().toLeading().orElseThrow());
      DerivationKey key = make(lightStrips, input);
      return derived.file(LightStrips.KIND, key, LightStrips.fileOf(strips.number()));
    }
    relief(proposal);
    DerivationKey key = make(lineStrips, inputs.reliefStrips(strips.with()));
    return derived.file(LineStrips.KIND, key, LineStrips.fileOf(strips.number(), name));
  }

  /**
   * A photograph in colour, upright, to be looked at. Where its original was left at home, the
   * largest that was lent.
   *
   * @param longestPx the longest side it may have
   * @return a JPEG file
   * @throws BadInputException if it can't be decoded
   */
  public Path smaller(Photograph photograph, int longestPx) throws IOException, BadInputException {
    SmallerPicture.Input input = new SmallerPicture.Input(photograph.source(), longestPx);
    if (!hasOriginal.test(photograph)) {
      for (int lent : LENT_LONGEST_PX) {
        DerivationKey key =
            SmallerPicture.KIND.key(new SmallerPicture.Input(photograph.source(), lent));
        if (lent < longestPx && derived.has(SmallerPicture.KIND, key)) {
          return derived.path(SmallerPicture.KIND, key, SmallerPicture.JPEG);
        }
      }
    }
    return derived.path(SmallerPicture.KIND, make(smallerPicture, input), SmallerPicture.JPEG);
  }

  /**
   * The map of heights of a face with several photographs, to be lit anew: see {@link
   * rakelight.relief.HeightMap#ofPng}.
   *
   * @return empty where no two photographs lie over each other
   * @throws BadInputException if a photograph can't be decoded
   */
  public Optional<Path> heights(Proposal proposal) throws IOException, BadInputException {
    return derived.file(ReliefPictures.KIND, relief(proposal), ReliefPictures.HEIGHTS);
  }

  /**
   * How the letters stand out on the leading photograph.
   *
   * @throws BadInputException if a photograph can't be decoded
   */
  public Lettering lettering(Proposal proposal) throws IOException, BadInputException {
    Path file = derived.path(ReliefPictures.KIND, relief(proposal), ReliefPictures.LETTERING);
    return Json.read(Files.readString(file, StandardCharsets.UTF_8), Lettering.class);
  }
}
