package rakelight.index;

import java.util.List;

/** Skeletons each of whose places is one letter, for which no alignment is needed. */
final class Fixed {
  private Fixed() {}

  static boolean isFixed(List<Skeleton.Slot> slots) {
    for (Skeleton.Slot slot : slots) {
      boolean one =
          slot instanceof Skeleton.Known
              || (slot instanceof Skeleton.Unknown unknown && unknown.sure())
              || (slot instanceof Skeleton.OneOf oneOf && isSingle(oneOf));
      if (!one) {
        return false;
      }
    }
    return true;
  }

  private static boolean isSingle(Skeleton.OneOf oneOf) {
    for (int[] text : oneOf.texts()) {
      if (text.length != 1) {
        return false;
      }
    }
    return true;
  }

  /** Whether the known letters at both ends are those of the word; quick, for what can't fit. */
  static boolean mayFit(int[] signs, int[] word) {
    int least = 0;
    for (int sign : signs) {
      least += sign >= 0 ? 1 : 0;
    }
    if (least > word.length) {
      return false;
    }
    for (int i = 0; i < signs.length && signs[i] >= 0; i++) {
      if (signs[i] != word[i]) {
        return false;
      }
    }
    int end = signs.length - 1;
    for (int i = 0; i <= end && signs[end - i] >= 0; i++) {
      if (signs[end - i] != word[word.length - 1 - i]) {
        return false;
      }
    }
    return true;
  }

  /** As {@link LetterAlignment#of} with nothing misread, whatever the places are. */
  static double anyFit(Places places, int[] word) {
    int[] signs = places.signs();
    if (places.fixed()) {
      if (signs.length != word.length) {
        return 0;
      }
      for (int i = 0; i < word.length; i++) {
        if (signs[i] >= 0 && signs[i] != word[i]) {
          return 0;
        }
      }
      return fit(places.slots(), word);
    }
    return mayFit(signs, word) ? LetterAlignment.of(places, word, Channel.NONE) : 0;
  }

  /** As {@link LetterAlignment#of} with nothing misread. */
  static double fit(List<Skeleton.Slot> slots, int[] word) {
    if (slots.size() != word.length) {
      return 0;
    }
    double fit = 1;
    for (int i = 0; i < word.length && fit > 0; i++) {
      Skeleton.Slot slot = slots.get(i);
      if (slot instanceof Skeleton.Known known) {
        fit = known.letter() == word[i] ? fit : 0;
      } else if (slot instanceof Skeleton.OneOf oneOf) {
        double share = 0;
        for (int j = 0; j < oneOf.texts().length; j++) {
          share = oneOf.texts()[j][0] == word[i] ? oneOf.weights()[j] : share;
        }
        fit *= share;
      }
    }
    return fit;
  }
}
