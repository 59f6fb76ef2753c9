package rakelight.index;

import java.util.List;

/**
 * A {@link Skeleton} taken apart.
 *
 * @param array the same
 * @param signs for each place the letter that is known there, or one of the constants
 * @param fixed whether each place is one letter
 * @param gap where any number of letters is lost, if that is at one place and each other is one
 *     letter; else -1
 * @param clear whether every letter was plainly read
 */
record Places(
    Skeleton skeleton,
    List<Skeleton.Slot> slots,
    Skeleton.Slot[] array,
    int[] signs,
    boolean fixed,
    int gap,
    boolean clear) {
  /** A letter nobody can name. */
  static final int UNKNOWN = -1;

  /** A letter nobody can name, or none. */
  static final int MAYBE = -2;

  /** Any number of letters. */
  static final int MANY = -3;

  /** One of several texts. */
  static final int ONE_OF = -4;

  Places {
    slots = List.copyOf(slots);
    array = array.clone();
    signs = signs.clone();
  }

  static Places of(Skeleton skeleton) {
    List<Skeleton.Slot> slots = skeleton.slots();
    int[] signs = signs(slots);
    return new Places(
        skeleton,
        slots,
        slots.toArray(new Skeleton.Slot[0]),
        signs,
        Fixed.isFixed(slots),
        gap(slots, signs),
        skeleton.isClear());
  }

  private static int gap(List<Skeleton.Slot> slots, int[] signs) {
    int gap = -1;
    for (int i = 0; i < signs.length; i++) {
      if (signs[i] == MANY) {
        if (gap >= 0) {
          return -1;
        }
        gap = i;
      } else if (!Fixed.isFixed(slots.subList(i, i + 1))) {
        return -1;
      }
    }
    return gap;
  }

  /** By place: the letter that is known there, or one of the constants. */
  static int[] signs(List<Skeleton.Slot> slots) {
    int[] signs = new int[slots.size()];
    for (int i = 0; i < signs.length; i++) {
      Skeleton.Slot slot = slots.get(i);
      if (slot instanceof Skeleton.Known known) {
        signs[i] = known.letter();
      } else if (slot instanceof Skeleton.Unknown unknown) {
        signs[i] = unknown.sure() ? UNKNOWN : MAYBE;
      } else {
        signs[i] = slot instanceof Skeleton.Many ? MANY : ONE_OF;
      }
    }
    return signs;
  }

  /** Whether anything of it is known, if only as one of several. */
  boolean hasLetters() {
    for (int sign : signs) {
      if (sign >= 0 || sign == ONE_OF) {
        return true;
      }
    }
    return false;
  }
}
