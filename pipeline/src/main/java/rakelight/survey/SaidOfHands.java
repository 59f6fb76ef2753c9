package rakelight.survey;

import java.util.Arrays;
import java.util.Optional;

/** What may be said of who lettered two faces. */
public enum SaidOfHands {
  /** One cutter lettered both. */
  ONE("one hand"),
  /** Two cutters did. */
  TWO("other hands"),
  /** Somebody looked and can't say. */
  OPEN("can't tell");

  private final String label;

  SaidOfHands(String label) {
    this.label = label;
  }

  public String label() {
    return label;
  }

  /** By its label. */
  public static Optional<SaidOfHands> labelled(String label) {
    return Arrays.stream(values()).filter(one -> one.label.equals(label)).findFirst();
  }
}
