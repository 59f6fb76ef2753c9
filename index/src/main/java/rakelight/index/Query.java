package rakelight.index;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.names.NameForms;

/**
 * What is searched for.
 *
 * <pre>
 * hannah wren             words: names first, then anything on the stone
 * "in memory of"          words one after the other, as written
 * name:wren               within a person's name
 * name:"hannah wren"      within one person's name
 * w?en                    any letter in its place
 * 1863  18?3              a year
 * year:1850..1870  died:1863  born:..1800  aged:60..65
 * died within 5 years of 1850, about 1850
 * wife of john wren       kin, and the name
 * made:1830..1850         when the marker was made, as it is reckoned
 * near:12  marker:12  plot:B  row:3  initials:HW  link:footstone
 * near the harrow monument, footstone W.H.
 * unsafe:any  emblem:any  that anything is known of it
 * trade:blacksmith        and what else is known of a marker
 * </pre>
 */
record Query(List<Part> parts) {

  sealed interface Part {}

  /**
   * A word.
   *
   * @param inName whether only names count
   */
  record Term(String shown, String folded, boolean inName) implements Part {}

  record Phrase(String shown, List<String> folded) implements Part {}

  /**
   * Years.
   *
   * @param event what happened in them; empty for anything
   * @param among the years asked for; none other counts
   */
  record Years(String shown, String event, Set<Integer> among) implements Part {
    Years {
      among = Set.copyOf(among);
    }
  }

  record Ages(String shown, int from, int to) implements Part {}

  record Initials(String shown, String folded) implements Part {}

  record Marker(String number) implements Part {}

  record Near(String number) implements Part {}

  /** A word that what is known of the marker must hold. */
  record Fact(String field, String shown, List<String> folded) implements Part {}

  /** What may be known of a marker besides its words; each is a field that can be asked for. */
  static final List<String> FACTS =
      List.of(
          "link",
          "kin",
          "trade",
          "unit",
          "rank",
          "place",
          "cause",
          "plot",
          "row",
          "condition",
          "unsafe",
          "form",
          "material",
          "maker",
          "emblem",
          "question");

  /** Of years: in which a marker was made, not what it tells of. */
  static final String MADE = "made";

  /** Asks for whatever is known in a field. */
  static final String ANY = "any";

  private static final List<String> YEARS =
      List.of("year", "died", "born", "married", "buried", MADE);
  private static final int LONGEST_CHARS = 500;
  private static final int FIRST_YEAR = 1000;
  private static final int LAST_YEAR = 2199;
  private static final int ABOUT = 5;
  private static final Pattern WITHIN =
      Pattern.compile(
          "(?iU)\\b(died|born|married|buried|made)?\\s*within\\s+([0-9]{1,3})\\s+years?\\s+of\\s+([0-9]{4})\\b");
  private static final Pattern ABOUT_YEAR =
      Pattern.compile(
          "(?iU)\\b(died|born|married|buried|made)?\\s*(?:about|circa|c\\.)\\s*([0-9]{4})\\b");
  private static final Pattern EVENT_YEAR =
      Pattern.compile("(?iU)\\b(died|born|married|buried|made)(?:\\s+in)?\\s+([0-9]{4})\\b");
  private static final Pattern KIN =
      Pattern.compile(
          "(?iU)\\b(wife|husband|widow|relict|son|daughter|child|father|mother|brother|sister)\\s+of\\b");

  private static final Pattern ROW = Pattern.compile("(?iU),?\\s*\\brow\\s+([\\p{L}0-9]+)\\b");
  private static final Pattern NEAR_NAMED =
      Pattern.compile(
          "(?iU)\\bnear\\s+(?:the\\s+)?(?:(?:monument|stone|grave|marker)\\s+(?:of\\s+)?)?"
              + "([\\p{L}0-9][\\p{L}0-9 .'’\\-]*?)\\s*(?:monument|stone|grave|marker)?\\s*$");
  private static final Pattern FOOTSTONE =
      Pattern.compile("(?U)\\b[Ff]ootstone\\s+((?:\\p{Lu}\\.\\s?){2,5}|\\p{Lu}{2,5}\\b)");

  Query {
    parts = List.copyOf(parts);
  }

  static Query parse(String text) throws QueryException {
    if (text.length() > LONGEST_CHARS) {
      throw new QueryException("the query is longer than " + LONGEST_CHARS + " signs");
    }
    List<Part> parts = new ArrayList<>();
    parse(plainWords(text), parts);
    if (parts.isEmpty()) {
      throw new QueryException(
          "nothing to search for; give a word, \"words in a row\" or year:1863");
    }
    return new Query(parts);
  }

  /** What is said in plain words, in fields. */
  private static String plainWords(String text) {
    if (text.chars().anyMatch(sign -> isQuote((char) sign))) {
      return text;
    }
    String said =
        WITHIN
            .matcher(text)
            .replaceAll(
                found ->
                    event(found.group(1))
                        + around(
                            Integer.parseInt(found.group(3)), Integer.parseInt(found.group(2))));
    said =
        ABOUT_YEAR
            .matcher(said)
            .replaceAll(
                found -> event(found.group(1)) + around(Integer.parseInt(found.group(2)), ABOUT));
    said = EVENT_YEAR.matcher(said).replaceAll(found -> event(found.group(1)) + found.group(2));
    said = ROW.matcher(said).replaceAll(" row:$1");
    said =
        FOOTSTONE
            .matcher(said)
            .replaceAll(found -> "initials:" + found.group(1).replaceAll("[. ]", "") + " ");
    said = NEAR_NAMED.matcher(said).replaceAll("near:\"$1\"");
    return KIN.matcher(said).replaceAll(found -> "kin:" + found.group(1).toLowerCase(Locale.ROOT));
  }

  private static String event(String word) {
    return word == null ? "year:" : word.toLowerCase(Locale.ROOT) + ":";
  }

  private static String around(int year, int within) {
    return Math.max(FIRST_YEAR, year - within) + ".." + Math.min(LAST_YEAR, year + within);
  }

  private static void parse(String text, List<Part> parts) throws QueryException {
    int at = 0;
    while (at < text.length()) {
      if (Character.isWhitespace(text.charAt(at))) {
        at++;
        continue;
      }
      int fieldEnd = at;
      while (fieldEnd < text.length() && Character.isLetter(text.charAt(fieldEnd))) {
        fieldEnd++;
      }
      String field = "";
      if (fieldEnd > at && fieldEnd < text.length() && text.charAt(fieldEnd) == ':') {
        field = text.substring(at, fieldEnd).toLowerCase(Locale.ROOT);
        if (!fields().contains(field)) {
          throw new QueryException(
              "no such part as " + field + ": — there are " + String.join(": ", fields()) + ":");
        }
        at = fieldEnd + 1;
      }
      boolean quoted = at < text.length() && isQuote(text.charAt(at));
      String value;
      if (quoted) {
        int close = at + 1;
        while (close < text.length() && !isQuote(text.charAt(close))) {
          close++;
        }
        if (close == text.length()) {
          throw new QueryException("a quotation mark that nothing closes: " + text.substring(at));
        }
        value = text.substring(at + 1, close).strip();
        at = close + 1;
      } else {
        int end = at;
        while (end < text.length()
            && !Character.isWhitespace(text.charAt(end))
            && !isQuote(text.charAt(end))) {
          end++;
        }
        value = text.substring(at, end);
        at = end;
        if (field.isEmpty()) {
          refuse(value);
        }
      }
      part(field, value, quoted, parts);
    }
  }

  static List<String> fields() {
    List<String> fields = new ArrayList<>(List.of("name", "aged", "initials", "marker", "near"));
    fields.addAll(YEARS);
    fields.addAll(FACTS);
    return fields;
  }

  /** What other programs may take for an order is refused here, never taken for a word. */
  private static void refuse(String value) throws QueryException {
    if (value.equals("OR") || value.equals("|")) {
      throw new QueryException(
          "OR isn't understood; search for each by itself, or for years write year:1850..1870");
    }
    if (value.equals("AND") || value.equals("NOT")) {
      throw new QueryException(
          value + " isn't understood; write the words alone, the best come first");
    }
    if (value.length() > 1 && (value.startsWith("-") || value.startsWith("+"))) {
      throw new QueryException(
          value
              + ": nothing can be left out or forced; write the words alone, the best come first");
    }
    if (value.indexOf('*') >= 0 || value.indexOf('~') >= 0) {
      throw new QueryException(
          value
              + ": no star is needed, spellings near a word are found too; write ? for one letter"
              + " nobody knows, as in w?en");
    }
    if (value.indexOf('(') >= 0 || value.indexOf(')') >= 0 || value.indexOf('[') >= 0) {
      throw new QueryException(value + ": brackets aren't understood; write the words alone");
    }
  }

  private static boolean isQuote(char sign) {
    return sign == '"' || sign == '“' || sign == '”' || sign == '„';
  }

  private static void part(String field, String value, boolean quoted, List<Part> parts)
      throws QueryException {
    if (value.isBlank()) {
      throw new QueryException(
          field.isEmpty()
              ? "nothing between the quotation marks"
              : field + ": needs something after it");
    }
    if (YEARS.contains(field)) {
      parts.add(years(field, value));
      return;
    }
    if (FACTS.contains(field)) {
      parts.add(new Fact(field, value, words(value)));
      return;
    }
    switch (field) {
      case "name" -> parts.addAll(terms(value, true));
      case "aged" -> parts.add(ages(value));
      case "initials" -> {
        String folded = NameForms.fold(value);
        if (folded.isEmpty()) {
          throw new QueryException("initials: needs letters, as in initials:HW");
        }
        parts.add(new Initials(value, folded));
      }
      case "marker" -> parts.add(new Marker(value));
      case "near" -> parts.add(new Near(value));
      default -> {
        if (!quoted
            && value.matches("1[0-9]{3}|20[0-9]{2}|1[0-9?]{3}")
            && value.matches(".*[0-9].*[0-9?].*")) {
          parts.add(years("year", value));
        } else if (quoted && words(value).size() > 1) {
          parts.add(new Phrase(value, words(value)));
        } else {
          parts.addAll(terms(value, false));
        }
      }
    }
  }

  private static List<Part> terms(String value, boolean inName) throws QueryException {
    List<Part> terms = new ArrayList<>();
    for (String word : parted(value)) {
      String folded = folded(word);
      if (!folded.isEmpty()) {
        terms.add(new Term(word, folded, inName));
      }
    }
    if (terms.isEmpty()) {
      throw new QueryException("no letter or figure in “" + value + "”");
    }
    return terms;
  }

  private static List<String> words(String value) throws QueryException {
    return terms(value, false).stream().map(part -> ((Term) part).folded()).toList();
  }

  private static String[] parted(String value) {
    return value.strip().split("[\\s\\-–—.,;]+", -1);
  }

  /** Folded, a question mark within kept for a letter nobody knows. */
  private static String folded(String word) {
    String letters = NameForms.fold(word);
    if (letters.isEmpty() || word.indexOf('?') < 0) {
      return letters;
    }
    StringBuilder folded = new StringBuilder();
    word.codePoints()
        .forEach(
            sign -> folded.append(sign == '?' ? "?" : NameForms.fold(Character.toString(sign))));
    return folded.toString();
  }

  private static Ages ages(String value) throws QueryException {
    Matcher found = Pattern.compile("([0-9]{1,3})(?:\\.\\.([0-9]{1,3}))?").matcher(value);
    if (!found.matches()) {
      throw new QueryException("aged:" + value + " isn't an age; write aged:63 or aged:60..65");
    }
    int from = Integer.parseInt(found.group(1));
    int to = found.group(2) == null ? from : Integer.parseInt(found.group(2));
    if (to < from) {
      throw new QueryException("aged:" + value + " runs backwards");
    }
    return new Ages(value, from, to);
  }

  private static Years years(String field, String value) throws QueryException {
    String event = field.equals("year") ? "" : field;
    Set<Integer> among = new HashSet<>();
    if (value.matches("[0-9?]{4}") && value.indexOf('?') >= 0) {
      Pattern years = Pattern.compile(value.replace("?", "[0-9]"));
      for (int year = FIRST_YEAR; year <= LAST_YEAR; year++) {
        if (years.matcher(Integer.toString(year)).matches()) {
          among.add(year);
        }
      }
      if (among.isEmpty()) {
        throw wrongYears(field, value);
      }
      return new Years(value, event, among);
    }
    Matcher found =
        Pattern.compile("([0-9]{1,4})?(?:(\\.\\.|–)([0-9]{1,4})?)?").matcher(value.strip());
    boolean some = found.matches() && (found.group(1) != null || found.group(3) != null);
    if (!some) {
      throw wrongYears(field, value);
    }
    int from = found.group(1) == null ? FIRST_YEAR : Integer.parseInt(found.group(1));
    int to =
        found.group(3) != null
            ? Integer.parseInt(found.group(3))
            : found.group(2) == null ? from : LAST_YEAR;
    if (from > to) {
      throw new QueryException(field + ":" + value + " runs backwards");
    }
    for (int year = Math.max(FIRST_YEAR, from); year <= Math.min(LAST_YEAR, to); year++) {
      among.add(year);
    }
    return new Years(value, event, among);
  }

  private static QueryException wrongYears(String field, String value) {
    return new QueryException(
        field + ":" + value + " isn't a year or years; write year:1863 or year:1850..1870");
  }
}
