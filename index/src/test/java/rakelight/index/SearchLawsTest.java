package rakelight.index;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** What holds whatever the stones. */
class SearchLawsTest {
  private static final List<String> WORDS =
      List.of(
          "hannah",
          "wren",
          "john",
          "jno",
          "jack",
          "elizabeth",
          "eliz",
          "betsy",
          "smith",
          "smyth",
          "schmidt",
          "thompson",
          "thomson",
          "in",
          "memory",
          "of",
          "died",
          "1863",
          "1883",
          "1888",
          "aged",
          "wm",
          "william",
          "lark",
          "reeve",
          "harriet",
          "hattie",
          "abrams",
          "abroms");
  private static final List<String> QUERIES =
      List.of(
          "hannah",
          "wren",
          "hannah wren",
          "john",
          "elizabeth smith",
          "\"in memory of\"",
          "\"john wren\"",
          "1883",
          "year:1883",
          "year:1860..1885 smith",
          "name:wren",
          "name:\"hannah wren\"",
          "initials:hw",
          "john wren",
          "thompson year:..1870",
          "wm reeve",
          "abrams",
          "harriet lark 1888",
          "marker:17",
          "link:footstone hannah");

  private static Cell doubtful(String letter, Random random) {
    return switch (random.nextInt(6)) {
      case 0 -> new Cell.Unknown(1, 1);
      case 1 -> new Cell.Unknown(0, Cell.MANY);
      case 2 -> new Cell.OneOf(Map.of(letter, 0.6, "q", 0.4));
      case 3 -> new Cell.OneOf(Map.of(letter, 0.4, "x", 0.5, "", 0.1));
      default -> Cell.sure(letter);
    };
  }

  private static Entry random(int number, Random random) {
    List<Word> words = new ArrayList<>();
    List<Entry.NameSpan> names = new ArrayList<>();
    List<Entry.YearSpan> years = new ArrayList<>();
    int count = 1 + random.nextInt(7);
    for (int i = 0; i < count; i++) {
      String text = WORDS.get(random.nextInt(WORDS.size()));
      boolean worn = random.nextInt(3) == 0;
      List<Cell> cells = new ArrayList<>();
      for (String letter : text.split("", -1)) {
        if (!letter.isEmpty()) {
          cells.add(worn ? doubtful(letter, random) : Cell.sure(letter));
        }
      }
      words.add(Word.of(text + (worn ? "?" : ""), List.of(cells)));
      if (text.startsWith("18")) {
        int year = Integer.parseInt(text);
        boolean sure = random.nextBoolean();
        years.add(
            new Entry.YearSpan(
                sure ? year : year - random.nextInt(10), year, sure ? 1 : 0.3, text));
      }
    }
    if (count > 1 && random.nextBoolean()) {
      int first = random.nextInt(count - 1);
      names.add(new Entry.NameSpan(first, first + 1));
    }
    List<String> initials = random.nextInt(5) == 0 ? List.of("hw", "jw") : List.of();
    List<String> links = random.nextInt(4) == 0 ? List.of("footstone of 3") : List.of();
    return new Entry(
        "face-" + number, "" + number, "front", "", words, names, years, initials, links);
  }

  @Property(tries = 12)
  void theIndexFindsWhatASlowScanFinds(@ForAll long seed) throws IOException, QueryException {
    Random random = new Random(seed);
    List<Entry> entries = new ArrayList<>();
    for (int i = 0; i < 250; i++) {
      entries.add(random(i, random));
    }
    Path folder = Files.createTempDirectory("index");
    try (IndexWriting writing = IndexWriting.open(folder, true).orElseThrow()) {
      entries.forEach(writing::put);
      writing.commit(1);
    }
    try (SearchIndex index = SearchIndex.open(folder)) {
      for (String query : QUERIES) {
        Matcher matcher = new Matcher(Query.parse(query));
        List<Hit> scanned =
            SearchIndex.ranked(
                entries.stream().map(matcher::match).flatMap(Optional::stream).toList());
        assertThat(index.search(query)).as(query).isEqualTo(scanned);
      }
    }
    IndexFolder.remove(folder);
  }

  @Property(tries = 2000)
  void moreDoubtNeverHidesAStone(@ForAll long seed) throws QueryException {
    Random random = new Random(seed);
    List<Word> words = new ArrayList<>();
    List<String> asked = new ArrayList<>();
    int count = 1 + random.nextInt(3);
    for (int i = 0; i < count; i++) {
      String text = WORDS.get(random.nextInt(WORDS.size()));
      asked.add(text);
      List<Cell> cells = new ArrayList<>(Cell.sureLetters(text));
      // One letter of each word stays known; any of the others may be anything or gone.
      int kept = random.nextInt(cells.size());
      for (int at = 0; at < cells.size(); at++) {
        if (at != kept) {
          cells.set(at, doubtful(text.substring(at, at + 1), random));
        }
      }
      words.add(Word.of(text, List.of(cells)));
    }
    Entry worn =
        new Entry("f", "1", "front", "", words, List.of(), List.of(), List.of(), List.of());
    Entry clear =
        new Entry(
            "f",
            "1",
            "front",
            "",
            asked.stream().map(Word::sure).toList(),
            List.of(),
            List.of(),
            List.of(),
            List.of());
    for (String query :
        List.of(
            String.join(" ", asked),
            "\"" + String.join(" ", asked) + "\"",
            "name:\"" + String.join(" ", asked) + "\"")) {
      Matcher matcher = new Matcher(Query.parse(query));
      Hit certain = matcher.match(clear).orElseThrow();
      Hit doubtful =
          matcher.match(worn).orElseThrow(() -> new AssertionError(query + " in " + words));
      assertThat(doubtful.score()).isLessThanOrEqualTo(certain.score());
    }
  }

  @Property(tries = 300)
  void anEntryComesBackFromItsBytes(@ForAll long seed) throws IOException {
    Entry entry = random(1, new Random(seed));
    byte[] bytes = EntryCodec.encode(entry);
    assertThat(EntryCodec.decode(bytes, 0, bytes.length)).isEqualTo(entry);
  }

  @Property(tries = 1000)
  void noQueryDoesWorseThanBeRefused(@ForAll String text) {
    try {
      assertThat(Query.parse(text).parts()).isNotEmpty();
    } catch (QueryException e) {
      assertThat(e).hasMessageMatching("(?s).+");
    }
  }
}
