package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;
import rakelight.publish.epidoc.EpidocSchema;
import rakelight.publish.gedcom.GedcomFile;

/** Readings out of one archive and into another. */
class PublishCommandsTest {
  private static final String ADA = "Ada Penrose";

  @TempDir Path folder;
  private Path archive;
  private Path out;

  @BeforeEach
  void anArchiveWithAReadingCorrectedOnce() throws Exception {
    archive = folder.resolve("archive");
    out = folder.resolve("out");
    init(archive);
    confirm("12\tfront\t1\tIN MEMORY OF | HARRAH WREN | died March 14, 18[.]1", "Bert Quillan");
    confirm("12\tfront\t1\tIN MEMORY OF | HANNAH W(REN) | died March 14, 18[5]1", ADA);
  }

  private static void init(Path archive) {
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
  }

  private void confirm(String row, String reader) throws Exception {
    Path file = folder.resolve("readings.tsv");
    Files.writeString(file, "marker\tface\tline\ttext\n" + row + "\n", StandardCharsets.UTF_8);
    Ran ran = Ran.command("confirm", archive, "--new-markers", "--from", file, "--reader", reader);
    assertThat(ran.code()).as(ran.err()).isZero();
  }

  private String exported() throws Exception {
    Ran ran = Ran.command("export", archive, "--to", out, "--as-of", "2026-11-25");
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.outLines()).containsExactly(out.resolve("12-front.xml").toString());
    return Files.readString(out.resolve("12-front.xml"), StandardCharsets.UTF_8);
  }

  @Test
  void anExportNamesWhoReadItAndWhatWasReadBefore() throws Exception {
    assertThat(exported())
        .contains("<name>Ada Penrose</name>")
        .contains("<name>Bert Quillan</name>")
        .contains("<lb n=\"2\"/>HANNAH <expan><abbr>W</abbr><ex>REN</ex></expan>")
        .contains("<rdg resp=\"#r2\" source=\"#b1\">HARRAH WREN</rdg>")
        .contains("<origDate notBefore=\"1851-03-14\"");
  }

  @Test
  void anExportIsValid() throws Exception {
    EpidocSchema schema = EpidocSchema.orSkip();
    assertThat(schema.errors(exported())).isEmpty();
  }

  @Test
  void theNameOfSomebodyWhoMayBeLivingIsLeftOutWithWhatShowsIt() throws Exception {
    confirm(
        "14\tfront\t1\tROBERT GARSIDE | 1949 - 2011 | ALYCE HIS WIFE | born 3 May 1953", "Bert");
    confirm("14\tfront\t1\tROBERT GARSIDE | 1949 - 2011 | ALICE HIS WIFE | born 3 May 1953", ADA);
    Ran ran = Ran.command("export", archive, "--to", out, "--as-of", "2026-11-25");
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out()).contains("14-front.xml: something on it is withheld (may be living)");
    String file = Files.readString(out.resolve("14-front.xml"));
    assertThat(file)
        .contains("ROBERT GARSIDE")
        .contains("<gap reason=\"ellipsis\" extent=\"unknown\" unit=\"character\">")
        .doesNotContain("ALICE")
        .doesNotContain("ALYCE");
    assertThat(ran.outLines()).contains(out.resolve("12-front.xml").toString());
    Ran later = Ran.command("export", archive, "--to", out, "--as-of", "2070-01-01");
    assertThat(later.out()).doesNotContain("living");
    assertThat(Files.readString(out.resolve("14-front.xml"))).contains("ALICE").contains("ALYCE");
  }

  @Test
  void tablesHoldLinesAndStatementsWithoutWhoMayBeLiving() throws Exception {
    confirm("14\tfront\t1\tROBERT GARSIDE | 1949 - 2011 | ALICE HIS WIFE | 1953 - (vac.)", ADA);
    Ran ran = Ran.command("export", archive, "--to", out, "--as-of", "2026-11-25", "--tables");
    assertThat(ran.code()).as(ran.err()).isZero();
    List<String> lines = Files.readAllLines(out.resolve("readings.csv"));
    assertThat(lines.get(0))
        .isEqualTo("marker,face,line,text,withheld,reader,signed,basis,witness");
    assertThat(lines.get(2)).startsWith("12,front,2,HANNAH W(REN),,Ada Penrose,2");
    assertThat(lines.get(3)).startsWith("12,front,3,\"died March 14, 18[5]1\",,");
    assertThat(lines.get(6)).startsWith("14,front,3,,may be living,Ada Penrose,");
    assertThat(Files.readString(out.resolve("statements.csv")))
        .contains("12,front,1,death,3,\"died March 14, 1851\",1851-03-14,supplied,")
        .contains("Robert|Garside")
        .doesNotContain("Alice");
  }

  /**
   * As W3C's Metadata Vocabulary for Tabular Data (2015) has it: titles are those of the header,
   * every cell is of its column's datatype, and no primary key stands twice.
   */
  @Test
  void whatTheTablesHoldIsToldForCsvOnTheWeb() throws Exception {
    confirm("14\tfront\t1\tROBERT GARSIDE | died 2 May 1911 aged 62 years", ADA);
    Ran.command("export", archive, "--to", out, "--as-of", "2026-11-25", "--tables");
    JsonNode group = Json.read(Files.readString(out.resolve("csv-metadata.json")), JsonNode.class);
    assertThat(group.path("@context").get(0).asText()).isEqualTo("http://www.w3.org/ns/csvw");
    Map<String, Pattern> datatypes =
        Map.of(
            "string", Pattern.compile("(?s).*"),
            "positiveInteger", Pattern.compile("[1-9]\\d*"),
            "nonNegativeInteger", Pattern.compile("\\d+"),
            "dateTime", Pattern.compile("\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d(\\.\\d+)?Z"));
    assertThat(group.path("tables")).hasSize(2);
    for (JsonNode table : group.path("tables")) {
      JsonNode columns = table.path("tableSchema").path("columns");
      Set<List<String>> keys = new HashSet<>();
      try (CSVParser rows =
          CSVParser.parse(
              out.resolve(table.path("url").asText()), StandardCharsets.UTF_8, CSVFormat.RFC4180)) {
        for (CSVRecord row : rows) {
          assertThat(row.size()).isEqualTo(columns.size());
          List<String> key = new ArrayList<>();
          for (int i = 0; i < row.size(); i++) {
            JsonNode column = columns.get(i);
            if (row.getRecordNumber() == 1) {
              assertThat(row.get(i)).isEqualTo(column.path("titles").asText());
            } else {
              assertThat(row.get(i)).matches(datatypes.get(column.path("datatype").asText()));
              for (JsonNode part : table.path("tableSchema").path("primaryKey")) {
                if (part.asText().equals(column.path("name").asText())) {
                  key.add(row.get(i));
                }
              }
            }
          }
          assertThat(key.isEmpty() || keys.add(key)).as(row.toString()).isTrue();
        }
      }
    }
  }

  @Test
  void personsAndFamiliesGoToProgramsThatKeepThem() throws Exception {
    Ran ran = Ran.command("export", archive, "--to", out, "--as-of", "2026-11-25", "--gedcom");
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out()).contains("persons.ged");
    GedcomFile file = GedcomFile.read(Files.readString(out.resolve("persons.ged")));
    assertThat(file.broken()).isEmpty();
    assertThat(file.person("Hannah /Wren/").all("DEAT").get(0).one("DATE"))
        .isEqualTo("14 MAR 1851");
    Ran later = Ran.command("export", archive, "--to", out, "--as-of", "2026-11-25");
    assertThat(later.err()).contains("persons.ged: of an earlier run");
    Ran one =
        Ran.command(
            "export", archive, "--to", out, "--as-of", "2026-11-25", "--gedcom", "--marker", "12");
    assertThat(one.code()).isEqualTo(2);
    assertThat(one.err()).contains("persons of the whole ground");
  }

  @Test
  void aDayThatIsNoneIsToldInPlainWords(@TempDir Path temp) {
    Ran ran = Ran.command("export", temp, "--to", temp, "--as-of", "yesterday");
    assertThat(ran.code()).isEqualTo(2);
    assertThat(ran.err()).contains("'yesterday' isn't a day such as 2026-11-25");
    assertThat(ran.err()).doesNotContain("java.time");
  }

  @Test
  void nothingConfirmedIsNothingToExport() {
    Path empty = folder.resolve("empty");
    init(empty);
    Ran ran = Ran.command("export", empty, "--to", out, "--as-of", "2026-11-25");
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("Nothing is confirmed here");
  }

  @Test
  void theOwnExportBroughtBackUnchangedIsKnown() throws Exception {
    exported();
    Ran ran = Ran.command("import", archive, out.resolve("12-front.xml"), "--reader", "Cora Hale");
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out()).contains("12, front: a reading of this archive, unchanged");
    Ran elsewhere =
        Ran.command(
            "import", archive, out.resolve("12-front.xml"), "--reader", "Cora", "--marker", "40");
    assertThat(elsewhere.out()).contains("marker 40, front: your draft");
  }

  @Test
  void aReadingMadeElsewhereBecomesADraftAndNoFact() throws Exception {
    exported();
    Path other = folder.resolve("other");
    init(other);
    Ran ran = Ran.command("import", other, out.resolve("12-front.xml"), "--reader", "Cora Hale");
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out()).contains("marker 12, front: your draft");
    assertThat(ran.err()).isEmpty();
    assertThat(Ran.command("statements", other).out()).isEmpty();
    assertThat(Ran.command("check", other).code()).isZero();
    assertThat(Ran.command("decisions", other).out()).contains("reading.imported");
  }

  @Test
  void signedItIsWhatAnEarlierWitnessHas() throws Exception {
    exported();
    Path other = folder.resolve("other");
    init(other);
    Ran ran =
        Ran.command(
            "import",
            other,
            out.resolve("12-front.xml"),
            "--reader",
            "Cora Hale",
            "--sign",
            "--marker",
            "40");
    assertThat(ran.code()).as(ran.err()).isZero();
    Ran again =
        Ran.command("export", other, "--to", folder.resolve("again"), "--as-of", "2026-11-25");
    assertThat(again.code()).as(again.err()).isZero();
    assertThat(Files.readString(folder.resolve("again").resolve("40-front.xml")))
        .contains("<name>Cora Hale</name>")
        .contains("subtype=\"earlier\"")
        .contains("read by Ada Penrose, Bert Quillan (12-front.xml, SHA-256 ")
        .contains("HANNAH <expan><abbr>W</abbr><ex>REN</ex></expan>");
    assertThat(Ran.command("statements", other).out()).contains("1851-03-14");
  }

  @Test
  void whatIsntCarriedIsToldAndTheWholeFileKept() throws Exception {
    Path file = folder.resolve("foreign.xml");
    Files.writeString(
        file,
        """
        <TEI xmlns="http://www.tei-c.org/ns/1.0"><teiHeader/><text><body>
        <div type="edition"><ab><lb n="1"/>IN <persName>HANNAH</persName><gap unit="cm"/>
        </ab></div></body></text></TEI>
        """);
    Ran unsigned = Ran.command("import", archive, file, "--reader", ADA);
    assertThat(unsigned.code()).isEqualTo(1);
    assertThat(unsigned.errLines())
        .containsExactly(
            file
                + ": doesn't say which marker of this ground it is of. Give --marker. Nothing is"
                + " taken.");
    Ran nobody = Ran.command("import", archive, file, "--reader", ADA, "--marker", "13", "--sign");
    assertThat(nobody.code()).isEqualTo(1);
    assertThat(nobody.err()).contains("says nowhere who read it");
    Ran other = Ran.command("import", archive, file, "--reader", ADA, "--marker", "14");
    assertThat(other.out()).hasLineCount(1).contains(" notes (--notes shows them)");
    Ran ran = Ran.command("import", archive, file, "--reader", ADA, "--marker", "13", "--notes");
    assertThat(ran.code()).isZero();
    assertThat(ran.errLines())
        .contains(
            file + ", line 2: <persName> isn't carried, its text is",
            file + ", line 2: <gap> needs reason: why no letter is read");
    assertThat(Ran.command("decisions", archive, "--json").out()).contains("<persName>HANNAH");
  }

  @Test
  void oneBadFileStopsNoOther() throws Exception {
    exported();
    Path bad = folder.resolve("bad.xml");
    Files.writeString(bad, "<!DOCTYPE a [<!ENTITY e 'x'>]><a>&e;</a>");
    Path other = folder.resolve("other");
    init(other);
    Ran ran =
        Ran.command(
            "import",
            other,
            bad,
            folder.resolve("none.xml"),
            out.resolve("12-front.xml"),
            "--reader",
            ADA);
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.errLines())
        .containsExactly(
            bad
                + ", line 1: declares or uses a document type or entities; take those out. Nothing"
                + " is taken.",
            folder.resolve("none.xml") + ": there is no such file.");
    assertThat(ran.out()).contains("your draft").contains("1 of 3 files taken.");
  }

  @Test
  void anUnsignedDraftOfOnesOwnIsNotWrittenOver() throws Exception {
    exported();
    Path other = folder.resolve("other");
    init(other);
    Path xml = out.resolve("12-front.xml");
    Ran.command("import", other, xml, "--reader", ADA);
    Files.writeString(xml, Files.readString(xml).replace("MEMORY", "MEMURY"));
    Ran ran = Ran.command("import", other, xml, "--reader", ADA);
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("you have an unsigned draft of marker 12, front");
  }
}
