package rakelight.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MainTest {
  @TempDir Path folder;

  private String out() {
    return folder.resolve("set").toString();
  }

  @Test
  void oneStoneInThreeLightsIsThreePhotographsWithTheirTables() throws Exception {
    Main.run(
        new String[] {
          "render", out(), "--count", "1", "--width", "300", "--wear", "light", "--lights", "3"
        });

    try (var files = Files.list(folder.resolve("set"))) {
      assertThat(files.map(file -> file.getFileName().toString()))
          .containsExactlyInAnyOrder(
              "R000001-1.jpg",
              "R000001-2.jpg",
              "R000001-3.jpg",
              "manifest.csv",
              "truth.tsv",
              "boxes.tsv");
    }
  }

  @Test
  void aMistypedOptionIsNotPassedOverAndNothingIsMade() {
    assertRefused("there is no option --lihgts", "render", out(), "--lihgts", "4");
    assertRefused("--count needs a value", "render", out(), "--count");
    assertRefused("--count takes a whole number, not many", "render", out(), "--count", "many");
    assertRefused("no wear is called soft", "render", out(), "--wear", "light,soft");
    assertRefused("there is no option --seed", "ground", out(), "--seed", "3");
    assertRefused(
        "say ground, render, seasons, season, carvings, lettering, worn or inscriptions",
        "draw",
        out());
    assertThat(folder).isEmptyDirectory();
  }

  private static void assertRefused(String why, String... args) {
    assertThatThrownBy(() -> Main.run(args))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(why);
  }
}
