package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What people say of how words are to be taken, and every door it comes out by. */
class CorrectCommandTest {
  private static final String ADA = "Ada Penrose";
  private static final Pattern ID = Pattern.compile("\\(([0-9a-f-]{36})\\)");

  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void anArchive() throws Exception {
    archive = folder.resolve("archive");
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
  }

  private void sign(String text) throws Exception {
    Path file = folder.resolve("readings.tsv");
    Files.writeString(
        file, "marker\tface\tline\ttext\n12\tfront\t1\t" + text + "\n", StandardCharsets.UTF_8);
    Ran ran = Ran.command("confirm", archive, "--new-markers", "--from", file, "--reader", ADA);
    assertThat(ran.code()).as(ran.err()).isZero();
  }

  private String correct(String what, String words, String... more) {
    Object[] all = new Object[7 + more.length];
    Object[] first = {"correct", archive, what, "12", "front", words, "--reader=" + ADA};
    System.arraycopy(first, 0, all, 0, first.length);
    System.arraycopy(more, 0, all, first.length, more.length);
    Ran ran = Ran.command(all);
    assertThat(ran.code()).as(ran.err()).isZero();
    Matcher id = ID.matcher(ran.out());
    assertThat(id.find()).as(ran.out()).isTrue();
    return id.group(1);
  }

  private String refused(String what, String words, String... more) {
    Object[] all = new Object[7 + more.length];
    Object[] first = {"correct", archive, what, "12", "front", words, "--reader=" + ADA};
    System.arraycopy(first, 0, all, 0, first.length);
    System.arraycopy(more, 0, all, first.length, more.length);
    Ran ran = Ran.command(all);
    assertThat(ran.code()).isEqualTo(1);
    return ran.err();
  }

  private String told() {
    return Ran.command("statements", archive).out();
  }

  @Test
  void wordsSaidToBeANameAreOneEverywhereUntilThatIsTakenBack() throws Exception {
    sign("IN MEMORY OF | JOHN WREN | died 3 May 1851 | zebra quorn | died 4 June 1860");
    String before = told();
    assertThat(before).doesNotContain("name  Zebra Quorn");

    String id = correct("name", "zebra quorn");

    assertThat(told()).contains("name  Zebra Quorn");
    assertThat(Ran.command("persons", archive).out()).contains("Zebra Quorn  died 1860-06-04");
    Ran search = Ran.command("search", archive, "name:quorn");
    assertThat(search.out()).as(search.err()).contains("12");
    assertThat(Ran.command("correct", archive).out())
        .contains("12 front  “zebra quorn” is the name Zebra Quorn  Ada Penrose");
    assertThat(Ran.command("undo", archive, id, "--reader", ADA).code()).isZero();
    assertThat(told()).isEqualTo(before);
    assertThat(Ran.command("correct", archive).out()).isEmpty();
    assertThat(Ran.command("check", archive).code()).isZero();
    assertThat(Ran.command("check", archive, "--rebuild").code()).isZero();
  }

  @Test
  void whatIsntSoIsToldNowhereAndWhatIsOfAnotherIsHis() throws Exception {
    sign("JOHN WREN | and ANN WREN | died 3 May 1851 | aged 60 years");
    assertThat(Ran.command("persons", archive).out()).contains("Ann Wren");
    correct("belongs", "died 3 May 1851", "--to=1");
    correct("belongs", "aged 60 years", "--to=1");
    assertThat(Ran.command("persons", archive).out())
        .contains(
            "John Wren  born between 1790-05-04 and 1791-05-03 (worked out, not carved)  died 1851-05-03")
        .doesNotContain("Ann Wren  born")
        .doesNotContain("Ann Wren  died");
    assertThat(refused("not-so", "aged 60 years"))
        .contains("“aged 60 years” is the age of somebody else. Take that back first");
    assertThat(refused("belongs", "died 3 May 1851", "--to=2")).contains("Take that back first");
    assertThat(refused("belongs", "died 3 May 1851", "--to=7")).contains("number 7");
  }

  @Test
  void verseMakesNobodyAndWhatIsNoVerseIsReadAsOtherWordsAre() throws Exception {
    sign("JOHN WREN | died 3 May 1851 | Farewell Parker Lightfoot | died 4 May 1852");
    String id = correct("verse", "Farewell Parker Lightfoot");
    assertThat(told()).contains("verse").doesNotContain("Parker|").doesNotContain("name  Farewell");
    assertThat(refused("name", "Parker Lightfoot")).contains("Take that back first");
    Ran.command("undo", archive, id, "--reader", ADA);
    correct("name", "Parker Lightfoot");
    assertThat(told()).contains("name  Parker Lightfoot");
  }

  @Test
  void whatIsReckonedFromSomethingThatIsntSoGoesWithIt() throws Exception {
    sign("JOHN WREN | died 3 May 1851 | aged 60 years");
    assertThat(told()).contains("birth");
    correct("not-so", "aged 60 years");
    assertThat(told()).contains("death").doesNotContain("age  ").doesNotContain("birth");
  }

  @Test
  void aNameThatIsNoneNamesNobody() throws Exception {
    sign("JOHN WREN | died 3 May 1851 | GEORGE INN");
    assertThat(told()).contains("name  George Inn");
    correct("not-so", "GEORGE INN");
    assertThat(told()).doesNotContain("name  George Inn").contains("name  John Wren");
  }

  @Test
  void aLaterReadingWithOtherLettersThereLeavesTheCorrectionUnused() throws Exception {
    sign("JOHN WREN | died 3 May 1851 | zebra quorn");
    correct("name", "zebra quorn");
    sign("JOHN WREN | died 3 May 1857 | zebra quorn");
    assertThat(told()).contains("name  Zebra Quorn");
    sign("JOHN WREN | died 3 May 1857 | zebra quern");
    assertThat(told()).doesNotContain("name  Zebra");
    assertThat(Ran.command("correct", archive).out()).contains("NO LONGER FITS, not used");
  }

  @Test
  void whoeverIsSaidToBeNamedAndMayBeLivingIsWithheld() throws Exception {
    sign("JOHN WREN | born 1801 died 3 May 1851 | zebra quorn");
    Path out = folder.resolve("out");
    Ran.command("export", archive, "--to", out, "--as-of", "2026-11-30", "--tables");
    assertThat(Files.readString(out.resolve("12-front.xml"))).contains("quorn");
    correct("name", "zebra quorn");
    Ran.command("export", archive, "--to", out, "--as-of", "2026-11-30", "--tables");
    assertThat(Files.readString(out.resolve("12-front.xml"))).doesNotContainIgnoringCase("quorn");
    assertThat(Files.readString(out.resolve("statements.csv"))).doesNotContainIgnoringCase("quorn");
    assertThat(Ran.command("persons", archive, "--public", "--as-of", "2026-11-30").out())
        .contains("John Wren")
        .doesNotContainIgnoringCase("quorn");
  }

  @Test
  void whatCantBeMeantIsRefusedInPlainWords() throws Exception {
    sign("JOHN WREN | died 3 May 1851 | died 3 May 1851");
    assertThat(refused("name", "Nobody Here")).contains("stands nowhere on this face");
    assertThat(refused("verse", "died 3 May 1851")).contains("more than once");
    assertThat(refused("not-so", "Nobody")).contains("nothing is told of these words");
    assertThat(Ran.command("correct", archive, "name", "12", "front", "JOHN WREN").code())
        .isEqualTo(2);
  }
}
