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
    if (!mayFit(signs, word)) {
      return 0;
    }
    int gap = places.gap();
    if (gap < 0) {
      return LetterAlignment.of(places, word, Channel.NONE);
    }
    int behind = signs.length - 1 - gap;
    if (gap + behind > word.length) {
      return 0;
    }
    double fit = 1;
    for (int i = 0; i < gap && fit > 0; i++) {
      fit *= fit(places.array()[i], word[i]);
    }
    for (int i = 0; i < behind && fit > 0; i++) {
      fit *= fit(places.array()[gap + 1 + i], word[word.length - behind + i]);
    }
    return fit;
  }

  private static double fit(Skeleton.Slot slot, int letter) {
    if (slot instanceof Skeleton.Known known) {
      return known.letter() == letter ? 1 : 0;
    }
    double share = 1;
    if (slot instanceof Skeleton.OneOf oneOf) {
      share = 0;
      for (int j = 0; j < oneOf.texts().length; j++) {
        share = oneOf.texts()[j][0] == letter ? oneOf.weights()[j] : share;
      }
    }
    return share;
  }

  /** As {@link LetterAlignment#of} with nothing misread. */
  static double fit(List<Skeleton.Slot> slots, int[] word) {
    if (slots.size() != word.length) {
      return 0;
    }
    double fit = 1;
    for (int i = 0; i < word.length && fit > 0; i++) {
      fit *= fit(slots.get(i), word[i]);
    }
    return fit;
  }
}
