package rakelight.person;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.names.GivenNames;

/**
 * Finds kinship at a place in the words of a reading: {@code wife of}, {@code his wife}, {@code
 * infant son of A. & B.} with the names that follow.
 */
final class KinWords {
  /**
   * Kinship found.
   *
   * @param end the word after it
   * @param relation folded, {@code daughter} for its short forms
   * @param named words of those named, as carved; empty for {@code his wife}
   * @param names the same, {@code given|surname} each
   * @param possessor {@code his}, {@code her}, {@code their} or empty
   * @param above whether those before are meant: {@code the above}
   */
  record Found(
      int end, String relation, String named, List<String> names, String possessor, boolean above) {
    boolean isPlural() {
      return PersonWords.PLURALS.contains(relation);
    }
  }

  private final List<CarvedWord> words;
  private final DateWords dates;

  KinWords(List<CarvedWord> words, DateWords dates) {
    this.words = words;
    this.dates = dates;
  }

  Optional<Found> at(int start) {
    int i = start;
    String possessor = "";
    while (i < words.size() && PersonWords.KIN_BEFORE.contains(words.get(i).folded())) {
      possessor = words.get(i).is("his", "her", "their") ? words.get(i).folded() : possessor;
      i++;
    }
    boolean onlyBefore = i > start && words.get(i - 1).is("infant") && !isKin(i);
    i -= onlyBefore ? 1 : 0;
    if (!isKin(i)) {
      return Optional.empty();
    }
    String relation = relation(words.get(i).folded());
    int end = i + 1;
    if (end < words.size() && words.get(end).is("of")) {
      int to = namesEnd(end + 1);
      String named = text(end + 1, to).replaceAll("[,;.]+$", "");
      boolean above =
          words.subList(end + 1, to).stream().anyMatch(w -> w.is("above", "aforesaid", "said"));
      return Optional.of(new Found(to, relation, named, names(end + 1, to), "", above));
    }
    boolean unnamed = i > start && words.get(i - 1).is("infant");
    return possessor.isEmpty() && !unnamed
        ? Optional.empty()
        : Optional.of(new Found(end, relation, "", List.of(), possessor, false));
  }

  boolean isAhead(int start) {
    int i = start;
    while (i < words.size() && PersonWords.KIN_BEFORE.contains(words.get(i).folded())) {
      i++;
    }
    return isKin(i);
  }

  private boolean isKin(int i) {
    return i < words.size() && PersonWords.KIN.contains(words.get(i).folded());
  }

  private static String relation(String folded) {
    if (folded.startsWith("dau") && !folded.endsWith("s")) {
      return "daughter";
    }
    return switch (folded) {
      case "relick" -> "relict";
      case "wifes" -> "wife";
      default -> folded;
    };
  }

  private int namesEnd(int from) {
    int end = from;
    while (end < words.size()) {
      CarvedWord word = words.get(end);
      boolean link =
          word.is("&", "and", "the", "ye", "late", "above", "said", "aforesaid")
              && !word.endsWith(",");
      boolean name =
          word.isCapitalised()
              && !PersonWords.NEVER_A_NAME.contains(word.folded())
              && word.folded().matches("[a-z?]+");
      if (!link && !name) {
        break;
      }
      if (name && dates.at(end).isPresent()) {
        break;
      }
      boolean endsPhrase = word.endsWith(".") && word.folded().length() > 5;
      boolean otherKin = link && end + 1 < words.size() && isAhead(end + 1);
      if (otherKin && !word.is("the", "ye", "late", "above", "said", "aforesaid")) {
        break;
      }
      end++;
      if (word.endsWith(",") || endsPhrase) {
        break;
      }
      boolean complete =
          name
              && end - from >= 2
              && !words.get(end - 2).is("&", "and", "late", "above", "said")
              && !PersonWords.TITLES.contains(words.get(end - 2).folded())
              && !words.get(end - 2).isInitial();
      boolean goesOn = end < words.size() && words.get(end).is("&", "and");
      if (complete && !goesOn && end < words.size() && words.get(end).line() != word.line()) {
        break;
      }
    }
    while (end > from + 1 && words.get(end - 1).is("&", "and")) {
      end--;
    }
    return Math.max(end, Math.min(from + 1, words.size()));
  }

  /** The names of a run of words, parted by {@code &}; the last surname serves those before. */
  private List<String> names(int from, int to) {
    List<List<String>> people = new ArrayList<>(List.of(new ArrayList<>()));
    boolean titled = false;
    for (int i = from; i < to; i++) {
      CarvedWord word = words.get(i);
      if (word.is("&", "and")) {
        people.add(new ArrayList<>());
      } else if (PersonWords.TITLES.contains(word.folded())) {
        titled = true;
      } else if (!word.is("the", "ye", "late", "above", "said", "aforesaid")
          && !PersonWords.SUFFIXES.contains(word.folded())
          && word.folded().matches("[a-z?]+")) {
        people.get(people.size() - 1).add(titleCase(word.folded()));
      }
    }
    people.removeIf(List::isEmpty);
    List<String> names = new ArrayList<>();
    String surname = "";
    for (int p = people.size() - 1; p >= 0; p--) {
      List<String> parts = people.get(p);
      String last = parts.get(parts.size() - 1);
      boolean given =
          last.length() == 1 || GivenNames.known().isKnown(last.toLowerCase(Locale.ROOT));
      boolean hasSurname = parts.size() > 1 ? !(given && p < people.size() - 1) : titled && !given;
      if (hasSurname) {
        surname = last;
        parts = parts.subList(0, parts.size() - 1);
      }
      names.add(0, String.join(" ", parts) + "|" + surname);
    }
    return names;
  }

  private String text(int from, int to) {
    return String.join(" ", words.subList(from, to).stream().map(CarvedWord::shown).toList());
  }

  /** A folded word with a capital in front. */
  static String titleCase(String folded) {
    return folded.isEmpty()
        ? ""
        : folded.substring(0, 1).toUpperCase(Locale.ROOT) + folded.substring(1);
  }
}
