package rakelight.marker;

import java.util.Comparator;

/**
 * Orders labels as people do: 9 before 10, 12a after 12. Runs of figures compare as numbers,
 * everything else by character; labels that differ in leading zeros alone by their characters, so
 * that the order is total.
 */
public final class NaturalOrder implements Comparator<String> {
  @Override
  public int compare(String a, String b) {
    int i = 0;
    int j = 0;
    while (i < a.length() && j < b.length()) {
      if (isFigure(a.charAt(i)) && isFigure(b.charAt(j))) {
        int endA = endOfFigures(a, i);
        int endB = endOfFigures(b, j);
        int byNumber = compareFigures(a.substring(i, endA), b.substring(j, endB));
        if (byNumber != 0) {
          return byNumber;
        }
        i = endA;
        j = endB;
      } else {
        int byCharacter = Character.compare(a.charAt(i++), b.charAt(j++));
        if (byCharacter != 0) {
          return byCharacter;
        }
      }
    }
    int byRest = Integer.compare(a.length() - i, b.length() - j);
    return byRest != 0 ? byRest : a.compareTo(b);
  }

  private static int compareFigures(String a, String b) {
    String x = a.replaceFirst("^0+(?=.)", "");
    String y = b.replaceFirst("^0+(?=.)", "");
    return x.length() == y.length() ? x.compareTo(y) : Integer.compare(x.length(), y.length());
  }

  private static int endOfFigures(String text, int from) {
    int end = from;
    while (end < text.length() && isFigure(text.charAt(end))) {
      end++;
    }
    return end;
  }

  private static boolean isFigure(char c) {
    return c >= '0' && c <= '9';
  }
}
