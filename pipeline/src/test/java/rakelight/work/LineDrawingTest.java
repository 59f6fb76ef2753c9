package rakelight.work;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.text.Normalizer;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.DerivationKey;
import rakelight.archive.ProposalId;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.inscription.Basis;
import rakelight.inscription.Draft;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.Letter;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.SignId;
import rakelight.inscription.Suggestion;
import rakelight.photo.Credits;
import rakelight.photo.Face;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.reading.DerivedCheck;
import rakelight.reading.DrawnLines;
import rakelight.reading.FacePictures;
import rakelight.reading.FaceView;
import rakelight.reading.LineLattice;
import rakelight.reading.MachineReader;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.reading.ProposedLine;
import rakelight.reading.Proposer;
import rakelight.reading.ReaderOnDemand;
import rakelight.relief.LineStrips;
import rakelight.samples.Cut;
import rakelight.samples.Emblem;
import rakelight.samples.Lamp;
import rakelight.samples.Material;
import rakelight.samples.RenderedPhotograph;
import rakelight.samples.Renderer;
import rakelight.samples.SampleFace;
import rakelight.samples.SampleLine;
import rakelight.samples.Stone;
import rakelight.samples.StoneForm;
import rakelight.samples.StoneMaker;
import rakelight.samples.Typeface;
import rakelight.samples.View;
import rakelight.samples.Weathering;

/**
 * A rendered stone of which a machine cut one line short, missed one and read one right; its reader
 * mends that by hand. The networks of the program read.
 */
class LineDrawingTest {
  private static final NamedReader ADA = new NamedReader("Ada Fenn", Role.ARCHIVIST);
  private static final NamedReader COL = new NamedReader("Col Reeve", Role.READER);
  private static final int WIDTH_PX = 1000;

  private static RenderedPhotograph shot;
  private static MachineReader reader;

  @TempDir Path folder;
  private WorkGround ground;
  private Faces faces;
  private LineDrawing drawing;
  private Face face;
  private Photograph photograph;

  @BeforeAll
  static void carve() {
    SampleFace stone =
        new SampleFace(
            "12",
            "E",
            90,
            new Stone(
                Material.SLATE,
                StoneForm.FLAT_TOP,
                Weathering.FRESH,
                Cut.V_CUT,
                Typeface.values()[0],
                Emblem.NONE,
                700,
                500,
                1850,
                Set.of("clean")),
            List.of(
                new SampleLine(1, 1, Set.of(), "Tull & Son, Tarrow"),
                new SampleLine(2, 1, Set.of(), "and of Ellen Wren"),
                new SampleLine(3, 1, Set.of(), "who died in May 1848")),
            7);
    View usual = StoneMaker.view(stone, WIDTH_PX, 5).with(Lamp.raking(stone, -50, 30), 0);
    shot = Renderer.render(stone, usual, 1);
    reader = MachineReader.standard();
  }

  @AfterAll
  static void noNativeHandleIsLeft() {
    reader.close();
    assertThat(NativeScope.live()).isZero();
  }

  @BeforeEach
  void open() throws Exception {
    ground = new WorkGround(folder.resolve("archive"));
    Path shots = Files.createDirectories(folder.resolve("shots"));
    Files.write(shots.resolve("stone.jpg"), shot.jpeg());
    new Ingest(ground.archive(), Credits.NONE, "Ada Fenn", new NoListener())
        .run(List.of(shots), Set.of());
    PhotoStore photos = new PhotoStore(ground.archive());
    face = photos.faceOf("12", "front", "Ada Fenn");
    photos.assign(
        photos.photographs().get(0).id(), face.id(), Optional.empty(), "person", "Ada Fenn");
    photograph = photos.photographs().get(0);
    faces = ground.faces();
    drawing =
        new LineDrawing(
            ground.archive(),
            faces,
            new DrawnLines(ground.archive(), new ReaderOnDemand(LineDrawingTest::lent)));
    GrayImage picture = Picture.upright(shot.jpeg(), 1);
    List<ProposedLine> lines = new ArrayList<>();
    for (FoundLine line : List.of(part(0, 0, 5), part(2, 0, 99))) {
      LineLattice lattice = reader.readLines(picture, List.of(LaidLine.own(line))).get(0);
      lines.add(
          new ProposedLine(
              lines.size() + 1, photograph.id(), line.ribbon(), line.heightPx(), 1, lattice));
    }
    DerivationKey key = new DerivationKey("ab".repeat(32));
    Proposal proposal =
        new Proposal(
            ProposalId.of(face.id().value(), key),
            key,
            Optional.of(face.id()),
            List.of(
                new FaceView(
                    photograph.id(),
                    Polygon.rectangle(20, 20, 680, 480).map(Homography.of(shot.faceToImage())::map),
                    Optional.of(Homography.identity()))),
            lines,
            List.of(),
            Instant.parse("2026-05-01T10:00:00Z"));
    new ProposalStore(ground.archive()).keep(proposal, ADA.name());
    new ReadingStore(ground.archive())
        .keepDraft(
            face.id(),
            Draft.begin(Suggestion.of(proposal), Optional.of(proposal.id())),
            ADA.name());
  }

  @AfterEach
  void close() {
    ground.close();
  }

  private static MachineReader lent() {
    return reader;
  }

  /** A line of the stone from one of its letters to another, drawn as high as the T is. */
  private static FoundLine part(int line, int from, int to) {
    List<RenderedPhotograph.Letter> letters = shot.lines().get(line).letters();
    List<Point> tall = corners(shot.lines().get(0).letters().get(0));
    Point left = corners(letters.get(from)).get(3);
    Point right = corners(letters.get(Math.min(to, letters.size()) - 1)).get(2);
    double x = tall.get(0).x() - tall.get(3).x();
    double y = tall.get(0).y() - tall.get(3).y();
    Polygon ribbon =
        new Polygon(
            List.of(
                new Point(left.x() + x, left.y() + y),
                new Point(right.x() + x, right.y() + y),
                right,
                left));
    return new FoundLine(ribbon, Math.hypot(x, y), 1);
  }

  private static List<Point> corners(RenderedPhotograph.Letter letter) {
    return letter.corners().stream().map(p -> new Point(p.getX(), p.getY())).toList();
  }

  private static String text(Work work, int line) {
    String text = work.draft().lines().get(line - 1).text();
    return Normalizer.normalize(text, Normalizer.Form.NFD).replace("\u0323", "");
  }

  private Work look() {
    return faces.look(face, ADA);
  }

  private Work move(int line, FoundLine where) {
    return drawing.move(face, ADA, look().version(), line, 1, where);
  }

  @Test
  void aLineThatWasCutShortIsWidenedAndReadsWhole() throws Exception {
    assertThat(text(look(), 1)).startsWith("Tull").doesNotContain("Tarrow");
    faces.change(
        face,
        ADA,
        look().version(),
        work ->
            DraftEditing.put(work.draft(), 1, 2, 2, Letter.clear(new SignId(1), "a"), "so cut"));
    Proposal before = look().proposal().orElseThrow();

    Work mended = move(1, part(0, 0, 99));

    // What the reader decided stays as he said, whatever the machine reads there now.
    assertThat(text(mended, 1)).isEqualTo("Ta#note(so cut)ll & Son, Tarrow");
    List<Place> places = Place.of(mended).get(0);
    assertThat(places).extracting(Place::decided).containsOnlyOnce(true);
    assertThat(places.get(1).decided()).isTrue();
    assertLit(mended, 1, 0);
    Proposal proposal = mended.proposal().orElseThrow();
    assertThat(proposal.mends()).contains(before.id());
    assertThat(proposal.lines().get(0).drawnBy()).contains("Ada Fenn");
    assertThat(proposal.lines().get(1)).isEqualTo(before.lines().get(1));
    assertThat(mended.draft().lines().get(1)).isEqualTo(look().draft().lines().get(1));

    assertThat(text(faces.undo(face, ADA, mended.version()), 1)).doesNotContain("Tarrow");
    assertThat(look().proposal()).contains(before);
    assertThat(text(faces.redo(face, ADA, look().version()), 1)).contains("Tarrow");
  }

  @Test
  void aMissedLineIsDrawnWhereItStandsAndReadAtOnce() throws Exception {
    Work mended = drawing.draw(face, ADA, look().version(), 2, part(1, 0, 99));

    assertThat(mended.draft().lines()).hasSize(3);
    assertThat(text(mended, 2)).isEqualTo("and of Ellen Wren");
    assertThat(text(mended, 3)).isEqualTo("who died in May 1848");
    assertLit(mended, 2, 1);
    assertLit(mended, 3, 2);
    assertThat(mended.proposal().orElseThrow().lines())
        .extracting(line -> line.number() + line.drawnBy().orElse(""))
        .containsExactly("1", "2Ada Fenn", "3");
  }

  @Test
  void aLineThatSomebodyTypedIsShownWhereItIsDrawn() throws Exception {
    faces.change(
        face,
        ADA,
        look().version(),
        work -> DraftEditing.addLine(work.draft(), 2, "and of Ellen Wren"));
    assertThat(Place.of(look()).get(1)).allMatch(place -> place.stretch().isEmpty());

    Work shown = move(2, part(1, 0, 99));

    assertThat(shown.draft().lines().get(1).isSettled()).isTrue();
    assertLit(shown, 2, 1);
    assertLit(shown, 3, 2);
  }

  @Test
  void whereTheMachineReadsNothingTheLineIsStillShownAndItsLettersStay() throws Exception {
    String before = text(look(), 2);
    List<Point> bare = List.of(new Point(400, 60), new Point(480, 60));

    Work moved = move(2, FoundLine.along(bare, 12));

    if (moved.proposal().orElseThrow().lines().get(1).lattice().letters() == 0) {
      assertThat(text(moved, 2)).isEqualTo(before);
      assertThat(Place.parts(Place.of(moved).get(1))).hasSize(1);
      assertThat(Place.of(moved).get(1)).allMatch(place -> place.stretch().isEmpty());
    }
  }

  @Test
  void whatCantBeDrawnIsRefusedInWords() {
    isRefused(
        () -> drawing.draw(face, ADA, "another", 2, part(1, 0, 99)),
        "meanwhile. Here is how it stands now.");
    isRefused(
        () -> drawing.draw(face, ADA, look().version(), 9, part(1, 0, 99)), "put in at 1 to 3");
    isRefused(
        () -> move(1, FoundLine.along(List.of(new Point(5, 5), new Point(90, 5)), 2)), "small");
    isRefused(
        () -> move(1, FoundLine.along(List.of(new Point(5, 5), new Point(5000, 5)), 20)), "beyond");
    faces.change(face, ADA, look().version(), work -> DraftEditing.splitLine(work.draft(), 2, 4));
    isRefused(() -> move(3, part(2, 0, 99)), "join them");
    Face unread = ground.face("13");
    isRefused(
        () -> drawing.draw(unread, ADA, faces.look(unread, ADA).version(), 1, part(1, 0, 99)),
        "type the line instead");
  }

  private static void isRefused(ThrowingCallable asked, String words) {
    assertThatThrownBy(asked)
        .isInstanceOfSatisfying(
            RefusedException.class, e -> assertThat(e.refused().words()).contains(words));
  }

  @Test
  void whatWasDrawnOutlivesProposalsMadeAnewSigningAndCheck() throws Exception {
    move(1, part(0, 0, 99));
    Work drawn = drawing.draw(face, ADA, look().version(), 2, part(1, 0, 99));
    Proposal mended = drawn.proposal().orElseThrow();
    FacePictures pictures = new FacePictures(ground.archive());
    Path strip = pictures.strip(mended, 2, "light-1").orElseThrow();
    assertThat(pictures.strip(mended, 3, "cut")).isPresent();
    assertThat(strip).isNotEqualTo(pictures.strip(mended, 3, "light-1").orElseThrow());

    new Proposer(ground.archive(), reader).run(1, (done, all, one) -> {});

    assertThat(new ProposalStore(ground.archive()).latest(face.id())).isPresent();
    assertThat(look()).isEqualTo(drawn);
    assertThat(new DerivedCheck(ground.archive(), reader).run())
        .noneMatch(finding -> finding.stage().endsWith(LineStrips.KIND.name()));

    for (int line = 1; line <= 3; line++) {
      int at = line;
      faces.change(face, ADA, look().version(), work -> DraftEditing.accept(work.draft(), at));
    }
    faces.sign(face, ADA, look().version(), Basis.FROM_PHOTOGRAPHS, Optional.empty());
    assertThat(new ReadingStore(ground.archive()).current(face.id()).orElseThrow().proposal())
        .contains(mended.id());
    Work reopened = faces.reopen(face, ADA);
    assertThat(reopened.proposal()).contains(mended);
    assertLit(reopened, 2, 1);
    assertThat(faces.look(face, COL).proposal()).contains(mended);
  }

  /** Every letter of a line is lit over the letter that is cut there. */
  private static void assertLit(Work work, int line, int cut) {
    List<Place> places = Place.of(work).get(line - 1);
    List<RenderedPhotograph.Letter> letters = shot.lines().get(cut).letters();
    assertThat(places).hasSameSizeAs(letters);
    for (int i = 0; i < letters.size(); i++) {
      Polygon box = new Polygon(corners(letters.get(i)));
      Point lit = places.get(i).stretch().orElseThrow().box().centre();
      assertThat(lit.x())
          .as("letter %d of line %d", i + 1, line)
          .isBetween(box.left() - 1, box.right() + 1);
    }
  }
}
