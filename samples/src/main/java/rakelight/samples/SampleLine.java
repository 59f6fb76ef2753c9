package rakelight.samples;

import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One line of an inscription as it was cut.
 *
 * @param number from 1, in the order in which the face is read
 * @param size height of capitals relative to the other lines of the face
 * @param style words that change the setting: a typeface's name in lower case, {@code arch}, {@code
 *     ring} (round a disc, clockwise, its middle on top), {@code left}, {@code right}, {@code
 *     wide}, {@code smallcaps}, {@code gap} (extra space above), {@code old} (figures that hang and
 *     rise), {@code foot} (small at the foot, as a maker signs), {@code beside} (on the baseline of
 *     the line before), {@code cell2of3} (in the second of three equal parts of the face's width),
 *     {@code ruled}, {@code dotted}, {@code flowered} (with a rule, dots or an ornament between it
 *     and the cell to its left)
 * @param marked the text with marks, see {@link MarkedText}
 */
public record SampleLine(int number, double size, Set<String> style, String marked) {
  private static final Pattern CELL = Pattern.compile("cell([1-9])of([1-9])");

  public SampleLine {
    style = Set.copyOf(style);
    if (number < 1 || size <= 0) {
      throw new IllegalArgumentException("Line " + number + ": number and size must be positive");
    }
  }

  /** The letters as they were cut, none lost. */
  public String asCut() {
    return parsed().asCut();
  }

  MarkedText parsed() {
    return MarkedText.parse(marked);
  }

  boolean has(String word) {
    return style.contains(word);
  }

  /** Into how many parts the row of this line is parted; 1 if it has the row for itself. */
  int cells() {
    return cellWord()[1];
  }

  /** In which of them it stands, from 1. */
  int cell() {
    return cellWord()[0];
  }

  private int[] cellWord() {
    for (String word : style) {
      Matcher cell = CELL.matcher(word);
      if (cell.matches()) {
        return new int[] {Integer.parseInt(cell.group(1)), Integer.parseInt(cell.group(2))};
      }
    }
    return new int[] {1, 1};
  }

  /** The design this line is set in, or the stone's own. */
  Typeface typeface(Typeface own) {
    for (String word : style) {
      for (Typeface t : Typeface.values()) {
        if (t.name().equals(word.toUpperCase(Locale.ROOT))) {
          return t;
        }
      }
    }
    return own;
  }
}
