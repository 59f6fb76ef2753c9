package rakelight.samples;

import java.util.Set;

/**
 * The physical side of a face.
 *
 * @param widthMm width of the face, 100 to 3000
 * @param heightMm height above the ground, 100 to 3000
 * @param made year of cutting; early stones are cut by less even hands
 * @param finish words: {@code polished} (dark mirror granite with frosted letters), {@code painted}
 *     (black paint in the cuts, partly gone), {@code gilded}, {@code border} (a margin line),
 *     {@code base} (stands on a plinth), {@code mossy}, {@code lichen}, {@code cracked}, {@code
 *     clean}
 */
public record Stone(
    Material material,
    StoneForm form,
    Weathering weathering,
    Cut cut,
    Typeface typeface,
    Emblem emblem,
    double widthMm,
    double heightMm,
    int made,
    Set<String> finish) {
  public Stone {
    finish = Set.copyOf(finish);
    if (!(widthMm >= 100 && widthMm <= 3000 && heightMm >= 100 && heightMm <= 3000)) {
      throw new IllegalArgumentException(
          "Stone of " + widthMm + " x " + heightMm + " mm: sides must be 100 to 3000 mm");
    }
  }

  boolean has(String word) {
    return finish.contains(word);
  }

  /** A slab that lies on the ground and is read from above. */
  public boolean lying() {
    return form == StoneForm.LEDGER;
  }
}
