package rakelight.index;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** Entries of faces nobody ever cut: two persons each, one name in five half lost. */
final class InventedFaces {
  private static final List<String> GIVEN =
      List.of("Hannah", "John", "Eliz", "William", "Wm", "Sarah", "Thomas", "Abigail", "Polly");
  private static final List<String> SYLLABLES =
      List.of("wren", "ash", "mar", "tol", "bing", "cro", "der", "sel", "um", "pen");
  private static final List<String> ENDINGS = List.of("ton", "ham", "ley", "by", "er", "field");

  private InventedFaces() {}

  /** As many faces, the same ones every time. */
  static List<Entry> of(int faces) {
    Random dice = new Random(12);
    List<Entry> entries = new ArrayList<>();
    for (int n = 0; n < faces; n++) {
      entries.add(face(n, dice));
    }
    return entries;
  }

  private static Entry face(int n, Random dice) {
    List<Word> words = new ArrayList<>();
    List<Entry.Name> names = new ArrayList<>();
    List<Entry.YearSpan> years = new ArrayList<>();
    for (int person = 0; person < 2; person++) {
      words.add(Word.sure("In"));
      words.add(Word.sure("memory"));
      words.add(Word.sure("of"));
      words.add(Word.sure(one(GIVEN, dice)));
      words.add(surname(dice));
      names.add(new Entry.Name(words.size() - 2, words.size() - 1, List.of()));
      words.add(Word.sure("who"));
      words.add(Word.sure("died"));
      int year = 1700 + dice.nextInt(200);
      words.add(Word.sure(Integer.toString(year)));
      years.add(new Entry.YearSpan(year, year, 1, "died", Integer.toString(year)));
    }
    String number = Integer.toString(n);
    return new Entry(
        number,
        number,
        List.of(new Entry.Face(number, "front", "", words.size())),
        words,
        names,
        years,
        List.of(),
        List.of(),
        Map.of());
  }

  private static Word surname(Random dice) {
    String name = one(SYLLABLES, dice) + one(SYLLABLES, dice) + one(ENDINGS, dice);
    List<Cell> cells = new ArrayList<>(Cell.sureLetters(name));
    if (dice.nextInt(5) == 0) {
      int lost = dice.nextInt(cells.size());
      cells.set(lost, new Cell.Unknown(1, 1));
      int doubtful = dice.nextInt(cells.size());
      cells.set(doubtful, new Cell.OneOf(Map.of("e", .5, "c", .5)));
    }
    return Word.of(name, List.of(cells));
  }

  private static String one(List<String> of, Random dice) {
    return of.get(dice.nextInt(of.size()));
  }
}
