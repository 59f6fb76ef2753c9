package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.Chance;
import rakelight.reading.SmallArchive;

/**
 * Where a ground asks for two readers, no command shows the first one's reading before both have
 * signed, nor what a machine takes names and dates to be: HANNAH WREN, DIED 1848.
 */
class BlindCommandsTest {
  private static final String FIRST = "(?s).*(HESTER|Hester|hester|1834).*";
  private static final String MACHINE = "(?s).*(HANNAH|Hannah|WREN|Wren|1848).*";

  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void theFirstOfTwoSigns() throws IOException {
    archive = folder.resolve("archive");
    try (SmallArchive small = new SmallArchive(folder, Projections.all())) {
      small.seeFainter();
      small.propose();
    }
    done("readers", archive, "require", "2", "--reader", "Ada Fenn");
    sign("Ada Fenn", "HESTER WREN", "DIED 1834");
  }

  private final InputStream keyboard = System.in;

  @AfterEach
  void giveTheKeyboardBack() {
    System.setIn(keyboard);
  }

  private static Ran done(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err()).isZero();
    return ran;
  }

  private void sign(String reader, String name, String death) throws IOException {
    confirm(reader, "M04\tW\t1\t" + name + "\nM04\tW\t2\t" + death + "\n");
  }

  private void confirm(String reader, String rows) throws IOException {
    Path file = folder.resolve("readings.tsv");
    Files.writeString(file, "marker\tface\tline\ttext\n" + rows);
    done("confirm", archive, "--new-markers", "--from", file, "--reader", reader);
  }

  @Test
  void nothingThatIsPrintedSaysWhatTheFirstOrTheMachineRead() {
    System.setIn(new ByteArrayInputStream("quit\n".getBytes(StandardCharsets.UTF_8)));
    List<Object[]> commands =
        List.of(
            new Object[] {"proposals", archive},
            new Object[] {"proposals", archive, "--json"},
            new Object[] {"proposals", archive, "--doubts", "50"},
            new Object[] {"proposals", archive, "--doubts", "50", "--json"},
            new Object[] {"proposals", archive, "--visits", "--json"},
            new Object[] {"read", archive, "M04", "--reader", "Bo"},
            new Object[] {"statements", archive},
            new Object[] {"statements", archive, "--json"},
            new Object[] {"persons", archive},
            new Object[] {"persons", archive, "--json"},
            new Object[] {"dates", archive, "--json"},
            new Object[] {"links", archive},
            new Object[] {"questions", archive},
            new Object[] {"decisions", archive},
            new Object[] {"decisions", archive, "--json"},
            new Object[] {"photographs", archive, "--json"},
            new Object[] {"groups", archive},
            new Object[] {"conditions", archive},
            new Object[] {"readers", archive},
            new Object[] {"readers", archive, "list", "--json"},
            new Object[] {"readers", archive, "agreement"},
            new Object[] {"index", archive});
    for (Object[] command : commands) {
      Ran ran = Ran.command(command);
      String printed = Chance.leftOut(ran.out() + ran.err());
      assertThat(printed).as(List.of(command).toString()).doesNotMatch(FIRST);
      assertThat(printed).as(List.of(command).toString()).doesNotMatch(MACHINE);
    }
    for (String asked : List.of("hester", "wren", "1834")) {
      Ran ran = Ran.command("search", archive, asked, "--json");
      // That it waits to be read is no secret; that it answers would be.
      assertThat(ran.outLines())
          .as(asked + ran.err())
          .singleElement()
          .asString()
          .contains("\"unread\":[\"M04\"]")
          .contains("\"answering\":0");
    }
  }

  @Test
  void nothingThatIsWrittenSaysWhatTheFirstOrTheMachineRead() throws IOException {
    // Something both have read, so that there is anything to export.
    confirm("Ada Fenn", "9\tfront\t1\tELI HOLT\n");
    confirm("Bo", "9\tfront\t1\tELI HOLT\n");
    Path xml = folder.resolve("xml");
    Path tables = folder.resolve("tables");
    done("export", archive, "--to", xml, "--as-of", "2026-11-25");
    done("export", archive, "--to", tables, "--as-of", "2026-11-25", "--tables");
    try (Stream<Path> files = Stream.concat(Files.walk(xml), Files.walk(tables))) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        String written = Chance.leftOut(Files.readString(file));
        assertThat(written).as(file.toString()).doesNotMatch(FIRST);
        assertThat(written).as(file.toString()).doesNotMatch(MACHINE);
      }
    }
    Path sheet = folder.resolve("sheet.pdf");
    done("sheet", archive, "M04", "--out", sheet);
    try (PDDocument document = Loader.loadPDF(sheet.toFile())) {
      String printed = new PDFTextStripper().getText(document);
      assertThat(printed).contains("Marker M04").doesNotMatch(FIRST).doesNotMatch(MACHINE);
    }
  }

  @Test
  void onceBothHaveSignedEverythingIsShown() throws IOException {
    sign("Bo", "HESTER WREN", "DIED 1834");
    assertThat(done("statements", archive).out()).contains("Hester Wren").contains("1834");
    assertThat(done("readers", archive, "agreement").out()).startsWith("1 face, 18 letters: 100");
    assertThat(done("decisions", archive).out()).contains("HESTER");
    done("index", archive);
    assertThat(done("search", archive, "hester").out()).contains("M04");
  }

  @Test
  void whatIsKnownBeforehandIsShownToNobodyAndMeasuresBoth() throws IOException {
    Path known = folder.resolve("known.tsv");
    Files.writeString(
        known, "marker\tface\tline\ttext\nM04\tW\t1\t(1 line)\nM04\tW\t2\t+++ 1844\n");
    done("readers", archive, "known", known, "--letters", "--reader", "Ada Fenn");
    assertThat(Chance.leftOut(done("decisions", archive, "--json").out())).doesNotContain("1844");
    sign("Bo", "HESTER WREN", "DIED 1834");
    assertThat(done("readers", archive).out())
        .contains("Ada Fenn  not admitted  1 reading signed; 1 of 4 known letters wrong, 25.0%")
        .contains("Bo  not admitted  1 reading signed; 1 of 4 known letters wrong");
    // The rest of the face is read in earnest.
    assertThat(done("statements", archive).out()).contains("Hester Wren");
    assertThat(Chance.leftOut(done("decisions", archive, "--json").out())).doesNotContain("1844");
    assertThat(done("check", archive).code()).isZero();
  }
}
