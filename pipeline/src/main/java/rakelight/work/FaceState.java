package rakelight.work;

import java.util.Optional;
import rakelight.inscription.FaceReadings;

/** How far a face is, in the order a ground works through them. */
public enum FaceState {
  NO_PHOTOGRAPH("no-photograph"),
  OTHER_LIGHT("other-light"),
  OPEN("open"),
  BEGUN("begun"),
  ONCE_READ("once-read"),
  TO_SETTLE("to-settle"),
  SETTLED("settled");

  private final String label;

  FaceState(String label) {
    this.label = label;
  }

  /** As the interface writes it. */
  public String label() {
    return label;
  }

  static FaceState of(
      FaceReadings.State read, boolean begun, Optional<LeftFace> left, boolean photographed) {
    if (read == FaceReadings.State.SETTLED) {
      return SETTLED;
    }
    if (left.filter(face -> face.why() == LeftFace.Why.OTHER_LIGHT).isPresent()) {
      return OTHER_LIGHT;
    }
    return switch (read) {
      case TO_SETTLE -> TO_SETTLE;
      case ONCE_READ -> ONCE_READ;
      case UNREAD, SETTLED -> begun ? BEGUN : photographed ? OPEN : NO_PHOTOGRAPH;
    };
  }
}
