package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.marker.Condition;
import rakelight.marker.Term;
import rakelight.marker.Term.Quality;
import rakelight.marker.Terms;

class TermDrawingTest {
  @Test
  void everyKindFormStateAndConditionHasADrawingOfItsOwn() {
    for (Quality list : List.of(Quality.KIND, Quality.FORM, Quality.STATE)) {
      List<TermDrawing> drawings = new ArrayList<>();
      for (Term term : Terms.carried().of(list)) {
        assertThat(TermDrawing.of(list, term.name())).as(term.name()).isPresent();
        drawings.add(TermDrawing.of(list, term.name()).orElseThrow());
      }
      assertThat(drawings).doesNotHaveDuplicates();
    }
    List<TermDrawing> conditions = new ArrayList<>();
    for (Condition word : Condition.values()) {
      conditions.add(TermDrawing.of(word));
    }
    assertThat(conditions).doesNotHaveDuplicates();
    assertThat(TermDrawing.of(Quality.FORM, "a ground's own")).isEmpty();
  }
}
