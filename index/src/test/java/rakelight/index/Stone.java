package rakelight.index;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Builds entries as a test would tell them: {@code stone("7").word("HANNAH").word("WR[.]N")}. In a
 * word {@code .} is one lost letter, {@code -} lost letters without number, {@code (3|8)} one of
 * these.
 */
final class Stone {
  private final String marker;
  private final List<Word> words = new ArrayList<>();
  private final List<Entry.Name> names = new ArrayList<>();
  private final List<Entry.YearSpan> years = new ArrayList<>();
  private final List<String> initials = new ArrayList<>();
  private final List<String> links = new ArrayList<>();

  private Stone(String marker) {
    this.marker = marker;
  }

  static Stone stone(String marker) {
    return new Stone(marker);
  }

  static List<Cell> cells(String written) {
    List<Cell> cells = new ArrayList<>();
    for (int i = 0; i < written.length(); i++) {
      char sign = written.charAt(i);
      if (sign == '.') {
        cells.add(new Cell.Unknown(1, 1));
      } else if (sign == '-') {
        cells.add(new Cell.Unknown(0, Cell.MANY));
      } else if (sign == '(') {
        int end = written.indexOf(')', i);
        String[] options = written.substring(i + 1, end).split("\\|", -1);
        Map<String, Double> texts = new TreeMap<>();
        for (String option : options) {
          texts.put(option, 1.0 / options.length);
        }
        cells.add(new Cell.OneOf(texts));
        i = end;
      } else {
        cells.add(Cell.sure(Character.toString(sign)));
      }
    }
    return cells;
  }

  Stone word(String written) {
    words.add(Word.of(written, List.of(cells(written))));
    return this;
  }

  Stone words(String written) {
    for (String word : written.split(" ", -1)) {
      word(word);
    }
    return this;
  }

  Stone name(String written) {
    int first = words.size();
    words(written);
    names.add(new Entry.Name(first, words.size() - 1, List.of()));
    return this;
  }

  Stone year(int from, int to, double weight, String shown) {
    years.add(new Entry.YearSpan(from, to, weight, "", shown));
    return this;
  }

  Stone initials(String letters) {
    initials.add(letters.toLowerCase(Locale.ROOT));
    return this;
  }

  /** The name before is also this, by what is cut elsewhere. */
  Stone lent(String word) {
    Entry.Name name = names.remove(names.size() - 1);
    names.add(new Entry.Name(name.first(), name.last(), List.of(Word.sure(word))));
    return this;
  }

  Stone link(String text) {
    links.add(text);
    return this;
  }

  Entry entry() {
    StringBuilder text = new StringBuilder();
    words.forEach(word -> text.append(text.isEmpty() ? "" : " ").append(word.shown()));
    return new Entry(
        "marker-" + marker,
        marker,
        List.of(new Entry.Face("face-" + marker, "front", text.toString(), words.size())),
        words,
        names,
        years,
        List.of(),
        initials,
        links.isEmpty() ? Map.of() : Map.of("link", links));
  }
}
