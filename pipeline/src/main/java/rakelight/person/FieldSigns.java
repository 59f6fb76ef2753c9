package rakelight.person;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import rakelight.inscription.Break;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.inscription.Space;
import rakelight.person.calendar.CalendarChange;
import rakelight.person.calendar.MonthName;

/**
 * The letters of a reading that matter most: those of names and dates. Rather too many than too
 * few: every word that says a name, date or age to {@link Statements}, that holds a figure, is a
 * month, has a letter nobody has named, or is capitalised on a line too short for verse; but never
 * one of the {@link PlainWords}.
 */
public final class FieldSigns {
  /** Longer lines are prose or verse, in which a capital says little; from practice, no source. */
  private static final int SHORT_LINE_WORDS = 4;

  private FieldSigns() {}

  public static Set<SignId> of(Inscription inscription) {
    Set<SignId> fields = new HashSet<>();
    for (Statement statement : Statements.of(inscription, CalendarChange.BRITISH)) {
      if (statement.isDate()
          || statement.kind() == Statement.Kind.NAME
          || statement.kind() == Statement.Kind.AGE) {
        fields.addAll(statement.signs());
      }
    }
    for (List<Sign> line : inscription.lines()) {
      List<List<Sign>> words = words(line);
      for (List<Sign> word : words) {
        if (isPlain(word)) {
          word.forEach(sign -> fields.remove(sign.id()));
        } else if (mayBeField(word, words.size() <= SHORT_LINE_WORDS)) {
          word.forEach(sign -> fields.add(sign.id()));
        }
      }
    }
    return fields;
  }

  private static boolean isPlain(List<Sign> word) {
    return word.stream().noneMatch(Gap.class::isInstance) && PlainWords.contains(text(word));
  }

  private static boolean mayBeField(List<Sign> word, boolean shortLine) {
    String text = text(word);
    return word.stream().anyMatch(Gap.class::isInstance)
        || text.chars().anyMatch(Character::isDigit)
        || MonthName.parse(text).isPresent()
        || (shortLine && Character.isUpperCase(text.codePointAt(0)));
  }

  private static String text(List<Sign> word) {
    StringBuilder text = new StringBuilder();
    for (Sign sign : word) {
      text.append(sign instanceof Letter letter ? letter.text() : "");
    }
    return text.toString();
  }

  private static List<List<Sign>> words(List<Sign> line) {
    List<List<Sign>> words = new ArrayList<>();
    List<Sign> word = new ArrayList<>();
    for (Sign sign : line) {
      if (sign instanceof Space || sign instanceof Break) {
        word = new ArrayList<>();
      } else {
        if (word.isEmpty()) {
          words.add(word);
        }
        word.add(sign);
      }
    }
    return words;
  }
}
