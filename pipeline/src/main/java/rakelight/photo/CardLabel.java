package rakelight.photo;

/**
 * What a field card says: the marker and the face whose photographs follow.
 *
 * @param markerNumber not blank
 * @param faceName not blank
 */
public record CardLabel(String markerNumber, String faceName) {
  /**
   * @throws IllegalArgumentException if either is blank
   */
  public CardLabel {
    if (markerNumber.isBlank() || faceName.isBlank()) {
      throw new IllegalArgumentException("a card needs a marker number and a face");
    }
  }
}
