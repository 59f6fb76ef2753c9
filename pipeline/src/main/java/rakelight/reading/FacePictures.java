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
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.archive.Derived;
import rakelight.archive.Json;
import rakelight.archive.PhotographId;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.SmallerPicture;
import rakelight.relief.Lettering;
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
 * changed since.
 */
public final class FacePictures {
  /** See {@link LineStrips#HEIGHT_PX}. */
  public static final int STRIP_HEIGHT_PX = LineStrips.HEIGHT_PX;

  private final Derived derived;
  private final StageInputs inputs;
  private final ReliefPictures reliefPictures = new ReliefPictures();
  private final LineStrips lineStrips = new LineStrips();
  private final LinesDrawn linesDrawn = new LinesDrawn();
  private final SmallerPicture smallerPicture = new SmallerPicture();

  public FacePictures(Archive archive) {
    this.derived = archive.derived();
    this.inputs = new StageInputs(new PhotoStore(archive), new ProposalStore(archive));
  }

  /**
   * The leading photograph with lines and letters boxed.
   *
   * @return a JPEG file
   * @throws BadInputException if the photograph can't be decoded
   */
  public Path lines(Proposal proposal) throws IOException, BadInputException {
    DerivationKey key = derived.make(linesDrawn, inputs.lines(proposal));
    return derived.path(LinesDrawn.KIND, key, LinesDrawn.JPEG);
  }

  /**
   * The relief images by name.
   *
   * @return PNG files in the order they were made: grey first, depth last
   * @throws BadInputException if a photograph can't be decoded
   */
  public Map<String, Path> reliefs(Proposal proposal) throws IOException, BadInputException {
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
    return derived.make(reliefPictures, inputs.relief(proposal));
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
    for (int i = 0; i < proposal.views().size(); i++) {
      if (light(i).equals(strip)) {
        return Optional.of(proposal.views().get(i).photograph());
      }
    }
    return Optional.empty();
  }

  /** The name of the strips cut from a view. */
  static String light(int view) {
    return "light-" + (view + 1);
  }

  /**
   * One strip of a line, made with all the others of the face on first sight; those of a line that
   * a reader drew are made by themselves.
   *
   * @param line number of the proposed line
   * @param name one of {@link #stripNames}
   * @return a JPEG file; empty if there is no such strip
   * @throws BadInputException if a photograph can't be decoded
   */
  public Optional<Path> strip(Proposal proposal, int line, String name)
      throws IOException, BadInputException {
    if (!stripNames(proposal).contains(name) || line < 1 || line > proposal.lines().size()) {
      return Optional.empty();
    }
    relief(proposal);
    StageInputs.Strips strips = inputs.strips(proposal, proposal.lines().get(line - 1));
    DerivationKey key = derived.make(lineStrips, strips.input());
    return derived.file(LineStrips.KIND, key, LineStrips.fileOf(strips.number(), name));
  }

  /**
   * A photograph in colour, upright, to be looked at.
   *
   * @param longestPx the longest side it may have
   * @return a JPEG file
   * @throws BadInputException if it can't be decoded
   */
  public Path smaller(Photograph photograph, int longestPx) throws IOException, BadInputException {
    SmallerPicture.Input input = new SmallerPicture.Input(photograph.source(), longestPx);
    return derived.path(
        SmallerPicture.KIND, derived.make(smallerPicture, input), SmallerPicture.JPEG);
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
