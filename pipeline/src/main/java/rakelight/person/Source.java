package rakelight.person;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import rakelight.archive.DecisionId;
import rakelight.archive.Sha256;
import rakelight.archive.SourceId;

/**
 * Evidence that isn't a photograph of the stone.
 *
 * @param number how people name it: S and the counter of the decision that recorded it
 * @param title what it calls itself
 * @param repository where it is kept; may be empty
 * @param reference its shelf mark or page; may be empty
 * @param consulted when it was seen
 * @param scans pictures or files of it, kept as originals
 */
public record Source(
    SourceId id,
    long number,
    Kind kind,
    String title,
    String repository,
    String reference,
    Optional<LocalDate> consulted,
    String note,
    String reader,
    List<Scan> scans,
    DecisionId decision) {

  /** What sort of evidence. */
  public enum Kind {
    REGISTER,
    ROLL,
    LETTER,
    OLD_LIST,
    RUBBING,
    OTHER;

    public String label() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    /** The kind with this label; hyphens will do for its spaces. */
    public static Optional<Kind> of(String label) {
      String plain = label.strip().toLowerCase(Locale.ROOT).replace('-', ' ');
      return Arrays.stream(values()).filter(kind -> kind.label().equals(plain)).findFirst();
    }

    /** All labels, for messages. */
    public static String labels() {
      return Arrays.stream(values()).map(Kind::label).collect(Collectors.joining(", "));
    }
  }

  /**
   * A file of it, byte for byte among the originals.
   *
   * @param extension of the original's name, lower case
   * @param originalName as it was called when it was given
   */
  public record Scan(Sha256 sha256, String extension, String originalName, long sizeBytes) {}

  public Source {
    scans = List.copyOf(scans);
  }

  /** How it is named to people, such as {@code source 5}; commands take the number. */
  public String label() {
    return "source " + number;
  }
}
