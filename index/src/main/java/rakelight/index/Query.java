package rakelight.index;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import rakelight.names.NameForms;

/**
 * What is searched for. All parts must answer.
 *
 * <pre>
 * wren                    a word
 * "in memory of"          words one after the other, as written
 * name:wren               within a person's name
 * name:"hannah wren"      within one person's name
 * year:1863  year:1850..1870  year:..1800  year:1900..
 * initials:HW  marker:12  link:footstone
 * </pre>
 */
record Query(List<Part> parts) {

  sealed interface Part {}

  record Term(String shown, String folded) implements Part {}

  record Phrase(String shown, List<String> folded) implements Part {}

  /** One person's name with all these words. */
  record Name(String shown, List<Term> terms) implements Part {}

  record Years(String shown, int from, int to) implements Part {}

  record Initials(String shown, String folded) implements Part {}

  record Marker(String number) implements Part {}

  record Link(String shown, String folded) implements Part {}

  private static final List<String> FIELDS = List.of("name", "year", "initials", "marker", "link");
  private static final int LONGEST_CHARS = 500;

  Query {
    parts = List.copyOf(parts);
  }

  /** The plain words in a row, as a name may be asked for. */
  List<Term> plainTerms() {
    List<Term> terms = new ArrayList<>();
    for (Part part : parts) {
      if (part instanceof Term term) {
        terms.add(term);
      }
    }
    return terms;
  }

  static Query parse(String text) throws QueryException {
    if (text.length() > LONGEST_CHARS) {
      throw new QueryException("the query is longer than " + LONGEST_CHARS + " signs");
    }
    List<Part> parts = new ArrayList<>();
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
        if (!FIELDS.contains(field)) {
          throw new QueryException(
              "no such part as " + field + ": — there are " + String.join(": ", FIELDS) + ":");
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
      }
      part(field, value, quoted, parts);
    }
    if (parts.isEmpty()) {
      throw new QueryException(
          "nothing to search for; give a word, \"words in a row\" or year:1863");
    }
    return new Query(parts);
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
    switch (field) {
      case "name" -> parts.add(new Name(value, terms(value)));
      case "year" -> parts.add(years(value));
      case "initials" -> {
        String folded = NameForms.fold(value);
        if (folded.isEmpty()) {
          throw new QueryException("initials: needs letters, as in initials:HW");
        }
        parts.add(new Initials(value, folded));
      }
      case "marker" -> parts.add(new Marker(value));
      case "link" -> parts.add(new Link(value, NameForms.fold(value)));
      default -> {
        List<Term> terms = terms(value);
        if (quoted && terms.size() > 1) {
          parts.add(new Phrase(value, terms.stream().map(Term::folded).toList()));
        } else {
          parts.addAll(terms);
        }
      }
    }
  }

  private static List<Term> terms(String value) throws QueryException {
    List<Term> terms = new ArrayList<>();
    for (String word : value.strip().split("[\\s\\-–—]+", -1)) {
      String folded = NameForms.fold(word);
      if (!folded.isEmpty()) {
        terms.add(new Term(word, folded));
      }
    }
    if (terms.isEmpty()) {
      throw new QueryException("no letter or figure in “" + value + "”");
    }
    return terms;
  }

  private static Years years(String value) throws QueryException {
    String[] bounds = value.split("\\.\\.|–", -1);
    if (bounds.length > 2) {
      throw wrongYears(value);
    }
    OptionalInt from = year(bounds[0], value);
    OptionalInt to = bounds.length == 1 ? from : year(bounds[1], value);
    if (from.isEmpty() && to.isEmpty()) {
      throw wrongYears(value);
    }
    Years years = new Years(value, from.orElse(0), to.orElse(9999));
    if (years.from() > years.to()) {
      throw new QueryException("year:" + value + " runs backwards");
    }
    return years;
  }

  private static OptionalInt year(String text, String value) throws QueryException {
    if (text.isBlank()) {
      return OptionalInt.empty();
    }
    if (!text.strip().matches("[0-9]{1,4}")) {
      throw wrongYears(value);
    }
    return OptionalInt.of(Integer.parseInt(text.strip()));
  }

  private static QueryException wrongYears(String value) {
    return new QueryException(
        "year:" + value + " isn't a year or years; write year:1863 or year:1850..1870");
  }
}
