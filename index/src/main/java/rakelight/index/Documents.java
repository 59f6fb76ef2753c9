package rakelight.index;

import java.util.Set;
import java.util.TreeSet;
import org.apache.lucene.document.BinaryDocValuesField;
import org.apache.lucene.document.Document;
import org.apache.lucene.document.Field;
import org.apache.lucene.document.NumericDocValuesField;
import org.apache.lucene.document.StoredField;
import org.apache.lucene.document.StringField;
import org.apache.lucene.util.BytesRef;
import rakelight.names.NameForms;

/**
 * Entries as Lucene documents. Fields: {@code id}; {@code name}, the {@link Skeleton skeletons} of
 * the words of names, and of all words where no name is known; {@code text}, those of all other
 * words; {@code year}, each year that is told of; {@code initials}, led by = where a face bears
 * nothing else; {@code marker}; {@code fact}, as {@code field:word}; {@code scored}, {@link Scored
 * what scoring needs}; {@code order}, by which equal ones are ranked; {@code entry}, stored.
 */
final class Documents {
  static final String ID = "id";
  static final String ENTRY = "entry";
  static final String SCORED = "scored";
  static final String ORDER = "order";
  static final String NAME = "name";
  static final String TEXT = "text";
  static final String YEAR = "year";
  static final String INITIALS = "initials";
  static final String MARKER = "marker";
  static final String FACT = "fact";

  // Lucene takes no longer terms, and no carved word is as long.
  private static final int LONGEST_TERM = 1000;

  // A span as wide as this says nothing that an index helps to find.
  private static final int WIDEST_SPAN_YEARS = 200;

  private Documents() {}

  static Document document(Entry entry) {
    Document document = new Document();
    document.add(new StringField(ID, id(entry.id()), Field.Store.NO));
    document.add(new StoredField(ENTRY, new BytesRef(EntryCodec.encode(entry))));
    document.add(new BinaryDocValuesField(SCORED, new BytesRef(Scored.encode(entry))));
    document.add(new NumericDocValuesField(ORDER, order(entry.marker())));
    document.add(new StringField(MARKER, NameForms.fold(entry.marker()), Field.Store.NO));
    Set<String> names = new TreeSet<>();
    Set<String> texts = new TreeSet<>();
    for (int i = 0; i < entry.words().size(); i++) {
      terms(entry.words().get(i), isInName(entry, i) ? names : texts);
    }
    entry.names().forEach(name -> name.lent().forEach(word -> terms(word, names)));
    add(document, NAME, names);
    add(document, TEXT, texts);
    Set<String> years = new TreeSet<>();
    for (Entry.YearSpan span : entry.years()) {
      for (int y = span.from(); y <= Math.min(span.to(), span.from() + WIDEST_SPAN_YEARS); y++) {
        years.add(year(span.event(), y));
      }
    }
    add(document, YEAR, years);
    Set<String> initials = new TreeSet<>();
    entry.initials().forEach(own -> initials.add("=" + own));
    for (Entry.Name name : entry.names()) {
      initials.add(Initials.of(entry.words().subList(name.first(), name.last() + 1)));
    }
    initials.remove("");
    add(document, INITIALS, initials);
    Set<String> facts = new TreeSet<>();
    entry
        .facts()
        .forEach(
            (field, values) ->
                values.forEach(
                    value -> {
                      facts.add(field + ":" + Query.ANY);
                      for (String word : value.split("[^\\p{L}\\p{N}&']+", -1)) {
                        facts.add(field + ":" + NameForms.fold(word));
                      }
                    }));
    add(document, FACT, facts);
    return document;
  }

  /** As the index holds a year: when a marker was made is apart from what it tells of. */
  static String year(String event, int year) {
    return event.equals(Query.MADE) ? Query.MADE + year : Integer.toString(year);
  }

  /** As the index holds an id. */
  static BytesRef id(String id) {
    return new BytesRef(EntryCodec.id(id));
  }

  private static boolean isInName(Entry entry, int word) {
    return entry.names().isEmpty()
        || entry.names().stream().anyMatch(name -> name.first() <= word && word <= name.last());
  }

  private static void terms(Word word, Set<String> into) {
    word.ways().forEach(way -> into.add(way.text()));
  }

  private static void add(Document document, String field, Set<String> terms) {
    for (String term : terms) {
      if (term.length() < LONGEST_TERM) {
        document.add(new StringField(field, term, Field.Store.NO));
      }
    }
  }

  /** So that 9 comes before 9a and 10, and A-3 before B-1: letters, number, letters. */
  static long order(String marker) {
    java.util.regex.Matcher parts =
        java.util.regex.Pattern.compile("([^0-9]*)0*([0-9]*)(.*)").matcher(marker);
    if (!parts.matches()) {
      return 0;
    }
    String number = parts.group(2);
    long value = number.isEmpty() ? 0 : number.length() > 8 ? 99_999_999 : Long.parseLong(number);
    return letters(parts.group(1)) << 43 | value << 15 | letters(parts.group(3));
  }

  private static long letters(String text) {
    long value = 0;
    String folded = NameForms.fold(text);
    for (int i = 0; i < 3; i++) {
      int letter = i < folded.length() ? Math.min(31, Math.max(1, folded.charAt(i) - 'a' + 1)) : 0;
      value = value * 32 + letter;
    }
    return value;
  }
}
