package rakelight.reading;

import java.util.ArrayList;
import java.util.List;

/**
 * What a letter is part of, as far as a machine can guess: only used to ask first where an answer
 * matters most. Names and dates are what families search for and what nobody can supply later;
 * formulas and verse can be guessed.
 */
public enum Field {
  NAME(1),
  DATE(1),
  AGE(0.8),
  KIN(0.7),
  SERVICE(0.7),
  PLACE(0.6),
  VERSE(0.15),
  FORMULA(0.1);

  private final double weight;

  Field(double weight) {
    this.weight = weight;
  }

  /** How much a letter of it matters, 0 to 1; set by judgement. */
  public double weight() {
    return weight;
  }

  /**
   * The field of every slot of a line. A word that the lexicon knows is what the lexicon says; a
   * figure is a date, in a line that speaks of an age an age; any other word follows the line:
   * names beside a name or after a relation, dates beside a month, else verse where most known
   * words are verse or there are many, else a name.
   */
  static List<Field> of(LineLattice line, Lexicon lexicon) {
    List<Integer> wordOfSlot = new ArrayList<>();
    List<StringBuilder> words = new ArrayList<>(List.of(new StringBuilder()));
    for (Slot slot : line.slots()) {
      if (slot.best().equals(" ")) {
        words.add(new StringBuilder());
      } else {
        words.get(words.size() - 1).append(slot.best());
      }
      wordOfSlot.add(words.size() - 1);
    }
    List<String> kinds = words.stream().map(word -> kind(word.toString(), lexicon)).toList();
    Field unknown = ofUnknown(kinds);
    boolean age = kinds.contains("age");
    List<Field> ofWord = kinds.stream().map(kind -> ofKind(kind, age, unknown)).toList();
    return wordOfSlot.stream().map(ofWord::get).toList();
  }

  private static String kind(String word, Lexicon lexicon) {
    String folded = Lexicon.folded(word);
    return folded.chars().anyMatch(Character::isDigit) ? "figure" : lexicon.kind(folded);
  }

  private static Field ofUnknown(List<String> kinds) {
    if (kinds.contains("given") || kinds.contains("title") || kinds.contains("kin")) {
      return NAME;
    }
    if (kinds.contains("month") || kinds.contains("figure")) {
      return kinds.contains("age") ? AGE : DATE;
    }
    if (kinds.contains("service")) {
      return SERVICE;
    }
    long verse = kinds.stream().filter("verse"::equals).count();
    return kinds.size() >= 5 || 2 * verse > kinds.size() ? VERSE : NAME;
  }

  private static Field ofKind(String kind, boolean age, Field unknown) {
    return switch (kind) {
      case "given", "title", "suffix" -> NAME;
      case "month" -> DATE;
      case "figure" -> age ? AGE : DATE;
      case "age" -> AGE;
      case "kin" -> KIN;
      case "service" -> SERVICE;
      case "place" -> PLACE;
      case "verse" -> VERSE;
      case "formula", "passing" -> FORMULA;
      default -> unknown;
    };
  }
}
