package rakelight.marker;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * The words for a marker's condition. Those for decay are terms of ICOMOS-ISCS, Illustrated
 * Glossary on Stone Deterioration Patterns (Monuments and Sites XV, 2008), put as one sees them:
 * crack, delamination, granular disintegration (of marble: sugaring), scaling, erosion, crust,
 * biological colonization. Those for how a marker stands are common words of the trade, no source.
 */
public enum Condition {
  SOUND(Concern.NONE, "stands upright, its surface whole"),
  LEANING(Concern.UNSAFE, "out of upright"),
  LOOSE(Concern.UNSAFE, "a joint is open, or it was seen to move"),
  BROKEN(Concern.UNSAFE, "in two or more pieces"),
  FALLEN(Concern.UNSAFE, "lies, wholly or in part"),
  SUNKEN(Concern.NONE, "part of it has gone into the ground"),
  CRACKED(Concern.FADING, "a break shows as a line"),
  DELAMINATING(Concern.FADING, "splits along its own layers"),
  SUGARING(Concern.FADING, "grains come loose"),
  SCALING(Concern.FADING, "plates come off that don't follow its layers"),
  ERODING(Concern.FADING, "the surface goes, letters turn round and flat"),
  CRUST(Concern.NONE, "a hard layer lies on the surface"),
  BIOLOGICAL_GROWTH(Concern.NONE, "algae, lichen, moss, mould or plants"),
  REPAIRED(Concern.NONE, "mended earlier; say with what"),
  ILLEGIBLE(Concern.NONE, "no letter can be made out");

  /** What a word warns of. */
  public enum Concern {
    NONE,
    /** It may hurt whoever stands beside it. */
    UNSAFE,
    /** Its letters are going: it is to be recorded soon. */
    FADING
  }

  private final Concern concern;
  private final String meaning;

  Condition(Concern concern, String meaning) {
    this.concern = concern;
    this.meaning = meaning;
  }

  public Concern concern() {
    return concern;
  }

  /** What it means, in a few words. */
  public String meaning() {
    return meaning;
  }

  /** As people write it: {@code biological growth}. */
  public String label() {
    return name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  /** The word of a label, in whatever case. */
  public static Optional<Condition> of(String label) {
    return Arrays.stream(values())
        .filter(word -> word.label().equalsIgnoreCase(label.strip()))
        .findFirst();
  }
}
