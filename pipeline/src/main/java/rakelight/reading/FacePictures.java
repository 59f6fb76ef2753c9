package rakelight.reading;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.DerivationInput;
import rakelight.archive.DerivationKey;
import rakelight.archive.PhotographId;
import rakelight.archive.Stage;
import rakelight.finding.FoundLine;
import rakelight.finding.LineStrip;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;
import rakelight.picture.Polygon;
import rakelight.relief.Lettering;
import rakelight.relief.Overlay;
import rakelight.relief.RakingSet;
import rakelight.relief.Relief;
import rakelight.relief.ReliefImage;
import rakelight.relief.SquaredFace;

/**
 * The pictures of a proposed face for a person to look at: the leading photograph with lines and
 * letters boxed, doubtful letters in another colour ("lines"), and the relief images of the squared
 * face; for a face with several photographs also their lights combined ("depth", and a map of
 * heights). Each is a derivation ({@code derived/relief}, {@code derived/lines}) and made once.
 */
public final class FacePictures {
  private static final Stage RELIEF = new Stage("relief", 4);
  private static final String HEIGHTS = "heights.png";
  private static final String LETTERING = "lettering.json";
  private static final Stage LINES = new Stage("lines", 1);
  private static final Stage STRIPS = new Stage("strips", 2);
  private static final Stage SMALLER = new Stage("smaller", 1);

  /** A strip as the recognisers like it, 1.7 capitals high, of which each stands 80 px high. */
  public static final int STRIP_HEIGHT_PX = 136;

  private static final double STRIP_CAPITALS = 1.7;
  private static final int WIDEST_STRIP_PX = 6000;
  private static final int STRIP_QUALITY = 88;

  private final Archive archive;
  private final PhotoStore photos;

  public FacePictures(Archive archive) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
  }

  /**
   * The leading photograph with lines and letters boxed.
   *
   * @return a JPEG file
   * @throws PictureException if the photograph can't be decoded
   */
  public Path lines(Proposal proposal) throws IOException, PictureException {
    Photograph photograph = leading(proposal);
    DerivationKey key =
        DerivationKey.of(LINES, List.of(), Map.of(), List.of(proposal.key(), photograph.sha256()));
    if (archive.derived().has(LINES, key, "jpg")) {
      return archive.derived().path(LINES, key, "jpg");
    }
    List<Overlay.Line> lines = new ArrayList<>();
    for (ProposedLine line : proposal.lines()) {
      proposal
          .view(line.photograph())
          .toLeading()
          .ifPresent(toLeading -> lines.add(drawn(line, toLeading)));
    }
    byte[] jpeg =
        Overlay.jpeg(
            Proposer.pixels(archive, photograph), proposal.views().get(0).outline(), lines);
    return archive.derived().write(LINES, key, "jpg", out -> out.write(jpeg));
  }

  private static Overlay.Line drawn(ProposedLine line, Homography toLeading) {
    return new Overlay.Line(
        line.number(),
        line.box().map(toLeading::map),
        line.lattice().slots().stream()
            .filter(slot -> !slot.best().isBlank() && slot.to() > slot.from())
            .map(
                slot ->
                    new Overlay.Letter(
                        line.letterBox(slot).map(toLeading::map), slot.p() >= LineLattice.SURE))
            .toList());
  }

  /**
   * The relief images by name.
   *
   * @return PNG files in the order they were made: grey first, depth last
   * @throws PictureException if a photograph can't be decoded
   */
  public Map<String, Path> reliefs(Proposal proposal) throws IOException, PictureException {
    DerivationKey key = reliefKey(proposal);
    Map<String, Path> before = made(proposal, key);
    if (!before.isEmpty()) {
      return before;
    }
    double capitalPx =
        proposal.lines().stream()
            .mapToDouble(ProposedLine::heightPx)
            .sorted()
            .skip(proposal.lines().size() / 2)
            .findFirst()
            .orElse(0);
    RakedShots raked = RakedShots.of(archive, photos, proposal.views());
    double capital = capitalPx * raked.scale();
    Homography toSquared = shape(proposal).toPhotograph().inverse();
    List<Polygon> lines = new ArrayList<>();
    for (ProposedLine line : proposal.lines()) {
      proposal
          .view(line.photograph())
          .toLeading()
          .ifPresent(toLeading -> lines.add(line.box().map(toLeading::map).map(toSquared::map)));
    }
    Relief relief = Relief.of(raked.shots().get(0).squared(), capital, lines);
    byte[] lettering = ProposalStore.bytes(relief.lettering());
    archive.derived().write(RELIEF, key, LETTERING, out -> out.write(lettering));
    List<ReliefImage> images = new ArrayList<>(relief.images());
    Optional<RakingSet> set = RakingSet.of(raked.shots(), capital);
    if (set.isPresent()) {
      images.add(set.get().depth());
      byte[] heights = set.get().heights().png();
      archive.derived().write(RELIEF, key, HEIGHTS, out -> out.write(heights));
    }
    Map<String, Path> files = new LinkedHashMap<>();
    for (ReliefImage image : images) {
      byte[] png = Picture.png(image.image());
      files.put(
          image.name(),
          archive.derived().write(RELIEF, key, extension(image.name()), out -> out.write(png)));
    }
    return files;
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
    return Math.min(
        WIDEST_STRIP_PX, LineStrip.widthPx(found(line), STRIP_HEIGHT_PX, STRIP_CAPITALS));
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

  private static String light(int view) {
    return "light-" + (view + 1);
  }

  /**
   * One strip of a line, made with all the others of the face on first sight.
   *
   * @param line number of the proposed line
   * @param name one of {@link #stripNames}
   * @return a JPEG file; empty if there is no such strip
   * @throws PictureException if a photograph can't be decoded
   */
  public Optional<Path> strip(Proposal proposal, int line, String name)
      throws IOException, PictureException {
    if (!stripNames(proposal).contains(name) || line < 1 || line > proposal.lines().size()) {
      return Optional.empty();
    }
    DerivationKey key = DerivationKey.of(STRIPS, List.of(), Map.of(), List.of(reliefKey(proposal)));
    if (!archive.derived().has(STRIPS, key, "json")) {
      makeStrips(proposal, key);
    }
    String file = line + "." + name + ".jpg";
    return archive.derived().has(STRIPS, key, file)
        ? Optional.of(archive.derived().path(STRIPS, key, file))
        : Optional.empty();
  }

  private void makeStrips(Proposal proposal, DerivationKey key)
      throws IOException, PictureException {
    Homography toSquared = shape(proposal).toPhotograph().inverse();
    for (Map.Entry<String, Path> relief : reliefs(proposal).entrySet()) {
      if (!relief.getKey().equals(Relief.NAMES.get(0))) {
        GrayImage image = Picture.upright(Files.readAllBytes(relief.getValue()), 1);
        cutLines(proposal, key, relief.getKey(), image, toSquared);
      }
    }
    for (int i = 0; i < proposal.views().size(); i++) {
      FaceView view = proposal.views().get(i);
      if (view.toLeading().isPresent()) {
        GrayImage image = Proposer.pixels(archive, photograph(view.photograph()));
        cutLines(proposal, key, light(i), image, view.toLeading().get().inverse());
      }
    }
    archive
        .derived()
        .write(STRIPS, key, "json", out -> out.write(ProposalStore.bytes(stripNames(proposal))));
  }

  /** Cuts every line out of one picture. */
  private void cutLines(
      Proposal proposal, DerivationKey key, String name, GrayImage image, Homography fromLeading)
      throws IOException {
    for (ProposedLine line : proposal.lines()) {
      Optional<Homography> toLeading = proposal.view(line.photograph()).toLeading();
      if (toLeading.isPresent()) {
        byte[] jpeg =
            Picture.jpeg(
                LineStrip.cut(
                    image,
                    moved(found(line), toLeading.get().then(fromLeading)),
                    stripWidthPx(line),
                    STRIP_HEIGHT_PX,
                    STRIP_CAPITALS),
                STRIP_QUALITY);
        archive
            .derived()
            .write(STRIPS, key, line.number() + "." + name + ".jpg", out -> out.write(jpeg));
      }
    }
  }

  private static FoundLine found(ProposedLine line) {
    return new FoundLine(line.box(), line.heightPx(), line.score());
  }

  /** The same line on another picture. */
  private static FoundLine moved(FoundLine line, Homography move) {
    Polygon ribbon = line.ribbon().map(move::map);
    double scale = Math.sqrt(ribbon.area() / Math.max(1e-6, line.ribbon().area()));
    return new FoundLine(ribbon, Math.max(1, line.heightPx() * scale), line.score());
  }

  /**
   * A photograph in colour, upright, to be looked at.
   *
   * @param longestPx the longest side it may have
   * @return a JPEG file
   * @throws PictureException if it can't be decoded
   */
  public Path smaller(Photograph photograph, int longestPx) throws IOException, PictureException {
    DerivationKey key =
        DerivationKey.of(
            SMALLER, List.of(), Map.of("longestPx", longestPx), List.of(photograph.sha256()));
    if (!archive.derived().has(SMALLER, key, "jpg")) {
      byte[] jpeg =
          Picture.smaller(Proposer.bytes(archive, photograph), photograph.orientation(), longestPx);
      archive.derived().write(SMALLER, key, "jpg", out -> out.write(jpeg));
    }
    return archive.derived().path(SMALLER, key, "jpg");
  }

  /**
   * The map of heights of a face with several photographs, to be lit anew: see {@link
   * rakelight.relief.HeightMap#ofPng}.
   *
   * @return empty where no two photographs lie over each other
   * @throws PictureException if a photograph can't be decoded
   */
  public Optional<Path> heights(Proposal proposal) throws IOException, PictureException {
    reliefs(proposal);
    DerivationKey key = reliefKey(proposal);
    return archive.derived().has(RELIEF, key, HEIGHTS)
        ? Optional.of(archive.derived().path(RELIEF, key, HEIGHTS))
        : Optional.empty();
  }

  /**
   * How the letters stand out on the leading photograph.
   *
   * @throws PictureException if a photograph can't be decoded
   */
  public Lettering lettering(Proposal proposal) throws IOException, PictureException {
    reliefs(proposal);
    Path file = archive.derived().path(RELIEF, reliefKey(proposal), LETTERING);
    return ProposalStore.read(file, Lettering.class).orElseThrow();
  }

  /** What has been made already; empty if anything is missing. */
  private Map<String, Path> made(Proposal proposal, DerivationKey key) {
    if (!archive.derived().has(RELIEF, key, LETTERING)) {
      return Map.of();
    }
    Map<String, Path> files = new LinkedHashMap<>();
    for (String name : Relief.NAMES) {
      if (!archive.derived().has(RELIEF, key, extension(name))) {
        return Map.of();
      }
      files.put(name, archive.derived().path(RELIEF, key, extension(name)));
    }
    // A set whose lights can't be laid over each other has none.
    if (proposal.photographs().size() > 1
        && archive.derived().has(RELIEF, key, extension(RakingSet.DEPTH))) {
      files.put(RakingSet.DEPTH, archive.derived().path(RELIEF, key, extension(RakingSet.DEPTH)));
    }
    return files;
  }

  private DerivationKey reliefKey(Proposal proposal) {
    List<DerivationInput> inputs = new ArrayList<>(List.of(proposal.key()));
    proposal.photographs().forEach(id -> inputs.add(photograph(id).sha256()));
    return DerivationKey.of(RELIEF, List.of(), Map.of(), inputs);
  }

  private static String extension(String name) {
    return name + ".png";
  }

  private Photograph leading(Proposal proposal) {
    return photograph(proposal.photographs().get(0));
  }

  private Photograph photograph(PhotographId id) {
    return photos.photograph(id).orElseThrow();
  }
}
