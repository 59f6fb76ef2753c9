package rakelight.publish;

import java.util.List;
import rakelight.archive.PhotographId;
import rakelight.inscription.Reading;
import rakelight.inscription.SignId;
import rakelight.picture.Polygon;

/** Says where on photographs the letters of a reading stand. */
@FunctionalInterface
public interface LetterPlaces {
  /** Nobody knows of any letter. */
  LetterPlaces UNKNOWN = reading -> List.of();

  /**
   * A letter on a photograph.
   *
   * @param outline four corners in its upright full-size pixels
   * @param reckoned whether the place was worked out from the letters beside it
   */
  record PlacedLetter(SignId sign, PhotographId photograph, Polygon outline, boolean reckoned) {}

  /** Those whose place is known, in reading order. */
  List<PlacedLetter> of(Reading reading);
}
