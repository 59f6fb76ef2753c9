package rakelight.inscription;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.Table;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.ProposalStore;

class ReadingStoreTest {
  @TempDir Path folder;
  private Archive archive;
  private ReadingStore readings;
  private PhotoStore photographs;
  private FaceId face;

  @BeforeEach
  void open() {
    archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Thornbeck", 54.1, -3.2, ZoneId.of("Europe/London")),
            List.of(
                MarkerStore.projection(),
                PhotoStore.projection(),
                ProposalStore.projection(),
                ReadingStore.projection()));
    readings = new ReadingStore(archive);
    photographs = new PhotoStore(archive);
    face = photographs.faceOf("12", "front", "Ada Penrose").id();
  }

  @AfterEach
  void close() {
    archive.close();
  }

  private Reading sign(String text) throws LeidenException {
    return readings.sign(
        face, Leiden.parse(text), Basis.FROM_PHOTOGRAPHS, Optional.empty(), "Ada Penrose");
  }

  private Path file(String text) throws IOException {
    return Files.writeString(folder.resolve("readings.tsv"), text, StandardCharsets.UTF_8);
  }

  private static String leiden(Reading reading) {
    return Leiden.print(reading.inscription());
  }

  @Test
  void aSignedReadingIsTheCurrentOneAndTheOneBeforeIsKept() throws Exception {
    Reading first = sign("HANNAH WREN | died 188[.]");
    Reading second = sign("HANNAH WREN | died 188(3 or 8)");
    assertThat(readings.current(face)).contains(second);
    assertThat(readings.versions(face)).containsExactly(first, second);
    assertThat(second.version()).isEqualTo(2);
  }

  @Test
  void undoBringsTheEarlierReadingBack() throws Exception {
    Reading first = sign("HANNAH WREN");
    Reading second = sign("HANNAH WRIN");
    archive.journal().undo(second.decision(), "Ada Penrose");
    assertThat(readings.current(face)).contains(first);
    archive.journal().rebuild();
    assertThat(readings.versions(face)).containsExactly(first);
  }

  @Test
  void signsKeepTheirIdsAndNoIdIsUsedAgain() throws Exception {
    Reading first = sign("HANNAH");
    Reading second = sign("HANNAH WREN");
    assertThat(second.inscription().signs().subList(0, 7)).isEqualTo(first.inscription().signs());
    archive.journal().undo(second.decision(), "Ada Penrose");
    Reading third = sign("HANNAH LARK");
    assertThat(third.inscription().lastId()).isGreaterThan(second.inscription().lastId());
  }

  /** Forms of a payload that no version since has written; archives that hold them are about. */
  @Test
  void draftsAndReadingsOfOlderVersionsAreReadForEver() {
    decide(
        "reading.drafted",
        1,
        """
        {"lines":[{"text":"HANNAH","settled":true},{"text":"WREN","settled":false}]}\
        """);
    assertThat(draftedLines()).containsExactly("HANNAH", "WREN");

    decide(
        "reading.drafted",
        2,
        """
        {"from":1,"removed":1,"lines":[{"text":"LARK","places":["2.0!","2.1!","2.2!","2.3!"]},
          {"text":"1848","places":["3.0","3.1","3.2","3.3"]}]}\
        """);
    assertThat(draftedLines()).containsExactly("HANNAH", "LARK", "1848");

    decide(
        "reading.signed",
        1,
        """
        {"reading":"01a226f8-fa05-723f-ad93-f28e28f0440f","basis":{"kind":"photographs"},
          "text":["HANNAH"],"signIds":[1,2,3,4,5,6,7]}\
        """);
    Reading reading = readings.current(face).orElseThrow();
    assertThat(leiden(reading)).isEqualTo("HANNAH");
    assertThat(reading.settles()).isEmpty();
    assertThat(readings.draft(face, "Ada Penrose")).isEmpty();

    archive.journal().rebuild();
    assertThat(readings.current(face)).contains(reading);
  }

  @Test
  void aPayloadOfANewerProgramIsRefused() {
    assertThatThrownBy(() -> decide("reading.drafted", 4, "{}"))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("reading.drafted of version 4 was written by a newer program");
  }

  private void decide(String kind, int version, String payload) {
    archive
        .journal()
        .append(
            new NewDecision(
                "Ada Penrose",
                kind,
                version,
                face.value(),
                Json.read(payload, JsonNode.class),
                List.of(photographs.madeBy(face))));
  }

  private List<String> draftedLines() {
    return readings.draft(face, "Ada Penrose").orElseThrow().lines().stream()
        .map(Draft.Line::text)
        .toList();
  }

  @Test
  void aDraftIsKeptUntilItsReaderSigns() throws Exception {
    Draft begun = new Draft(List.of(Draft.Line.of("HANNAH", true)), Optional.empty());
    Draft further =
        new Draft(
            List.of(Draft.Line.of("HANNAḤ", true), Draft.Line.of("WREN", false)), Optional.empty());
    readings.keepDraft(face, begun, "Ada Penrose");
    readings.keepDraft(face, further, "Ada Penrose");
    readings.keepDraft(face, begun, "Col Reeve");
    assertThat(readings.draft(face, "Ada Penrose")).contains(further);
    assertThat(readings.current(face)).isEmpty();
    sign("HANNAḤ | WREN");
    assertThat(readings.draft(face, "Ada Penrose")).isEmpty();
    assertThat(readings.draft(face, "Col Reeve")).contains(begun);
  }

  @Test
  void everyBadRowIsNamedAndNothingIsTaken() throws Exception {
    Path bad =
        file(
            "marker\tface\tline\ttext\n"
                + "1\tfront\t1\tHANN?H\n"
                + "1\tfront\t3\tWREN\n"
                + "2\tfront\tone\tx\n"
                + "3\tfront\t1\tgood\n"
                + "3\tfront\t1\ttwice\n"
                + "\tfront\t1\tno marker\n"
                + "4\tfront\t1\n"
                + "5\tfront\t1\t[open\n"
                + "6\tfront\t1\ta | b\n"
                + "6\tfront\t2\tc\n");
    assertThatThrownBy(() -> ReadingFile.read(bad))
        .isInstanceOfSatisfying(
            Table.RefusedException.class,
            e -> {
              assertThat(e.problems()).hasSize(8);
              assertThat(e.problems().get(0))
                  .contains("readings.tsv, line 2: marker 1, face front: column 5: found “?”");
              assertThat(e.problems().get(1)).contains("line 3").contains("has no line 2");
              assertThat(e.problems().get(2)).contains("line 4").contains("“one”");
              assertThat(e.problems().get(3)).contains("line 6").contains("line 5 of the file");
              assertThat(e.problems().get(4)).contains("line 7: no marker number");
              assertThat(e.problems().get(5)).contains("line 8: has 3 columns");
              assertThat(e.problems().get(6)).contains("line 9").contains("found the end");
              assertThat(e.problems().get(7)).contains("line 10").contains("within the text");
            });
  }

  @Test
  void aFileWithoutItsColumnsOrInAnotherEncodingIsRefused() throws Exception {
    Path columns = file("stone\ttext\n");
    assertThatThrownBy(() -> ReadingFile.read(columns)).hasMessageContaining("no column marker");
    Path latin = folder.resolve("latin.tsv");
    Files.write(latin, "marker\tline\ttext\n1\t1\tBrontë\n".getBytes(StandardCharsets.ISO_8859_1));
    assertThatThrownBy(() -> ReadingFile.read(latin)).hasMessageContaining("isn't UTF-8");
    Path empty = file("");
    assertThatThrownBy(() -> ReadingFile.read(empty)).hasMessageContaining("no column marker");
  }

  @Test
  void anEarlierWitnessIsAlwaysNamed() {
    assertThatThrownBy(
            () ->
                new Basis(Basis.Kind.EARLIER, Optional.empty(), Optional.empty(), Optional.empty()))
        .hasMessageContaining("--witness");
  }
}
