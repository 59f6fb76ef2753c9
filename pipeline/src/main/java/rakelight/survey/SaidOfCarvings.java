package rakelight.survey;

import java.util.Arrays;
import java.util.Optional;

/** What may be said of two carvings. */
public enum SaidOfCarvings {
  /** One thing is carved; of who cut it nothing is said. */
  SAME_MOTIF("same motif"),
  /** One thing, and cut by one carver. */
  SAME_HAND("same hand"),
  /** Neither. */
  NOT("not");

  private final String label;

  SaidOfCarvings(String label) {
    this.label = label;
  }

  public String label() {
    return label;
  }

  /** By its label. */
  public static Optional<SaidOfCarvings> labelled(String label) {
    return Arrays.stream(values()).filter(one -> one.label.equals(label)).findFirst();
  }
}
