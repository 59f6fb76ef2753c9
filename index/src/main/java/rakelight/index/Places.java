package rakelight.index;

import java.util.List;

/**
 * A {@link Skeleton} taken apart.
 *
 * @param fixed whether each place is one letter
 * @param clear whether every letter was plainly read
 */
record Places(Skeleton skeleton, List<Skeleton.Slot> slots, boolean fixed, boolean clear) {
  Places {
    slots = List.copyOf(slots);
  }

  static Places of(Skeleton skeleton) {
    List<Skeleton.Slot> slots = skeleton.slots();
    return new Places(skeleton, slots, Fixed.isFixed(slots), skeleton.isClear());
  }

  /** Whether anything of it is known, if only as one of several. */
  boolean hasLetters() {
    for (Skeleton.Slot slot : slots) {
      if (slot instanceof Skeleton.Known || slot instanceof Skeleton.OneOf) {
        return true;
      }
    }
    return false;
  }
}
