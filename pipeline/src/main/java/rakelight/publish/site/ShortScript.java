package rakelight.publish.site;

import java.util.Set;

/**
 * A script without what only its readers need: comments, indents, blank lines, spaces beside signs.
 * Lines stay as they are, and so do names, texts and patterns. Of scripts with values within texts
 * in backquotes it knows nothing.
 */
public final class ShortScript {
  private static final String BEFORE_PATTERN = "(,=:[!&|?{};>\n";
  private static final Set<Character> QUOTES = Set.of('"', '\'', '`');

  private final String script;
  private final StringBuilder out = new StringBuilder();
  private int at;

  private ShortScript(String script) {
    this.script = script;
  }

  /** The same script, shorter. */
  public static String of(String script) {
    return new ShortScript(script).shortened();
  }

  private String shortened() {
    while (at < script.length()) {
      char sign = script.charAt(at);
      if (QUOTES.contains(sign)) {
        copyTo(sign);
      } else if (script.startsWith("/*", at)) {
        at = script.indexOf("*/", at) + 2;
      } else if (script.startsWith("//", at)) {
        at = script.indexOf('\n', at);
      } else if (sign == '/' && BEFORE_PATTERN.indexOf(last()) >= 0) {
        copyTo('/');
      } else if (Character.isWhitespace(sign)) {
        space();
      } else {
        out.append(sign);
        at++;
      }
    }
    return out.toString();
  }

  /** A text or a pattern, to the sign that ends it; a pattern's sign may stand in brackets. */
  private void copyTo(char end) {
    boolean among = false;
    do {
      among = end == '/' && (among ? script.charAt(at) != ']' : script.charAt(at) == '[');
      int step = script.charAt(at) == '\\' ? 2 : 1;
      out.append(script, at, at + step);
      at += step;
    } while (among || script.charAt(at) != end);
    out.append(end);
    at++;
  }

  private void space() {
    int from = at;
    while (at < script.length() && Character.isWhitespace(script.charAt(at))) {
      at++;
    }
    if (script.substring(from, at).indexOf('\n') >= 0) {
      out.append(last() == '\n' ? "" : "\n");
    } else if (at < script.length() && needed(last(), script.charAt(at))) {
      out.append(' ');
    }
  }

  private static boolean needed(char before, char behind) {
    return isOfWord(before) && isOfWord(behind)
        || before == behind && (before == '+' || before == '-')
        || behind == '/' && before == '/';
  }

  private static boolean isOfWord(char sign) {
    return Character.isLetterOrDigit(sign) || sign == '_' || sign == '$';
  }

  private char last() {
    return out.isEmpty() ? '\n' : out.charAt(out.length() - 1);
  }
}
