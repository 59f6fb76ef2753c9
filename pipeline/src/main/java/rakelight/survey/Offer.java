package rakelight.survey;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import rakelight.archive.FaceId;
import rakelight.photo.Photograph;

/**
 * A face that a photograph may show, and what speaks for it. Only ever proposed.
 *
 * @param beside the placed photograph to look at beside it: the most alike, else the nearest in
 *     time
 * @param places how many places of the two look alike and lie alike; 0 where none do
 * @param letters how far the letters read on it are those of the face, 0 to 1; empty where not both
 *     have been read
 * @param secondsApart from it to the nearest photograph of the face by the clocks; empty where no
 *     near one has a time
 * @param sure whether nothing else comes near, so that it may be chosen beforehand; a person still
 *     looks at both
 */
public record Offer(
    FaceId face,
    Photograph beside,
    int places,
    Optional<Double> letters,
    OptionalLong secondsApart,
    boolean sure) {
  /** What letters wholly alike are worth in places; a choice, measured on no set yet. */
  private static final double LETTERS_IN_PLACES = 20;

  /** What speaks for it beside the time, in places that agree. */
  double weight() {
    return places + LETTERS_IN_PLACES * letters.orElse(0.0);
  }

  /** The same, said to be sure or not. */
  Offer said(boolean isSure) {
    return new Offer(face, beside, places, letters, secondsApart, isSure);
  }

  /** What speaks for it, for a person. */
  public String why() {
    List<String> reasons = new ArrayList<>();
    if (places > 0) {
      reasons.add(places == 1 ? "1 place agrees" : places + " places agree");
    }
    letters.ifPresent(
        share -> reasons.add(String.format(Locale.ROOT, "letters %.0f %% alike", 100 * share)));
    secondsApart.ifPresent(seconds -> reasons.add(seconds + " s apart"));
    return String.join(", ", reasons);
  }
}
