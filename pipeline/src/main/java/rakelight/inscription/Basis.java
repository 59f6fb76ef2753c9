package rakelight.inscription;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.time.LocalDate;
import java.util.Optional;

/**
 * What a reading was read from.
 *
 * @param date when it was read at the stone, or when the earlier witness saw it
 * @param light how the light fell, in the reader's words
 * @param witness the earlier witness: an old list, a rubbing, a register; always named for {@link
 *     Kind#EARLIER}
 */
public record Basis(
    Kind kind, Optional<LocalDate> date, Optional<String> light, Optional<String> witness) {

  /** Where the reader looked. */
  public enum Kind {
    @JsonProperty("stone")
    STONE,
    @JsonProperty("photographs")
    PHOTOGRAPHS,
    @JsonProperty("earlier")
    EARLIER;

    /** As commands and documents write it. */
    public String label() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }

    /** The kind with this label, if there is one. */
    public static Optional<Kind> of(String label) {
      for (Kind kind : values()) {
        if (kind.label().equals(label)) {
          return Optional.of(kind);
        }
      }
      return Optional.empty();
    }
  }

  public static final Basis FROM_PHOTOGRAPHS =
      new Basis(Kind.PHOTOGRAPHS, Optional.empty(), Optional.empty(), Optional.empty());

  /**
   * @throws IllegalArgumentException if an earlier witness isn't named, or one is named for what
   *     was read without him
   */
  public Basis {
    if (kind == Kind.EARLIER && witness.filter(name -> !name.isBlank()).isEmpty()) {
      throw new IllegalArgumentException(
          "a reading from an earlier witness names it: a list, a rubbing, a register (--witness)");
    }
    if (kind != Kind.EARLIER && witness.isPresent()) {
      throw new IllegalArgumentException(
          "a witness goes with --basis earlier, not with --basis " + kind.label());
    }
  }
}
