package rakelight.ground;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import rakelight.inscription.Break;
import rakelight.inscription.Candidate;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.Space;
import rakelight.inscription.Standing;

/**
 * What a footstone bears, if that is what a face is: a few initials, or one word, and perhaps a
 * year.
 *
 * @param letters place by place, as {@link Footstone} has them
 * @param year figure by figure; may be empty
 */
record FootstoneReading(List<Map<Character, Double>> letters, List<Map<Character, Double>> year) {
  private static final int MOST_INITIALS = 4;
  private static final int LONGEST_WORD = 12;
  private static final int FIGURES = 4;

  /** What the letter named counts, where the reader says that it may be another; choices. */
  private static final double UNCLEAR = 0.6;

  private static final double SEEN_EARLIER = 0.9;

  /** Empty where the face says more than a footstone does. */
  static Optional<FootstoneReading> of(Inscription inscription) {
    List<List<Map<Character, Double>>> words = new ArrayList<>();
    boolean inWord = false;
    for (Sign sign : inscription.signs()) {
      boolean joins = sign instanceof Letter letter && isSign(letter) || sign instanceof Gap;
      if (sign instanceof Space
          || sign instanceof Break mark && !mark.joined()
          || sign instanceof Letter point && !isSign(point)) {
        inWord = false;
      }
      if (!joins) {
        continue;
      }
      if (!inWord) {
        words.add(new ArrayList<>());
        inWord = true;
      }
      List<Map<Character, Double>> word = words.get(words.size() - 1);
      if (sign instanceof Letter letter) {
        word.add(place(letter));
      } else if (sign instanceof Gap gap) {
        for (int i = 0; i < count(gap); i++) {
          word.add(Map.of());
        }
      }
    }
    words.removeIf(List::isEmpty);
    List<Map<Character, Double>> year = List.of();
    List<List<Map<Character, Double>>> others = new ArrayList<>();
    for (List<Map<Character, Double>> word : words) {
      boolean figures =
          word.size() == FIGURES
              && word.stream().flatMap(p -> p.keySet().stream()).anyMatch(Character::isDigit);
      if (figures && year.isEmpty()) {
        year = word;
      } else {
        others.add(word);
      }
    }
    List<Map<Character, Double>> letters = others.stream().flatMap(List::stream).toList();
    boolean initials = letters.size() <= MOST_INITIALS;
    boolean oneWord = others.size() == 1 && letters.size() <= LONGEST_WORD;
    boolean digits =
        letters.stream().flatMap(p -> p.keySet().stream()).anyMatch(Character::isDigit);
    return letters.isEmpty() || digits || !(initials || oneWord)
        ? Optional.empty()
        : Optional.of(new FootstoneReading(letters, year));
  }

  private static boolean isSign(Letter letter) {
    return Character.isLetterOrDigit(letter.text().codePointAt(0));
  }

  private static Map<Character, Double> place(Letter letter) {
    if (letter.standing() == Standing.SUPPLIED) {
      return Map.of();
    }
    Map<Character, Double> place = new HashMap<>();
    for (Candidate candidate : letter.candidates()) {
      place.merge(capital(candidate.text()), candidate.percent() / 100.0, Double::sum);
    }
    if (place.isEmpty()) {
      double share =
          switch (letter.standing()) {
            case CLEAR -> 1;
            case SEEN_EARLIER -> SEEN_EARLIER;
            case UNCLEAR, SUPPLIED -> UNCLEAR;
          };
      place.put(capital(letter.text()), share);
    }
    return place;
  }

  private static char capital(String text) {
    return text.toUpperCase(Locale.ROOT).charAt(0);
  }

  private static int count(Gap gap) {
    boolean letters =
        gap.unit() == Gap.Unit.LETTERS
            && (gap.reason() == Gap.Reason.LOST || gap.reason() == Gap.Reason.ILLEGIBLE);
    if (!letters) {
      return 0;
    }
    Extent extent = gap.extent();
    return extent instanceof Extent.Exact exact
        ? exact.count()
        : extent instanceof Extent.About about
            ? about.count()
            : extent instanceof Extent.Range range ? Math.max(1, range.atLeast()) : 1;
  }
}
