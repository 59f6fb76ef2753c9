package rakelight.publish;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.person.MentionId;

/**
 * Somebody's decision that something is kept from whatever is published.
 *
 * @param reason why, in words; never published
 * @param askedBy who asked for it; never published
 * @param on the day it was asked for or ruled; an edition of an earlier day withholds it too
 * @param decision the decision it follows from; undoing that lets it be told again
 */
public record Withholding(
    Subject subject,
    Cause cause,
    String reason,
    Optional<String> askedBy,
    LocalDate on,
    String reader,
    DecisionId decision) {

  /** What is withheld. */
  public sealed interface Subject {
    /**
     * What sort of thing it is: {@code marker}, {@code face}, {@code photograph}, {@code person}.
     */
    String noun();

    /** What the journal takes it to be about: for a person, the face on which he is named. */
    UUID uuid();

    /** A marker with all its faces, or, where only photographs are meant, these. */
    record OfMarker(MarkerId id) implements Subject {
      @Override
      public String noun() {
        return "marker";
      }

      @Override
      public UUID uuid() {
        return id.value();
      }
    }

    /** One face of a marker, or its photographs. */
    record OfFace(FaceId id) implements Subject {
      @Override
      public String noun() {
        return "face";
      }

      @Override
      public UUID uuid() {
        return id.value();
      }
    }

    /** One photograph. */
    record OfPhotograph(PhotographId id) implements Subject {
      @Override
      public String noun() {
        return "photograph";
      }

      @Override
      public UUID uuid() {
        return id.value();
      }
    }

    /** A person: this mention, and those that people have said are of the same person. */
    record OfPerson(MentionId mention) implements Subject {
      @Override
      public String noun() {
        return "person";
      }

      @Override
      public UUID uuid() {
        return mention.face().value();
      }
    }
  }

  /** On what ground. */
  public enum Cause {
    FAMILY("wish of the family"),
    KEEPER("wish of the keeper"),
    RULE("rule of the ground"),
    TAKEN_DOWN("taken down"),
    NO_PERMISSION("no permission to photograph");

    private final String words;

    Cause(String words) {
      this.words = words;
    }

    /** As commands and documents write it: {@code taken-down}. */
    public String label() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** As people and published files have it. */
    public String words() {
      return words;
    }

    /** Whether it keeps photographs back and leaves the reading to be told. */
    public boolean isOfPhotographs() {
      return this == NO_PERMISSION;
    }

    /** Whether it can be said of a person; stones and photographs are taken down, persons not. */
    public boolean fitsPersons() {
      return this != TAKEN_DOWN && this != NO_PERMISSION;
    }

    /** The cause with this label, if there is one. */
    public static Optional<Cause> of(String label) {
      return Arrays.stream(values()).filter(cause -> cause.label().equals(label)).findFirst();
    }
  }
}
