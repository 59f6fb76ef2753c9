package rakelight.desk;

import java.util.List;

/**
 * A marker's lines in two seasons.
 *
 * @param faces those photographed in two years or more
 */
public record SeasonsPage(FamilyPage.To marker, List<Face> faces) {
  /**
   * A face.
   *
   * @param years in words
   * @param told what couldn't be compared; may be empty
   */
  public record Face(
      String name, String years, String first, String last, List<Line> lines, String told) {}

  /**
   * A line, as both seasons show it.
   *
   * @param text as a machine reads it
   * @param before its strip in the first season, as a data address
   * @param after in the last
   * @param change in words, with how far off it may be
   * @param letters how many letters could be told in each, in words
   * @param worn whether it is less legible than another light alone could make it
   */
  public record Line(
      int number,
      String text,
      String before,
      String after,
      String change,
      String letters,
      boolean worn) {}
}
