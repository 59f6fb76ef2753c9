package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Apart;
import rakelight.archive.ApartStore;
import rakelight.archive.Archive;
import rakelight.archive.Check;
import rakelight.archive.Ground;
import rakelight.archive.Joining;
import rakelight.archive.MarkerId;
import rakelight.archive.Meeting;
import rakelight.archive.Merging;
import rakelight.archive.NewDecision;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Credits;
import rakelight.photo.Face;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.samples.Samples;
import rakelight.work.DecisionWords;
import rakelight.work.NamedReader;
import rakelight.work.Regrouping;
import rakelight.work.Role;
import rakelight.work.Undoing;
import rakelight.work.Withdrawing;

/**
 * Two copies of one archive go apart and are merged, either into the other: the same comes out.
 * {@code -Drakelight.pairs=40} has forty pairs of each habit.
 */
class MergedHistoriesTest {

  private static final NamedReader ADA = new NamedReader("Ada", Role.ARCHIVIST);

  @TempDir static Path folder;

  private static Laptops laptops;

  @BeforeAll
  static void anArchive() throws Exception {
    laptops = new Laptops(folder, Merging.How.ofCopies(Projections.joinings()));
    Path shots = Files.createDirectories(folder.resolve("shots"));
    for (String name : List.of("M04-W-1.jpg", "M04-W-2.jpg")) {
      Files.write(shots.resolve(name), Samples.bytes(name));
    }
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    try (Archive archive = Archive.init(folder.resolve("begun"), ground, Projections.all())) {
      new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
      PhotoStore photos = new PhotoStore(archive);
      for (String number : List.of("1", "2", "3", "4")) {
        Face face = photos.faceOf(number, Face.FRONT, "Ada");
        if (number.equals("4")) {
          for (Photograph shot : photos.photographs()) {
            photos.assign(shot.id(), face.id(), Optional.empty(), "person", "Ada");
          }
        }
        new ReadingStore(archive)
            .sign(
                face.id(),
                Leiden.parse("HANNAH WREN"),
                Basis.FROM_PHOTOGRAPHS,
                Optional.empty(),
                "Ada");
      }
    }
  }

  @Test
  void whicheverIsMergedIntoWhichTheSameComesOut() throws IOException {
    Laptops.Tally tally =
        laptops.pairs(EditHistory::everyday, "every", "begun", "begun", Laptops.SEED);
    System.out.println("everyday: " + tally);
  }

  @Test
  void alsoWhereMuchIsPutRight() throws IOException {
    Laptops.Tally tally =
        laptops.pairs(EditHistory::tidying, "tidy", "begun", "begun", Laptops.SEED + 1000);
    System.out.println("tidying: " + tally);
  }

  private static void apart(String name, Laptops.Deed one, Laptops.Deed other) throws Exception {
    laptops.apart(name, "begun", "begun", one, other);
  }

  private static Face front(Archive archive, String number) {
    return new PhotoStore(archive).faceOf(number, Face.FRONT, "Ada");
  }

  private static void sign(Archive archive, String number, String text, String reader)
      throws Exception {
    new ReadingStore(archive)
        .sign(
            front(archive, number).id(),
            Leiden.parse(text),
            Basis.FROM_PHOTOGRAPHS,
            Optional.empty(),
            reader);
  }

  @Test
  void twoMarkersOfOneNumberAreToldApartAndOnePhotographTakenInTwiceIsOne() throws Exception {
    Path shot = Files.createDirectories(folder.resolve("again")).resolve("M07-W.jpg");
    Files.write(shot, Samples.bytes("M07-W.jpg"));
    apart(
        "same",
        archive -> {
          new MarkerStore(archive).create("9", "Ada");
          new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shot), Set.of());
        },
        archive -> {
          new MarkerStore(archive).create("09", "Ben");
          new Ingest(archive, Credits.NONE, "Ben", new NoListener()).run(List.of(shot), Set.of());
          PhotoStore photos = new PhotoStore(archive);
          Photograph taken = photos.named("M07-W.jpg", "").get(0);
          photos.assign(taken.id(), front(archive, "2").id(), Optional.empty(), "person", "Ben");
        });

    laptops.mergeBoth("same");

    try (Archive archive = laptops.open("samea")) {
      assertThat(new MarkerStore(archive).markers())
          .extracting(Marker::number)
          .anyMatch(number -> number.matches("0?9 bis"));
      List<Photograph> taken = new PhotoStore(archive).named("M07-W.jpg", "");
      assertThat(taken).hasSize(1);
      assertThat(taken.get(0).face()).contains(front(archive, "2").id());
    }
  }

  @Test
  void whatSomebodyBuiltOnStaysThoughItWasTakenBackElsewhere() throws Exception {
    laptops.copy("begun", "begun-aside");
    try (Archive archive = laptops.open("begun-aside")) {
      new PhotoStore(archive).faceOf("1", "back", "Ada");
    }
    for (String side : List.of("a", "b")) {
      laptops.copy("begun-aside", "held" + side);
      try (Archive archive = laptops.open("held" + side)) {
        Face back = new PhotoStore(archive).faceOf("1", "back", "Ada");
        if (side.equals("a")) {
          archive.journal().undo(new PhotoStore(archive).madeBy(back.id()), "Ada");
        } else {
          new ReadingStore(archive)
              .sign(
                  back.id(),
                  Leiden.parse("ANN PELL"),
                  Basis.FROM_PHOTOGRAPHS,
                  Optional.empty(),
                  "Ben");
        }
      }
      laptops.copy("held" + side, "held" + side + "-before");
    }

    laptops.mergeBoth("held");

    try (Archive archive = laptops.open("helda")) {
      Face back =
          new PhotoStore(archive)
              .faces(new MarkerStore(archive).named("1").id()).stream()
                  .filter(face -> face.name().equals("back"))
                  .findFirst()
                  .orElseThrow();
      var signed = new ReadingStore(archive).versions(back.id()).get(0);
      // Once the reading is taken back nothing holds the face any more.
      archive.journal().undo(signed.decision(), "Ben");
      assertThat(new PhotoStore(archive).face(back.id())).isEmpty();
      assertThat(new Check(archive).run(Expected.originals(archive).keySet(), f -> {}).faults())
          .isEmpty();
    }
  }

  @Test
  void lettersReadElsewhereDontBringBackAReadingThatWasWithdrawn() throws Exception {
    apart(
        "gone",
        archive ->
            new Withdrawing(archive)
                .reading(
                    front(archive, "1"),
                    new Withdrawing.Terms("asked", Optional.empty(), true),
                    ADA),
        archive -> {
          for (int i = 0; i < 4; i++) {
            sign(archive, "1", "HANNAH WREN\nDIED 184" + i, "Ben");
          }
        });

    laptops.mergeBoth("gone");

    try (Archive archive = laptops.open("gonea")) {
      assertThat(new ReadingStore(archive).versions(front(archive, "1").id())).isEmpty();
    }
  }

  @Test
  void ofTwoMarkersThatWereMadePartOfEachOtherTheLaterStandsAndSomebodyIsAsked() throws Exception {
    apart(
        "cross",
        archive -> regroup(archive, "1", "2", ADA),
        archive -> regroup(archive, "2", "1", ADA));

    laptops.mergeBoth("cross");

    try (Archive archive = laptops.open("crossa")) {
      MarkerStore markers = new MarkerStore(archive);
      assertThat(markers.named("1").id()).isEqualTo(markers.named("2").id());
      assertThat(new PhotoStore(archive).faces(markers.named("1").id()))
          .hasSize(2)
          .allSatisfy(face -> assertThat(new ReadingStore(archive).versions(face.id())).hasSize(1));
      assertThat(new ApartStore(archive).waiting())
          .extracting(Apart::what)
          .containsExactly("which marker is part of the other");
    }
  }

  @Test
  void aRingOverThreeMarkersIsOpenedAndNoneOfThemVanishes() throws Exception {
    apart(
        "ring",
        archive -> {
          regroup(archive, "1", "2", ADA);
          regroup(archive, "2", "3", ADA);
        },
        archive -> regroup(archive, "3", "1", ADA));

    laptops.mergeBoth("ring");

    try (Archive archive = laptops.open("ringa")) {
      MarkerStore markers = new MarkerStore(archive);
      for (String number : List.of("1", "2", "3")) {
        assertThat(markers.byNumber(number)).as(number).isPresent();
      }
      assertThat(new ApartStore(archive).waiting()).hasSize(1);
    }
  }

  @Test
  void aMarkerMadePartOfDifferentOnesIsPartOfTheLaterAndTheOtherActIsTakenBackWhole()
      throws Exception {
    apart(
        "aims",
        archive -> regroup(archive, "1", "2", ADA),
        archive -> regroup(archive, "1", "3", ADA));

    laptops.mergeBoth("aims");

    try (Archive archive = laptops.open("aimsa")) {
      MarkerStore markers = new MarkerStore(archive);
      MarkerId now = markers.named("1").id();
      MarkerId notIt =
          now.equals(markers.named("2").id()) ? markers.named("3").id() : markers.named("2").id();
      assertThat(new PhotoStore(archive).faces(now)).hasSize(2);
      assertThat(new PhotoStore(archive).faces(notIt)).hasSize(1);
      assertThat(new ApartStore(archive).waiting())
          .extracting(Apart::what)
          .containsExactly("which marker it is part of");
    }
  }

  @Test
  void whatIsPutOnAMarkerThatWasWithdrawnElsewhereGoesWithItSealedAndComesBackWithIt()
      throws Exception {
    Path shot = Files.createDirectories(folder.resolve("late")).resolve("M07-W.jpg");
    Files.write(shot, Samples.bytes("M07-W.jpg"));
    apart(
        "late",
        archive ->
            new Withdrawing(archive)
                .marker(
                    new MarkerStore(archive).named("1"),
                    new Withdrawing.Terms("asked", Optional.empty(), false),
                    ADA),
        archive -> {
          new Ingest(archive, Credits.NONE, "Ben", new NoListener()).run(List.of(shot), Set.of());
          PhotoStore photos = new PhotoStore(archive);
          Photograph taken = photos.named("M07-W.jpg", "").get(0);
          Face back = photos.faceOf("1", "back", "Ben");
          photos.assign(taken.id(), back.id(), Optional.empty(), "person", "Ben");
        });

    laptops.mergeBoth("late");

    try (Archive archive = laptops.open("latea")) {
      assertThat(new MarkerStore(archive).byNumber("1")).isEmpty();
      assertThat(new PhotoStore(archive).named("M07-W.jpg", "")).isEmpty();
      assertThat(archive.withdrawals().sealed()).hasSize(1);
      List<Apart> asked = new ApartStore(archive).waiting();
      assertThat(asked).hasSize(1);
      assertThat(new DecisionWords(archive).about(asked.get(0).subject())).isEqualTo("marker 1");
      new Undoing(archive).undo(archive.withdrawals().acts().get(0).get(0).id(), ADA);
      assertThat(new PhotoStore(archive).named("M07-W.jpg", "").get(0).face())
          .isEqualTo(
              new PhotoStore(archive)
                  .face(new MarkerStore(archive).named("1").id(), "back")
                  .map(Face::id));
      assertThat(new Check(archive).run(Expected.originals(archive).keySet(), f -> {}).faults())
          .isEmpty();
    }
  }

  private static void regroup(Archive archive, String gone, String into, NamedReader by) {
    MarkerStore markers = new MarkerStore(archive);
    new Regrouping(archive).merge(markers.named(gone), markers.named(into), false, by);
  }

  @Test
  void whatWouldComeIsToldBeforeAndNothingIsChanged() throws Exception {
    apart(
        "foretold",
        archive -> sign(archive, "1", "JOB THORNE", "Ada"),
        archive -> {
          sign(archive, "1", "ANN PELL", "Ben");
          new MarkerStore(archive).create("9", "Ben");
        });
    Map<String, List<String>> before = laptops.content("foretolda");
    Ran look =
        Ran.command("merge", folder.resolve("foretolda"), folder.resolve("foretoldb"), "--dry-run");
    assertThat(look.code()).isZero();
    assertThat(look.out())
        .contains("Ben read marker 1, face front: ANN PELL")
        .contains("Ben: 1 other decision")
        .contains("the reading: marker 1, face front");
    assertThat(laptops.content("foretolda")).isEqualTo(before);
    Merging.Result merged = laptops.merge("foretolda", "foretoldb");
    assertThat(look.out()).startsWith(merged.decisions() + " decisions and 0 originals would");
    assertThat(merged.apart()).hasSize(1);
  }

  @Test
  void aMergeThatFailsHalfwayLeavesTheArchiveAsItWas() throws Exception {
    apart(
        "half",
        archive -> sign(archive, "1", "JOB THORNE", "Ada"),
        archive -> sign(archive, "1", "ANN PELL", "Ben"));
    Map<String, List<String>> before = laptops.content("halfa");
    Joining failing =
        new Joining() {
          @Override
          public List<NewDecision> follows(Archive joined, Meeting meeting) {
            assertThat(joined.journal().lastCounter()).isGreaterThan(meeting.sides().size());
            throw new IllegalStateException("the machine dies here");
          }
        };

    try (Archive here = laptops.open("halfa");
        Archive there = Archive.openToLook(folder.resolve("halfb"), Projections.all())) {
      assertThatThrownBy(
              () -> Merging.of(here, there, Merging.How.ofCopies(List.of(failing)), file -> {}))
          .hasMessage("the machine dies here");
      assertThat(EditHistory.content(here)).isEqualTo(before);
    }
    assertThat(laptops.merge("halfa", "halfb").apart()).hasSize(1);
  }

  @Test
  void archivesBegunApartAndDecisionsThatWereTamperedWithAreRefused() throws Exception {
    laptops.copy("begun", "forgeda");
    laptops.copy("begun", "forgedb");
    try (Archive archive = laptops.open("forgedb")) {
      archive
          .ledger()
          .write(
              handle -> {
                handle.execute("DROP TRIGGER decision_is_never_changed");
                return handle.execute("UPDATE decision SET reader = 'Eve' WHERE counter = 3");
              });
    }
    assertThatThrownBy(() -> laptops.merge("forgeda", "forgedb"))
        .hasMessageContaining("tampered with");
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    Archive.init(folder.resolve("another"), ground, Projections.all()).close();
    assertThatThrownBy(() -> laptops.merge("forgeda", "another"))
        .hasMessageContaining("another archive");
  }
}
