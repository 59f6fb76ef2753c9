package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.archive.Json;
import rakelight.inscription.Suggestion;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.picture.Polygon;

class UnsureLinesTest {
  private static ViewBuilder stone() {
    return ViewBuilder.light().line("HANNAH WREN", .9, 100).line("DIED 1848", .9, 200);
  }

  private static List<String> texts(List<MergedFace.Unsure> unsure) {
    return unsure.stream().map(one -> one.line().text()).toList();
  }

  @Test
  void aPlaceThatGoesOnWithTheLinesMayBeOneAndOneThatDoesNotIsGrain() {
    List<MergedFace.Unsure> unsure =
        ViewBuilder.unsure(
            stone()
                .line("AGED 63 YEARS", .9, 300)
                .line("ALSO ELLEN", .9, 400)
                .line("HIS WIFE", .9, 500)
                .passedOver("AGED", .6, 600)
                .passedOver("XY", .5, 750));

    assertThat(texts(unsure)).containsExactly("AGED");
    assertThat(unsure.get(0).p()).isBetween(.5, .95);
  }

  @Test
  void nothingIsUnsureWhereALineOfAnotherPhotographStands() {
    ViewBuilder leading = stone().passedOver("AG", .6, 300);
    ViewBuilder other = stone().line("AGED 63 YEARS", .9, 300);

    assertThat(ViewBuilder.lines(leading, other)).hasSize(3);
    assertThat(ViewBuilder.unsure(leading, other)).isEmpty();
  }

  @Test
  void ofOnePlaceOnTwoPhotographsTheLikelierIsKept() {
    ViewBuilder leading = stone().passedOver("AG", .5, 300);
    ViewBuilder other = stone().passedOver("AGED", .8, 305);

    assertThat(texts(ViewBuilder.unsure(leading, other))).containsExactly("AGED");
  }

  @Test
  void noLineMayBeOnAnotherStoneOrOnAPhotographThatCannotBeLaidOver() {
    assertThat(
            ViewBuilder.unsure(
                stone()
                    .passedOver("AGED", .8, 300)
                    .otherStone(Polygon.rectangle(0, 250, 800, 600))))
        .isEmpty();
    assertThat(ViewBuilder.unsure(stone(), stone().passedOver("AGED", .8, 300).notLaidOver()))
        .isEmpty();
  }

  @Test
  void lettersThatGoOnWithTheLinesAreLikelierThanTheSameElsewhere() {
    List<LineOdds.Level> lines = List.of(at(100, 40), at(200, 40), at(300, 40));
    LineLattice read = ViewBuilder.lattice("AGED", .7);

    double inStep = LineOdds.p(LineOdds.clues(at(400, 40), read, lines));

    assertThat(LineOdds.p(LineOdds.clues(at(450, 40), read, lines))).isLessThan(inStep);
    assertThat(LineOdds.p(LineOdds.clues(at(400, 90), read, lines))).isLessThan(inStep);
    assertThat(LineOdds.p(LineOdds.clues(at(600, 40), read, lines))).isLessThan(inStep);
    assertThat(LineOdds.p(LineOdds.clues(at(400, 40), ViewBuilder.lattice("AGED", .4), lines)))
        .isLessThan(inStep);
    assertThat(LineOdds.p(LineOdds.clues(at(400, 40), read, List.of()))).isBetween(0.0, 1.0);
  }

  private static LineOdds.Level at(double middle, double heightPx) {
    return new LineOdds.Level(
        Polygon.rectangle(100, middle - heightPx / 2, 700, middle + heightPx / 2), heightPx);
  }

  @Test
  void whatMayBeIsNoPartOfWhatAMachineSays(@TempDir Path folder) throws Exception {
    try (Archive archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Fenn Lane", 54.1, -3.2, ZoneId.of("Europe/London")),
            List.of(
                MarkerStore.projection(), PhotoStore.projection(), ProposalStore.projection()))) {
      PhotoStore photos = new PhotoStore(archive);
      FaceId with = photos.faceOf("1", "front", "Ada").id();
      FaceId without = photos.faceOf("2", "front", "Ada").id();
      Proposal unsure = GivenProposal.of(archive, with, "HANNAH WREN", "?90 E(L60I40)LEN WREN");
      Proposal plain = GivenProposal.of(archive, without, "HANNAH WREN");

      assertThat(unsure.unsure()).extracting(UnsureLine::p).containsExactly(.9);
      assertThat(unsure.unsure().get(0).line().number()).isEqualTo(2);
      assertThat(unsure.lines()).extracting(ProposedLine::text).containsExactly("HANNAH WREN");
      // Search, statements and persons see a machine's letters by this alone.
      assertThat(Suggestion.lattice(unsure)).isEqualTo(Suggestion.lattice(plain));
      assertThat(Suggestion.of(unsure)).isEqualTo(Suggestion.of(plain));
      assertThat(Doubt.of(unsure)).isEqualTo(Doubt.of(plain));
      assertThat(unsure.readable()).isEqualTo(plain.readable());

      // What was kept before has no such field.
      String kept = Json.text(unsure);
      assertThat(kept).contains("\"unsure\":[{");
      Proposal old = Json.read(kept.replaceFirst(",\"unsure\":\\[.*\\]", ""), Proposal.class);
      assertThat(old.unsure()).isEmpty();
      assertThat(old.lines()).isEqualTo(unsure.lines());
    }
  }

  @Test
  void whatWasDerivedBeforeIsStillRead() {
    ReadPicture picture = stone().passedOver("AGED", .6, 300).view().picture();
    String json = Json.text(picture);
    String before = json.replaceFirst(",\"passedOver\":\\[.*\\]", "");

    assertThat(Json.read(json, ReadPicture.class)).isEqualTo(picture);
    assertThat(before.getBytes(StandardCharsets.UTF_8).length).isLessThan(json.length());
    assertThat(Json.read(before, ReadPicture.class)).isEqualTo(picture.withPassedOver(List.of()));
    MergedFace face = new MergedFace(List.of(), List.of());
    assertThat(Json.read("{\"views\":[],\"lines\":[]}", MergedFace.class)).isEqualTo(face);
    assertThat(Optional.of(face.unsure())).contains(List.of());
  }
}
