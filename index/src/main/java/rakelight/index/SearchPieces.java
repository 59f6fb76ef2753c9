package rakelight.index;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Consumer;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;
import rakelight.names.SoundCodes;
import rakelight.names.WordForms;

/**
 * The index cut into pieces for a search that runs without this program, such as a script in a
 * browser: what a search reckons with that depends on words is worked out here, and a search loads
 * the pieces that may hold what it looks for. Entries go by their number in the order in which they
 * were put.
 *
 * <p>A piece is a text without quotation marks and backslashes, packed by what is common in pieces
 * ({@link PieceText}): what was learnt from the first one, which holds a sample of the terms, is
 * where each of the others begins.
 *
 * <pre>
 * base        by field: vocabulary and reader; where the others begin; a sample
 * g-2         by word: whether it is a given name; nicknames, short forms, Latin forms, others
 * nl-6        where terms of names of that length lie; tl-6 of other words
 * n-17        terms of names, of one length and with some letters at their ends: {@link TermPieces}
 * np-3        entries of a frequent one
 * s-4         words by their sound codes
 * f-2         entries by what is known of them besides: field:word
 * w-1         where markers stand: by a number, @12, and by cells of {@value #CELL_METRES} metres, 3/-4
 * y-186       spans of years within that decade, by entry; y-c18 within that century, y-w others
 * x-died      entries that tell of no year in which somebody died
 * a-1         ages of {@value #AGES_A_PIECE} entries
 * </pre>
 */
public final class SearchPieces {
  static final int AGES_A_PIECE = 2048;
  static final int CELL_METRES = 15;
  private static final int SIGNS = 36;
  private static final int LONGEST = 24;
  private static final int FULL = 255;
  private static final int PIECE_SIGNS = 700;

  private final List<Entry> entries;
  private final List<Numbered> markers;
  private final Map<String, Integer> numbers = new HashMap<>();
  private final Map<String, Consumer<PieceText>> planned = new LinkedHashMap<>();

  /** Where pieces go. */
  public interface Pieces {
    /**
     * @param name of letters, figures and hyphens
     */
    void put(String name, String content) throws IOException;
  }

  private SearchPieces(List<Entry> entries, List<Numbered> markers) {
    this.entries = entries;
    this.markers = markers;
    for (int number = 0; number < entries.size(); number++) {
      numbers.put(entries.get(number).id(), number);
    }
  }

  /**
   * A marker by its numbers and its place, whether anything of it is searched or not.
   *
   * @param entry the id of its entry; of one that has none, any other
   * @param numbers the one it has, then earlier ones
   * @param eastMetres from a point of the ground; not a number if nobody knows
   */
  public record Numbered(
      String entry, List<String> numbers, double eastMetres, double northMetres) {
    public Numbered {
      numbers = List.copyOf(numbers);
    }
  }

  /**
   * Writes the pieces of an index.
   *
   * @param entries those it holds, in the order in which they were put
   * @param markers by what numbers they are asked for, and where they stand
   */
  public static void write(
      SearchIndex index, List<Entry> entries, List<Numbered> markers, Pieces pieces)
      throws IOException {
    if (index.size() != entries.size()) {
      throw new IllegalArgumentException("not the entries of the index");
    }
    new SearchPieces(entries, markers).all(index.names(), index.texts(), pieces);
  }

  /** By which equal entries are ranked; put in this order, they go by their number. */
  public static List<Entry> inOrder(List<Entry> entries) {
    List<Entry> sorted = new ArrayList<>(entries);
    sorted.sort(
        java.util.Comparator.comparingLong((Entry entry) -> Documents.order(entry.marker()))
            .thenComparing(Entry::marker)
            .thenComparing(Entry::id));
    return sorted;
  }

  private void all(Vocabulary names, Vocabulary texts, Pieces pieces) throws IOException {
    PieceModel learnt = PieceModel.blank();
    PieceText base = new PieceText(learnt);
    base.number(PieceText.Kind.COUNT, entries.size());
    base.number(PieceText.Kind.COUNT, AGES_A_PIECE);
    TermPieces ofNames = TermPieces.ofNames(entries);
    TermPieces ofTexts = TermPieces.ofTexts(entries);
    field(base, names, "n", ofNames);
    field(base, texts, "t", ofTexts);
    base.words(PieceModel.NAMES, sounds(names));
    base.words(PieceModel.NAMES, facts());
    base.words(PieceModel.NAMES, names());
    base.words(PieceModel.NAMES, places());
    base.words(PieceModel.NAMES, times());
    years();
    ages();
    ofNames.sample(base);
    ofTexts.sample(base);
    pieces.put("base", base.end());
    for (Map.Entry<String, Consumer<PieceText>> piece : planned.entrySet()) {
      PieceText out = new PieceText(learnt.copy());
      piece.getValue().accept(out);
      pieces.put(piece.getKey(), out.end());
    }
  }

  private void field(PieceText base, Vocabulary vocabulary, String field, TermPieces terms) {
    base.share(1 / vocabulary.total());
    for (int i = 0; i < SIGNS; i++) {
      base.share(vocabulary.letters().shares()[i]);
    }
    base.share(vocabulary.letters().other());
    for (int i = 0; i <= LONGEST; i++) {
      base.share(vocabulary.lengthShare(i));
    }
    for (int i = 0; i < SIGNS; i++) {
      base.share(vocabulary.shareBeginning(LetterShares.letter(i)));
    }
    Channel reader = vocabulary.reader();
    base.share(reader.wrong());
    for (double[] row : reader.letters()) {
      for (double each : row) {
        base.share(each);
      }
    }
    terms.plan(field, vocabulary, base, planned);
  }

  /** What is told of a word, and about how many signs that takes. */
  private record Told(int signs, Consumer<PieceText> writing) {}

  /** Words by sound codes, as {@link Vocabulary#soundingLike} chooses from them. */
  private List<String> sounds(Vocabulary names) {
    Map<String, Told> all = new TreeMap<>();
    names
        .bySound()
        .forEach(
            (code, words) ->
                all.put(
                    "n" + code,
                    new Told(
                        6 * words.size(),
                        out -> {
                          out.number(PieceText.Kind.COUNT, words.size());
                          for (String word : words) {
                            out.text(PieceModel.NAMES, word, "");
                            out.share(names.countShare(word));
                          }
                        })));
    return chunks("s", all);
  }

  /** Where markers stand, in centimetres. */
  private List<String> places() {
    Map<String, Told> all = new TreeMap<>();
    Map<String, TreeMap<Integer, Numbered>> cells = new TreeMap<>();
    for (boolean earlier : new boolean[] {false, true}) {
      for (Numbered marker : markers) {
        if (Double.isNaN(marker.eastMetres())) {
          continue;
        }
        for (String number :
            earlier
                ? marker.numbers().subList(1, marker.numbers().size())
                : marker.numbers().subList(0, 1)) {
          all.putIfAbsent("@" + NameForms.fold(number), new Told(4, out -> spot(out, marker)));
        }
        Integer entry = numbers.get(marker.entry());
        if (entry != null && !earlier) {
          cells
              .computeIfAbsent(
                  cell(marker.eastMetres()) + "/" + cell(marker.northMetres()),
                  cell -> new TreeMap<>())
              .put(entry, marker);
        }
      }
    }
    cells.forEach(
        (cell, in) ->
            all.put(
                cell,
                new Told(
                    6 * in.size(),
                    out -> {
                      out.rising(in.keySet());
                      in.values().forEach(marker -> spot(out, marker));
                    })));
    return chunks("w", all);
  }

  private static long cell(double metres) {
    return (long) Math.floor(metres / CELL_METRES);
  }

  private static void spot(PieceText out, Numbered marker) {
    for (double metres : new double[] {marker.eastMetres(), marker.northMetres()}) {
      long centimetres = Math.round(metres * 100);
      out.number(PieceText.Kind.PLACE, centimetres < 0 ? -centimetres * 2 - 1 : centimetres * 2);
    }
  }

  private List<String> facts() {
    Map<String, TreeSet<Integer>> byWord = new TreeMap<>();
    for (int number = 0; number < entries.size(); number++) {
      Entry entry = entries.get(number);
      put(byWord, "marker:" + NameForms.fold(entry.marker()), number);
      for (String own : entry.initials()) {
        put(byWord, "initials:=" + own, number);
      }
      for (Entry.Name name : entry.names()) {
        String initials = Initials.of(entry.words().subList(name.first(), name.last() + 1));
        if (!initials.isEmpty()) {
          put(byWord, "initials:" + initials, number);
        }
      }
      for (Map.Entry<String, List<String>> fact : entry.facts().entrySet()) {
        for (String value : fact.getValue()) {
          put(byWord, fact.getKey() + ":" + Query.ANY, number);
          for (String word : value.split("[^\\p{L}\\p{N}&']+", -1)) {
            put(byWord, fact.getKey() + ":" + NameForms.fold(word), number);
          }
        }
      }
    }
    Map<String, TreeSet<Integer>> earlier = new TreeMap<>();
    for (Numbered marker : markers) {
      Integer entry = numbers.get(marker.entry());
      if (entry != null) {
        marker.numbers().stream()
            .skip(1)
            .map(had -> "marker:" + NameForms.fold(had))
            .filter(had -> !byWord.containsKey(had))
            .forEach(had -> put(earlier, had, entry));
      }
    }
    byWord.putAll(earlier);
    Map<String, Told> all = new TreeMap<>();
    byWord.forEach(
        (word, having) -> all.put(word, new Told(having.size(), out -> out.rising(having))));
    return chunks("f", all);
  }

  private static void put(Map<String, TreeSet<Integer>> into, String key, int number) {
    into.computeIfAbsent(key, k -> new TreeSet<>()).add(number);
  }

  /**
   * Records in the order of their keys, in pieces of some size.
   *
   * @return the first key of each piece
   */
  private List<String> chunks(String name, Map<String, Told> records) {
    List<String> first = new ArrayList<>();
    Map<String, Told> some = new TreeMap<>();
    int signs = 0;
    for (Map.Entry<String, Told> record : records.entrySet()) {
      if (signs > PIECE_SIGNS) {
        chunk(name, first, some);
        some = new TreeMap<>();
        signs = 0;
      }
      some.put(record.getKey(), record.getValue());
      signs += 4 + record.getValue().signs();
    }
    if (!some.isEmpty()) {
      chunk(name, first, some);
    }
    return first;
  }

  private void chunk(String name, List<String> first, Map<String, Told> records) {
    planned.put(
        name + "-" + first.size(),
        out -> {
          out.number(PieceText.Kind.COUNT, records.size());
          String before = "";
          for (Map.Entry<String, Told> record : records.entrySet()) {
            out.text(PieceModel.NAMES, record.getKey(), before);
            before = record.getKey();
            record.getValue().writing().accept(out);
          }
        });
    first.add(records.keySet().iterator().next());
  }

  /** What is known of names, and other forms of words, by word. */
  private List<String> names() {
    GivenNames given = GivenNames.known();
    Set<String> known = given.all();
    Set<String> words = new TreeSet<>(known);
    known.forEach(name -> words.addAll(given.latinOf(name)));
    words.addAll(WordForms.known().all());
    Map<String, Told> all = new TreeMap<>();
    for (String word : words) {
      List<Set<String>> forms =
          List.of(
              given.nicknamesOf(word),
              given.abbreviationsOf(word),
              given.latinOf(word),
              WordForms.known().of(word));
      all.put(
          word,
          new Told(
              4 * forms.stream().mapToInt(Set::size).sum(),
              out -> {
                out.number(PieceText.Kind.KNOWN, known.contains(word) ? 1 : 0);
                forms.forEach(each -> out.words(PieceModel.NAMES, new TreeSet<>(each)));
              }));
    }
    return chunks("g", all);
  }

  /** A span of years of an entry. */
  private record ToldYear(int number, Entry.YearSpan span) {}

  /** Spans by the decade in which they lie, else by their century, else together. */
  private void years() {
    Map<String, List<ToldYear>> byTime = new TreeMap<>();
    for (int number = 0; number < entries.size(); number++) {
      for (Entry.YearSpan span : entries.get(number).years()) {
        byTime
            .computeIfAbsent(time(span), time -> new ArrayList<>())
            .add(new ToldYear(number, span));
      }
    }
    byTime.forEach((time, told) -> planned.put("y-" + time, out -> years(out, time, told)));
    for (String event : Scored.EVENTS) {
      Set<Integer> without = new TreeSet<>();
      for (int number = 0; number < entries.size(); number++) {
        if (entries.get(number).years().stream().noneMatch(span -> counts(event, span.event()))) {
          without.add(number);
        }
      }
      planned.put("x-" + (event.isEmpty() ? "any" : event), out -> out.rising(without));
    }
  }

  private static void years(PieceText out, String time, List<ToldYear> told) {
    out.number(PieceText.Kind.COUNT, told.size());
    int last = 0;
    for (ToldYear each : told) {
      Entry.YearSpan span = each.span();
      int weight = (int) Math.max(1, Math.round(span.weight() * FULL));
      int width = span.to() - span.from();
      int event = Math.max(0, Scored.EVENTS.indexOf(span.event()));
      out.gap(told.size(), each.number() - last);
      last = each.number();
      out.number(PieceText.Kind.EVENT, event * 4 + (weight < FULL ? 2 : 0) + (width > 0 ? 1 : 0));
      out.number(PieceText.Kind.YEAR, Math.max(0, span.from() - first(time)));
      if (width > 0) {
        out.number(PieceText.Kind.SPAN, width);
      }
      if (weight < FULL) {
        out.number(PieceText.Kind.WEIGHT, weight);
      }
    }
  }

  private static boolean counts(String asked, String told) {
    if (told.equals(Query.MADE) || asked.equals(Query.MADE)) {
      return asked.equals(told);
    }
    return asked.isEmpty() || told.isEmpty() || asked.equals(told);
  }

  private static String time(Entry.YearSpan span) {
    if (span.from() / 10 == span.to() / 10) {
      return Integer.toString(span.from() / 10);
    }
    return span.from() / 100 == span.to() / 100 ? "c" + span.from() / 100 : "w";
  }

  private static int first(String time) {
    return time.equals("w")
        ? 0
        : time.startsWith("c")
            ? Integer.parseInt(time.substring(1)) * 100
            : Integer.parseInt(time) * 10;
  }

  private List<String> times() {
    Set<String> times = new TreeSet<>();
    entries.forEach(entry -> entry.years().forEach(span -> times.add(time(span))));
    return List.copyOf(times);
  }

  private void ages() {
    for (int from = 0; from < entries.size(); from += AGES_A_PIECE) {
      List<Entry> some = entries.subList(from, Math.min(entries.size(), from + AGES_A_PIECE));
      planned.put(
          "a-" + from / AGES_A_PIECE,
          out -> {
            out.number(PieceText.Kind.COUNT, some.size());
            for (Entry entry : some) {
              out.number(PieceText.Kind.COUNT, entry.ages().size());
              for (Entry.AgeSpan span : entry.ages()) {
                out.number(PieceText.Kind.AGE, span.from());
                out.number(PieceText.Kind.SPAN, span.to() - span.from());
              }
            }
          });
    }
  }

  /** Codes of a word as the sound pieces go by them, for comparing. */
  public static Set<String> soundCodes(String word) {
    Set<String> codes = new TreeSet<>(SoundCodes.daitchMokotoff(word));
    codes.add(SoundCodes.soundex(word));
    return codes;
  }
}
