package rakelight.index;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
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
 * <p>A piece is a text without quotation marks and backslashes. Whole numbers in it are of {@value
 * PieceText#SIGNS} signs, low ones last ({@link PieceText}); shares are three signs, their negative
 * logarithm.
 *
 * <pre>
 * base        by field: vocabulary and reader
 * g-2         by word: whether it is a given name; nicknames, short forms, Latin forms, others
 * nl-6        where terms of names of that length lie; tl-6 of other words
 * n-17        terms of names, of one length and with some letters at their ends: {@link TermPieces}
 * np-3        entries of a frequent one
 * s-4         words by their sound codes
 * f-2         entries by what is known of them besides: field:word
 * y-186       spans of years within that decade, by entry; y-c18 within that century, y-w others
 * x-died      entries that tell of no year in which somebody died
 * a-1         ages of {@value #AGES_A_PIECE} entries
 * </pre>
 */
public final class SearchPieces {
  static final int AGES_A_PIECE = 2048;
  private static final int SIGNS = 36;
  private static final int LONGEST = 24;
  private static final int FULL = 255;
  private static final int PIECE_BYTES = 1500;

  private final List<Entry> entries;
  private final Pieces pieces;

  /** Where pieces go. */
  public interface Pieces {
    /**
     * @param name of letters, figures and hyphens
     */
    void put(String name, String content) throws IOException;
  }

  private SearchPieces(List<Entry> entries, Pieces pieces) {
    this.entries = entries;
    this.pieces = pieces;
  }

  /**
   * Writes the pieces of an index.
   *
   * @param entries those it holds, in the order in which they were put
   */
  public static void write(SearchIndex index, List<Entry> entries, Pieces pieces)
      throws IOException {
    if (index.size() != entries.size()) {
      throw new IllegalArgumentException("not the entries of the index");
    }
    new SearchPieces(entries, pieces).all(index.names(), index.texts());
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

  private void all(Vocabulary names, Vocabulary texts) throws IOException {
    PieceText base = new PieceText();
    base.number(entries.size());
    base.number(AGES_A_PIECE);
    field(base, names, "n", TermPieces.ofNames(entries));
    field(base, texts, "t", TermPieces.ofTexts(entries));
    List<String> soundKeys = sounds(names, texts);
    List<String> factKeys = facts();
    base.words(soundKeys);
    base.words(factKeys);
    base.words(names());
    base.words(times());
    pieces.put("base", base.toString());
    years();
    ages();
  }

  private void field(PieceText base, Vocabulary vocabulary, String field, TermPieces terms)
      throws IOException {
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
    terms.write(field, vocabulary, base, pieces);
  }

  /** Words by sound codes, as {@link Vocabulary#soundingLike} chooses from them. */
  private List<String> sounds(Vocabulary names, Vocabulary texts) throws IOException {
    Map<String, PieceText> byCode = new TreeMap<>();
    names
        .bySound()
        .forEach(
            (code, words) -> {
              PieceText out = byCode.computeIfAbsent("n" + code, c -> new PieceText());
              for (String word : words) {
                out.text(word);
                out.share(names.countShare(word));
              }
            });
    Map<String, String> all = new TreeMap<>();
    byCode.forEach((code, out) -> all.put(code, out.toString()));
    return chunks("s", all);
  }

  private List<String> facts() throws IOException {
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
    Map<String, String> all = new TreeMap<>();
    byWord.forEach(
        (word, numbers) -> {
          PieceText out = new PieceText();
          out.rising(numbers);
          all.put(word, out.toString());
        });
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
  private List<String> chunks(String name, Map<String, String> records) throws IOException {
    List<String> first = new ArrayList<>();
    PieceText out = new PieceText();
    for (Map.Entry<String, String> record : records.entrySet()) {
      if (out.length() == 0) {
        first.add(record.getKey());
      }
      out.text(record.getKey());
      out.number(record.getValue().length());
      out.append(record.getValue());
      if (out.length() > PIECE_BYTES) {
        pieces.put(name + "-" + (first.size() - 1), out.toString());
        out = new PieceText();
      }
    }
    if (out.length() > 0) {
      pieces.put(name + "-" + (first.size() - 1), out.toString());
    }
    return first;
  }

  /** What is known of names, and other forms of words, by word. */
  private List<String> names() throws IOException {
    GivenNames given = GivenNames.known();
    Set<String> known = given.all();
    Set<String> words = new TreeSet<>(known);
    known.forEach(name -> words.addAll(given.latinOf(name)));
    words.addAll(WordForms.known().all());
    Map<String, String> all = new TreeMap<>();
    for (String word : words) {
      PieceText out = new PieceText();
      out.text(known.contains(word) ? "known" : "other");
      for (Set<String> forms :
          List.of(
              given.nicknamesOf(word),
              given.abbreviationsOf(word),
              given.latinOf(word),
              WordForms.known().of(word))) {
        out.words(List.copyOf(new TreeSet<>(forms)));
      }
      all.put(word, out.toString());
    }
    return chunks("g", all);
  }

  /** Spans by the decade in which they lie, else by their century, else together. */
  private void years() throws IOException {
    Map<String, PieceText> byTime = new TreeMap<>();
    Map<String, Integer> last = new TreeMap<>();
    for (int number = 0; number < entries.size(); number++) {
      for (Entry.YearSpan span : entries.get(number).years()) {
        String time = time(span);
        PieceText out = byTime.computeIfAbsent(time, t -> new PieceText());
        int weight = (int) Math.max(1, Math.round(span.weight() * FULL));
        int width = span.to() - span.from();
        int event = Math.max(0, Scored.EVENTS.indexOf(span.event()));
        out.number(number - last.getOrDefault(time, 0));
        last.put(time, number);
        out.number(event * 4 + (weight < FULL ? 2 : 0) + (width > 0 ? 1 : 0));
        out.number(Math.max(0, span.from() - first(time)));
        if (width > 0) {
          out.number(width);
        }
        if (weight < FULL) {
          out.number(weight);
        }
      }
    }
    for (Map.Entry<String, PieceText> each : byTime.entrySet()) {
      pieces.put("y-" + each.getKey(), each.getValue().toString());
    }
    for (String event : Scored.EVENTS) {
      Set<Integer> without = new TreeSet<>();
      for (int number = 0; number < entries.size(); number++) {
        if (entries.get(number).years().stream().noneMatch(span -> counts(event, span.event()))) {
          without.add(number);
        }
      }
      PieceText out = new PieceText();
      out.rising(without);
      pieces.put("x-" + (event.isEmpty() ? "any" : event), out.toString());
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

  private void ages() throws IOException {
    for (int from = 0; from < entries.size(); from += AGES_A_PIECE) {
      PieceText out = new PieceText();
      for (Entry entry : entries.subList(from, Math.min(entries.size(), from + AGES_A_PIECE))) {
        out.number(entry.ages().size());
        for (Entry.AgeSpan span : entry.ages()) {
          out.number(span.from());
          out.number(span.to() - span.from());
        }
      }
      pieces.put("a-" + from / AGES_A_PIECE, out.toString());
    }
  }

  /** Codes of a word as the sound pieces go by them, for comparing. */
  public static Set<String> soundCodes(String word) {
    Set<String> codes = new TreeSet<>(SoundCodes.daitchMokotoff(word));
    codes.add(SoundCodes.soundex(word));
    return codes;
  }
}
