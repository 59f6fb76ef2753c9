package rakelight.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import rakelight.index.Cell;
import rakelight.index.Entry;
import rakelight.index.Word;
import rakelight.samples.burials.Asking;
import rakelight.samples.burials.Burial;
import rakelight.samples.burials.CutSign;
import rakelight.samples.burials.InventedBurials;

/** Invented burials as the index takes them, and as text for other programs. */
final class GeneratedGround {
  private GeneratedGround() {}

  static Entry entry(InventedBurials burials, int number) {
    Burial burial = burials.burial(number);
    List<Word> words = burial.words().stream().map(GeneratedGround::word).toList();
    List<Entry.Name> names = new ArrayList<>();
    for (Burial.Person person : burial.persons()) {
      boolean lent = person.surnameWord() < person.first() || person.surnameWord() > person.last();
      names.add(
          new Entry.Name(
              person.first(),
              person.last(),
              lent && person.surnameWord() >= 0
                  ? List.of(words.get(person.surnameWord()))
                  : List.of()));
    }
    String text = shown(burial);
    return new Entry(
        id(number, 0),
        Integer.toString(number),
        List.of(new Entry.Face(id(number, 1), "front", text, words.size())),
        words,
        names,
        CarvedYears.of(words),
        List.of(),
        List.of(),
        Map.of());
  }

  /** As long as those of an archive. */
  private static String id(int number, int kind) {
    Random random = new Random(number * 2L + kind);
    return new UUID(random.nextLong(), random.nextLong()).toString();
  }

  private static Word word(List<CutSign> signs) {
    return Word.of(shown(signs), List.of(signs.stream().map(GeneratedGround::cell).toList()));
  }

  private static Cell cell(CutSign sign) {
    if (sign instanceof CutSign.Read read) {
      return Cell.sure(String.valueOf(read.letter()));
    }
    if (sign instanceof CutSign.Open open) {
      return new Cell.OneOf(
          Map.of(String.valueOf(open.likelier()), 0.6, String.valueOf(open.other()), 0.4));
    }
    return sign instanceof CutSign.Lost ? new Cell.Unknown(1, 1) : new Cell.Unknown(0, Cell.MANY);
  }

  private static String shown(Burial burial) {
    StringBuilder text = new StringBuilder();
    burial.words().forEach(word -> text.append(text.isEmpty() ? "" : " ").append(shown(word)));
    return text.toString();
  }

  private static String shown(List<CutSign> signs) {
    StringBuilder shown = new StringBuilder();
    for (CutSign sign : signs) {
      if (sign instanceof CutSign.Read read) {
        shown.append(read.letter());
      } else if (sign instanceof CutSign.Open open) {
        shown.append('(').append(open.likelier()).append(" or ").append(open.other()).append(')');
      } else {
        shown.append(sign instanceof CutSign.Lost ? "[.]" : "[- - -]");
      }
    }
    return shown.toString();
  }

  /**
   * As a program has it that knows nothing of doubt: the likelier letter, and for each that is lost
   * a sign that costs one edit.
   */
  static String plain(Burial burial) {
    StringBuilder text = new StringBuilder();
    for (List<CutSign> word : burial.words()) {
      text.append(text.isEmpty() ? "" : " ");
      for (CutSign sign : word) {
        if (sign instanceof CutSign.Read read) {
          text.append(read.letter());
        } else {
          text.append(sign instanceof CutSign.Open open ? open.likelier() : '_');
        }
      }
    }
    return text.toString();
  }

  static String query(Asking asking) {
    return asking.given() + " " + asking.surname() + " year:" + asking.from() + ".." + asking.to();
  }
}
