package rakelight.ground.witness;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;

/** Letters of stone and list, one above the other. */
class SideBySideTest {
  @Test
  void anotherFigureIsMarkedUnderneath() {
    SideBySide both = SideBySide.of("Job Thorne died 1848", "JOB THORN died 1843");

    assertThat(both.stone()).isEqualTo("Job Thorne died 1848");
    assertThat(both.list()).isEqualTo("JOB THORN· died 1843");
    assertThat(both.marks()).isEqualTo("         ^         ^");
    assertThat(both.sort()).isEqualTo(SideBySide.Sort.DIFFERS);
  }

  @Test
  void whatTheListHasUnderAGapIsWhatOnlyTheListHas() {
    SideBySide both = SideBySide.of("HANNAH W… died 1848", "Hannah Wren, died 1848.");

    assertThat(both.sort()).isEqualTo(SideBySide.Sort.LIST_HAS_MORE);
    assertThat(both.marks()).contains("+++").doesNotContain("^");
  }

  @Test
  void pointsAndCaseAreNoDifference() {
    assertThat(SideBySide.of("JOB THORNE. DIED 1848", "Job Thorne, died 1848").sort())
        .isEqualTo(SideBySide.Sort.SAME);
  }

  @Property(tries = 200)
  void bothTextsCanBeReadOffAgain(
      @ForAll @CharRange(from = 'A', to = 'E') @StringLength(max = 12) String stone,
      @ForAll @CharRange(from = 'A', to = 'E') @StringLength(max = 12) String list) {
    SideBySide both = SideBySide.of(stone, list);

    assertThat(both.stone().replace("·", "")).isEqualTo(stone);
    assertThat(both.list().replace("·", "")).isEqualTo(list);
    assertThat(both.marks()).hasSameSizeAs(both.stone()).hasSameSizeAs(both.list());
    assertThat(both.sort() == SideBySide.Sort.SAME).isEqualTo(stone.equals(list));
  }
}
