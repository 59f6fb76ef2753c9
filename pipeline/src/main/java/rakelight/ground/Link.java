package rakelight.ground;

import java.time.Instant;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;
import rakelight.person.MentionId;

/**
 * A link that a person confirmed, from a marker to another one or to a person.
 *
 * @param toMarker the other marker, for {@link Kind#FOOTSTONE_OF}
 * @param toWords the person, as the reader names him, for the other kinds
 * @param toPerson where that person is named on a stone, if the reader said so
 * @param note what speaks for it; may be empty
 * @param decision the decision it follows from; undoing that undoes the link
 */
public record Link(
    MarkerId from,
    Kind kind,
    Optional<MarkerId> toMarker,
    Optional<String> toWords,
    Optional<MentionId> toPerson,
    String note,
    String reader,
    Instant at,
    DecisionId decision) {

  /** What a marker has to do with what it is linked to. */
  public enum Kind {
    FOOTSTONE_OF,
    COMMEMORATED,
    BURIED_HERE,
    REMOVED_FROM,
    REBURIED,
    SAID_TO_BE;

    /** As commands and documents write it: {@code footstone of}. */
    public String label() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    /** The kind with this label; hyphens will do for its spaces. */
    public static Optional<Kind> of(String label) {
      String plain = label.strip().toLowerCase(Locale.ROOT).replace('-', ' ');
      return Arrays.stream(values()).filter(kind -> kind.label().equals(plain)).findFirst();
    }

    /** Whether it leads to a marker, not to a person. */
    public boolean leadsToMarker() {
      return this == FOOTSTONE_OF;
    }
  }
}
