package rakelight.index;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.apache.lucene.util.BytesRef;
import org.junit.jupiter.api.Test;

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
    List<Entry.Name> names = new ArrayList<>();
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
                sure ? year : year - random.nextInt(10), year, sure ? 1 : 0.3, "", text));
      }
    }
    if (count > 1 && random.nextBoolean()) {
      int first = random.nextInt(count - 1);
      names.add(new Entry.Name(first, first + 1, List.of(Word.sure("lark"))));
    }
    List<String> initials = random.nextInt(5) == 0 ? List.of("hw", "jw") : List.of();
    List<String> links = random.nextInt(4) == 0 ? List.of("footstone of 3") : List.of();
    List<String> shown = words.stream().map(Word::shown).toList();
    String text = number % 2 == 0 ? "" : String.join("\n", shown);
    String id = number % 3 == 0 ? "marker-" + number : new UUID(number, number).toString();
    return new Entry(
        id,
        "" + number,
        List.of(new Entry.Face("face-" + number, "front", text, words.size())),
        words,
        names,
        years,
        List.of(),
        initials,
        links.isEmpty() ? Map.of() : Map.of("link", links));
  }

  private static List<String> markers(HitList found) {
    return found.hits().stream().map(hit -> hit.entry().marker()).toList();
  }

  /**
   * Of all entries by every term, against the index: nobody among the best is missed. Counted over
   * several grounds, since among some 280 likely hits of one ground three may stand in a tie for
   * the last place. (60 grounds: .9962.)
   */
  @Test
  void theIndexFindsWhatASlowLookAtEveryEntryFinds() throws IOException, QueryException {
    int likely = 0;
    int found = 0;
    int foundAsIfLarge = 0;
    for (long seed = 0; seed < 8; seed++) {
      Random random = new Random(seed);
      Path folder = Files.createTempDirectory("index");
      try (IndexWriting writing = IndexWriting.open(folder, true).orElseThrow()) {
        for (int i = 0; i < 250; i++) {
          writing.put(random(i, random));
        }
        writing.commit(1);
      }
      try (SearchIndex index = SearchIndex.open(folder)) {
        for (String query : QUERIES) {
          HitList all = index.searchAll(query, 20);
          List<String> ours = markers(index.search(query, 20));
          List<String> asIfLarge = markers(index.searchAsIfLarge(query, 20));
          for (Hit hit : all.hits()) {
            if (hit.probability() >= LIKELY) {
              likely++;
              found += ours.contains(hit.entry().marker()) ? 1 : 0;
              foundAsIfLarge += asIfLarge.contains(hit.entry().marker()) ? 1 : 0;
            }
          }
        }
      }
      IndexFolder.remove(folder);
    }
    assertThat(likely).isGreaterThan(2000);
    assertThat(found).isGreaterThanOrEqualTo((int) Math.floor(0.99 * likely));
    assertThat(foundAsIfLarge).isGreaterThanOrEqualTo((int) Math.floor(0.99 * likely));
  }

  /** Less likely ones aren't counted: they answer by what is lost. */
  private static final double LIKELY = 0.005;

  @Property(tries = 300)
  void moreDoubtNeverHidesAStone(@ForAll long seed) throws IOException, QueryException {
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
    Path folder = Files.createTempDirectory("index");
    try (IndexWriting writing = IndexWriting.open(folder, true).orElseThrow()) {
      writing.put(entry("1", words));
      writing.commit(1);
    }
    try (SearchIndex index = SearchIndex.open(folder)) {
      for (String query :
          List.of(
              "name:\"" + String.join(" ", asked) + "\"", "\"" + String.join(" ", asked) + "\"")) {
        assertThat(index.search(query, 1).hits()).as(query + " in " + words).hasSize(1);
      }
    }
    IndexFolder.remove(folder);
  }

  private static Entry entry(String marker, List<Word> words) {
    return new Entry(
        marker,
        marker,
        List.of(new Entry.Face("f" + marker, "front", "", words.size())),
        words,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        Map.of());
  }

  @Property(tries = 300)
  void anEntryComesBackFromItsBytes(@ForAll long seed) throws IOException {
    Entry entry = random((int) (seed & 7), new Random(seed));
    BytesRef bytes = new BytesRef(EntryCodec.encode(entry));
    assertThat(EntryCodec.decode(bytes, new BytesRef(Scored.encode(entry)))).isEqualTo(entry);
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
