package rakelight.desk;

import java.util.Optional;
import java.util.Set;
import rakelight.inscription.FaceReadings;

/** How far a face is, in the order a ground works through them. */
enum FaceState {
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
  String label() {
    return label;
  }

  static FaceState of(
      FaceReadings readings, Set<String> drafting, Optional<LeftFace> left, boolean photographed) {
    if (readings.state() == FaceReadings.State.SETTLED) {
      return SETTLED;
    }
    if (left.filter(face -> face.why() == LeftFace.Why.OTHER_LIGHT).isPresent()) {
      return OTHER_LIGHT;
    }
    return switch (readings.state()) {
      case TO_SETTLE -> TO_SETTLE;
      case ONCE_READ -> ONCE_READ;
      default -> !drafting.isEmpty() ? BEGUN : photographed ? OPEN : NO_PHOTOGRAPH;
    };
  }
}
