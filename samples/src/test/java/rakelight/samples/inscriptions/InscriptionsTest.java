package rakelight.samples.inscriptions;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class InscriptionsTest {
  @TempDir Path folder;

  @Test
  void aSeedGivesTheSameStonesAndAnotherSeedOthers() throws Exception {
    Inscriptions.write(folder.resolve("a"), 30, 5, List.of(10));
    Inscriptions.write(folder.resolve("b"), 30, 5, List.of(10));
    Inscriptions.write(folder.resolve("c"), 30, 6, List.of(10));
    String file = "inscriptions-10.txt";
    assertThat(folder.resolve("a").resolve(file))
        .hasSameTextualContentAs(folder.resolve("b").resolve(file));
    assertThat(Files.readString(folder.resolve("a").resolve(file)))
        .isNotEqualTo(Files.readString(folder.resolve("c").resolve(file)));
  }

  @Test
  void withNothingLostNoLetterIsInDoubtAndNoFactWorn() {
    for (int i = 0; i < 300; i++) {
      List<String> stone = Inscriptions.stone(i, 9, 0);
      String carved = String.join("\n", stone.subList(1, stone.indexOf("--")));
      assertThat(carved).doesNotContainPattern("[\\[\\]+(%]");
      assertThat(String.join("\n", stone)).doesNotContain("worn").doesNotContain("?ell");
    }
  }

  @Test
  void asManyLettersAreTouchedAsWasAskedFor() {
    for (int loss : List.of(10, 20)) {
      int letters = 0;
      double touched = 0;
      for (int i = 0; i < 600; i++) {
        List<String> worn = Inscriptions.stone(i, 9, loss);
        List<String> whole = Inscriptions.stone(i, 9, 0);
        letters += letters(String.join("", whole.subList(1, whole.indexOf("--"))));
        String lines = String.join("\n", worn.subList(1, worn.indexOf("--")));
        touched += count(lines, "\\.(?=[.\\]])|\\+|60%");
      }
      // 13 in a hundred of those touched are misread and leave no mark.
      assertThat(touched / 0.87 / letters).isCloseTo(loss / 100.0, within(0.015));
    }
  }

  @Test
  void stonesDifferInFormAndNotOnlyInNames() {
    Set<String> forms = new HashSet<>();
    for (int i = 0; i < 400; i++) {
      List<String> stone = Inscriptions.stone(i, 9, 0);
      forms.add(
          String.join("\n", stone.subList(1, stone.indexOf("--")))
              .replaceAll("[A-Z][\\p{L}'-]+", "A")
              .replaceAll("\\d+", "9"));
    }
    assertThat(forms).hasSizeGreaterThan(330);
  }

  @Test
  void daysBeforeSeptember1752AreCutByTheJulianCalendarAndTheYearFromLadyDay() {
    // E. G. Richards, Mapping Time (1998): 11 days apart from 1700 on, 10 before.
    assertThat(cut(LocalDate.of(1721, 11, 14), Style.EARLY)).isEqualTo("death 1721-11-14; 3 1721");
    assertThat(cut(LocalDate.of(1689, 1, 3), Style.SCOTTISH))
        .isEqualTo("death 1689-01-03; 24 1688");
    assertThat(cut(LocalDate.of(1752, 9, 13), Style.EARLY)).isEqualTo("death 1752-09-13; 2 1752");
    assertThat(cut(LocalDate.of(1752, 9, 14), Style.EARLY)).isEqualTo("death 1752-09-14; 14 1752");
    assertThat(cut(LocalDate.of(1731, 2, 22), Style.SCOTTISH))
        .isEqualTo("death 1731-02-22; 11 1731");
  }

  @Test
  void theYearOfADayBeforeLadyDayIsOneOfTwoUnlessBothAreCut() {
    Set<String> seen = new HashSet<>();
    for (int i = 0; i < 40; i++) {
      InventedStone stone = new InventedStone();
      Function<Wear, String> value =
          new CarvedDay(LocalDate.of(1731, 2, 22), Style.EARLY, new Random(i)).put(stone, "death");
      Wear none = new Wear(stone, 0, new Random(1));
      boolean both = none.lines().get(0).contains("1730/1");
      seen.add(both + " " + value.apply(none));
    }
    assertThat(seen)
        .containsExactlyInAnyOrder("true death 1731-02-22", "false death [1730-02-22,1731-02-22]");
  }

  @Test
  void aLossIsAPerCentAndAFileHasAStone() {
    assertThatThrownBy(() -> Inscriptions.write(folder, 0, 1, List.of(0)))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Inscriptions.write(folder, 1, 1, List.of(101)))
        .isInstanceOf(IllegalArgumentException.class);
  }

  private static String cut(LocalDate day, Style style) {
    InventedStone stone = new InventedStone();
    Function<Wear, String> value = new CarvedDay(day, style, new Random(4)).put(stone, "death");
    Wear none = new Wear(stone, 0, new Random(1));
    Matcher figures = Pattern.compile("\\d[\\d/]*").matcher(none.lines().get(0).replace("^", ""));
    StringBuilder found = new StringBuilder();
    while (figures.find()) {
      found.append(' ').append(figures.group());
    }
    return value.apply(none) + ";" + found;
  }

  private static int letters(String text) {
    return (int) text.chars().filter(Character::isLetterOrDigit).count();
  }

  private static int count(String text, String pattern) {
    Matcher matcher = Pattern.compile(pattern).matcher(text);
    int count = 0;
    while (matcher.find()) {
      count++;
    }
    return count;
  }
}
