package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.person.Statement.Kind;

/** Common practice, no source: an emblem may mean many things and asserts nothing. */
class EmblemsTest {

  /** M10 and M21 bear anchors, M19 a lamb, M47 a star; none of their words say what those may. */
  @Test
  void anAnchorALambAndAStarMakeNoServiceNoAgeAndNoAward() throws Exception {
    assertThat(values("M10", Kind.SERVICE)).isEmpty();
    assertThat(values("M10", Kind.OCCUPATION)).isEmpty();
    assertThat(values("M21", Kind.SERVICE)).isEmpty();
    assertThat(values("M19", Kind.AGE)).containsExactly("P2Y4M");
    assertThat(values("M47", Kind.SERVICE)).containsExactly("SERGT.", "5 SKER. RIFLES");
  }

  @Test
  void everyStatementRestsOnLettersOfItsFace() throws Exception {
    for (Evidence.FaceStatements face : SamplePeople.of(0, 1).faces()) {
      for (Statement statement : face.statements()) {
        assertThat(statement.signs())
            .isNotEmpty()
            .allSatisfy(sign -> assertThat(face.inscription().position(sign)).isNotNegative());
      }
    }
  }

  private static List<String> values(String marker, Kind kind) throws Exception {
    return SamplePeople.of(0, 1).faces().stream()
        .filter(face -> face.marker().number().equals(marker))
        .flatMap(face -> face.statements().stream())
        .filter(s -> s.kind() == kind)
        .map(Statement::value)
        .toList();
  }
}
