package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Ground;
import rakelight.archive.Sha256;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.calendar.CalendarChange;

class KeptStatementsTest {
  /** One of each turn that the grammar knows; nobody of them ever lived. */
  private static final List<String> TURNS =
      List.of(
          "In memory of\\nMr. JOHN WREN Esq\\nmariner\\nwho was lost at sea\\n3 Feb 1731/2\\nin the"
              + " 41st year of his age",
          "Also MARY his wife\\nborn 4 March 1790\\ndied May 9th 1[8][[5]]1\\naged 61 years 2 months\\n&"
              + " 5 days",
          "GARSIDE\\nROBERT\\n1949 – 2011\\nALICE HIS WIFE\\n1953 – (vac.)",
          "Here lies the body of\\nANNE PENROSE née LIDGATE\\nrelict of Josiah Penrose\\n[- -"
              + " -]\\ndied MDCCLXI aet. 70",
          "SERGT AMOS LIDGATE\\nCO. B 5TH MASS. INF.\\nREMOVED FROM THE OLD GROUND\\n1888",
          "HANNAH\\ndaughter of Abel & Ruth Wren\\nof Thornbeck\\ndied 6th mo. 12th 1743\\nJohn xiv."
              + " 2\\nAnd there shall be no night",
          "H. Q.\\n18[.]1");

  @TempDir Path folder;

  private static List<List<Statement>> turns() throws Exception {
    List<List<Statement>> all = new ArrayList<>();
    for (String turn : TURNS) {
      all.add(Statements.of(Leiden.parse(turn.replace("\\n", "\n")), CalendarChange.BRITISH));
    }
    return all;
  }

  @Test
  void statementsAreReadBackAsTheyWereWritten() throws Exception {
    List<List<Statement>> all = new ArrayList<>(turns());
    SamplePeople.of(0, 1).faces().forEach(face -> all.add(face.statements()));
    for (List<Statement> statements : all) {
      assertThat(KeptStatements.read(KeptStatements.write(statements))).isEqualTo(statements);
    }
  }

  /**
   * What is kept of one grammar must not be taken for what another one says. If this fails, the
   * grammar or the form of its statements has changed: count {@link Statements#GRAMMAR} up and put
   * the new digest here.
   */
  @Test
  void aChangeOfTheGrammarHasANewVersion() throws Exception {
    StringBuilder written = new StringBuilder();
    turns().forEach(statements -> written.append(KeptStatements.write(statements)).append('\n'));
    assertThat(Statements.GRAMMAR + " " + Sha256.of(written.toString()))
        .isEqualTo("7 1971890a306dedae8bdfa4d95b6205afd3d895e97049cbcf318ae2972a8d0982");
  }

  @Test
  void aReadingIsParsedOnceAndAnOlderOneIsFoundAgainAfterAnUndo() throws Exception {
    try (ReadGround ground = new ReadGround(folder.resolve("archive"))) {
      ground.sign("1", "front", "JOHN WREN\ndied 1840", "Ada Penrose");
      Evidence evidence = new Evidence(ground.archive());
      List<FaceStatements> first = evidence.confirmed(ground.marker("1"));
      assertThat(ground.keptStatements()).hasSize(1);
      Reading second = ground.sign("1", "front", "JOHN WREN\ndied 1849", "Ada Penrose");
      assertThat(evidence.confirmed(ground.marker("1")).get(0).statements().get(1).value())
          .isEqualTo("1849");
      assertThat(ground.keptStatements()).hasSize(2);
      ground.archive().journal().undo(second.decision(), "Ada Penrose");
      assertThat(evidence.confirmed(ground.marker("1"))).isEqualTo(first);
      assertThat(evidence.confirmed()).isEqualTo(first);
      assertThat(ground.keptStatements()).hasSize(2);
    }
  }

  @Test
  void aGroundWhoseCalendarIsStatedHasOtherStatements() throws Exception {
    try (ReadGround ground = new ReadGround(folder.resolve("archive"))) {
      ground.sign("1", "front", "JOHN WREN\ndied 3 Feb 1740", "Ada Penrose");
      String british = death(ground);
      Ground before = ground.archive().ground();
      ground
          .archive()
          .describe(before.with(new Ground.Calendar(LocalDate.of(1582, 10, 15), 1500)), "Ada");
      assertThat(death(ground)).isEqualTo("1740-02-03").isNotEqualTo(british);
      ground.archive().describe(before, "Ada");
      assertThat(death(ground)).isEqualTo(british);
    }
  }

  private static String death(ReadGround ground) {
    return new Evidence(ground.archive())
        .confirmed(ground.marker("1"))
        .get(0)
        .statements()
        .get(1)
        .value();
  }
}
