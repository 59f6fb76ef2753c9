package rakelight.reading;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import rakelight.archive.Archive;
import rakelight.archive.DerivationInput;
import rakelight.archive.DerivationKey;
import rakelight.archive.PhotographId;
import rakelight.archive.Stage;
import rakelight.finding.Homography;
import rakelight.finding.Picture;
import rakelight.finding.PictureException;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.relief.Overlay;
import rakelight.relief.RakingSet;
import rakelight.relief.Relief;
import rakelight.relief.ReliefImage;

/**
 * The pictures of a proposed face for a person to look at: the leading photograph with lines and
 * letters boxed, doubtful letters in another colour ("lines"), and the relief images of the squared
 * face; for a face with several photographs also their lights combined ("depth"). Each is a
 * derivation ({@code derived/relief}, {@code derived/lines}) and made once.
 */
public final class FacePictures {
  private static final Stage RELIEF = new Stage("relief", 2);
  private static final Stage LINES = new Stage("lines", 1);

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
    List<ReliefImage> images = new ArrayList<>(Relief.of(raked.shots().get(0).squared(), capital));
    RakingSet.of(raked.shots(), capital).ifPresent(set -> images.add(set.depth()));
    Map<String, Path> files = new LinkedHashMap<>();
    for (ReliefImage image : images) {
      byte[] png = Picture.png(image.image());
      files.put(
          image.name(),
          archive.derived().write(RELIEF, key, extension(image.name()), out -> out.write(png)));
    }
    return files;
  }

  /** What has been made already; empty if anything is missing. */
  private Map<String, Path> made(Proposal proposal, DerivationKey key) {
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
