package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.DerivationKey;
import rakelight.archive.ProposalId;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Polygon;
import rakelight.publish.epidoc.EpidocSchema;
import rakelight.reading.Alternative;
import rakelight.reading.FaceView;
import rakelight.reading.LineLattice;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.reading.ProposedLine;
import rakelight.reading.Slot;

/** From a line of the edition to its place on the photograph. */
class EpidocZonesTest {
  @TempDir Path folder;

  @Test
  void aLineLeadsToItsPlaceOnThePhotograph() throws Exception {
    Path archive = folder.resolve("archive");
    Path season = folder.resolve("season").resolve("12");
    Files.createDirectories(season);
    ImageIO.write(
        new BufferedImage(600, 400, BufferedImage.TYPE_INT_RGB),
        "png",
        season.resolve("stone.png").toFile());
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran.command(
        "ingest", archive, folder.resolve("season"), "--reader", "Ada", "--photographer", "A & B");
    ProposalId proposal = keepProposal(archive);
    Path readings = folder.resolve("readings.tsv");
    Files.writeString(
        readings,
        "marker\tline\ttext\tproposal\n"
            + ("12\t1\tIN MEMORY OF\t" + proposal + "\n")
            + ("12\t2\tHANNAH died 1850\t" + proposal + "\n"),
        StandardCharsets.UTF_8);
    Ran confirmed =
        Ran.command("confirm", archive, "--new-markers", "--from", readings, "--reader", "Ada");
    assertThat(confirmed.code()).as(confirmed.err()).isZero();

    Path out = folder.resolve("out");
    Ran ran = Ran.command("export", archive, "--to", out, "--as-of", "2026-11-25", "--photographs");
    assertThat(ran.code()).as(ran.err()).isZero();
    Path xml = out.resolve("12-front.xml");
    String file = Files.readString(xml);
    assertThat(file)
        .contains("<surface xml:id=\"p1\" ulx=\"0\" uly=\"0\" lrx=\"600\" lry=\"400\">")
        .contains("<desc type=\"photographer\">A &amp; B</desc>")
        // What a finder draws beyond the picture is cut off at its edge.
        .contains("<zone xml:id=\"p1-l1\" points=\"0,20 500.5,20 500.5,60 0,60\"/>")
        .contains("<lb n=\"1\" facs=\"#p1-l1\"/>IN MEMORY OF")
        .contains("<lb n=\"2\" facs=\"#p1-l2\"/>HANNAH died 1850");
    String url = file.replaceAll("(?s).*<graphic url=\"([^\"]*)\".*", "$1");
    assertThat(url).startsWith("photographs/").endsWith(".png");
    assertThat(out.resolve(url)).exists();

    Ran.command("export", archive, "--to", out, "--as-of", "2026-11-25");
    String pointing = Files.readString(xml).replaceAll("(?s).*<graphic url=\"([^\"]*)\".*", "$1");
    assertThat(xml.resolveSibling(pointing).normalize())
        .hasSameBinaryContentAs(out.resolve(url))
        .startsWith(archive.resolve("originals"));
    assertThat(EpidocSchema.orSkip().errors(file)).isEmpty();
  }

  private static ProposalId keepProposal(Path root) {
    try (Archive archive = Archive.open(root, Projections.all())) {
      PhotoStore photographs = new PhotoStore(archive);
      Photograph shot = photographs.photographs().get(0);
      Face face = photographs.faces().get(0);
      List<ProposedLine> lines =
          Stream.of(1, 2)
              .map(
                  number ->
                      new ProposedLine(
                          number,
                          shot.id(),
                          Polygon.rectangle(-3, 20 + 50 * (number - 1), 500.5, 60 * number),
                          30,
                          0.9,
                          new LineLattice(
                              List.of(new Slot(List.of(new Alternative("I", 1)), 0, 1)))))
              .toList();
      DerivationKey key = new DerivationKey("ab".repeat(32));
      Proposal proposal =
          new Proposal(
              ProposalId.of(face.id().value(), key),
              key,
              Optional.of(face.id()),
              List.of(new FaceView(shot.id(), Polygon.rectangle(0, 0, 600, 400), Optional.empty())),
              lines,
              List.of(),
              Instant.parse("2026-05-01T10:00:00Z"));
      new ProposalStore(archive).keep(proposal, "Ada");
      return proposal.id();
    }
  }
}
