package rakelight.names;

import java.text.Normalizer;
import java.util.Locale;

/**
 * One way of writing for comparing: what print, cutter and keyboard do differently is made even.
 */
public final class NameForms {
  private NameForms() {}

  /**
   * Lower case, without accents, points, apostrophes and other signs; long s, thorn, ash and
   * ligatures written out. Figures stay. May be empty.
   */
  public static String fold(String text) {
    return isAscii(text) ? foldAscii(text) : foldAny(text);
  }

  private static boolean isAscii(String text) {
    for (int i = 0; i < text.length(); i++) {
      if (text.charAt(i) >= 128) {
        return false;
      }
    }
    return true;
  }

  /** The same, quicker. */
  private static String foldAscii(String text) {
    StringBuilder folded = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); i++) {
      char sign = text.charAt(i);
      if (Character.isLetterOrDigit(sign) || sign == '&') {
        folded.append(Character.toLowerCase(sign));
      }
    }
    return folded.toString();
  }

  private static String foldAny(String text) {
    String decomposed = Normalizer.normalize(text.toLowerCase(Locale.ROOT), Normalizer.Form.NFKD);
    StringBuilder folded = new StringBuilder(decomposed.length());
    decomposed
        .codePoints()
        .forEach(
            sign -> {
              switch (sign) {
                case 'þ', 'ð' -> folded.append("th");
                case 'æ' -> folded.append("ae");
                case 'œ' -> folded.append("oe");
                case 'ø' -> folded.append('o');
                case 'ß' -> folded.append("ss");
                case 'ł' -> folded.append('l');
                case '&' -> folded.append('&');
                default -> {
                  if (Character.isLetterOrDigit(sign)) {
                    folded.appendCodePoint(sign);
                  }
                }
              }
            });
    return folded.toString();
  }
}
