package rakelight.ground.removal;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** A figure of an account; each counts graves, and has the list of them behind it. */
public enum RemovalFigure {
  RECORDED("graves the register records"),
  MOVED("said to have been moved"),
  NOT_MOVED("not said to have been moved"),
  MARKED("marked by a stone here"),
  UNKNOWN("under a stone here that says “unknown”"),
  /** Part of {@link #UNKNOWN}. */
  NAMED_BY_REGISTER("under an “unknown” stone, named by the register"),
  UNACCOUNTED("unaccounted for"),
  ORIGINAL("with the original stone carried over"),
  REPLACEMENT("with a uniform replacement stone"),
  STONE_UNKNOWN("of whose stone the register says nothing");

  private final String words;

  RemovalFigure(String words) {
    this.words = words;
  }

  /** As commands and addresses write it. */
  public String label() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** What it counts, after the number. */
  public String words() {
    return words;
  }

  public static Optional<RemovalFigure> of(String label) {
    String plain = label.strip().toLowerCase(Locale.ROOT).replace('_', '-');
    return Arrays.stream(values()).filter(one -> one.label().equals(plain)).findFirst();
  }

  /** All labels, for messages. */
  public static String labels() {
    return Arrays.stream(values()).map(RemovalFigure::label).collect(Collectors.joining(", "));
  }
}
