package rakelight.desk;

import java.util.List;
import rakelight.inscription.Draft;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Suggestion;
import rakelight.photo.Face;
import rakelight.reading.Proposal;

/**
 * How much doubt a proposal leaves.
 *
 * @param letters doubtful letters
 * @param fieldLetters those of them that may belong to a name or a date
 * @param bits the doubt in all letters
 * @param fieldBits the doubt in letters of names and dates
 */
record Doubt(int letters, int fieldLetters, double bits, double fieldBits) {
  static final Doubt NONE = new Doubt(0, 0, 0, 0);

  /** The doubt of a proposal nobody has worked on. */
  static Doubt of(Face face, Proposal proposal) {
    List<Suggestion> shown = Suggestion.of(proposal);
    Work work =
        new Work(
            face,
            "",
            Work.Task.LOOK,
            "",
            false,
            Draft.begin(shown, java.util.Optional.of(proposal.id())),
            java.util.Optional.of(proposal),
            shown,
            new FaceReadings(List.of(), 1, false));
    int letters = 0;
    int fieldLetters = 0;
    double bits = 0;
    double fieldBits = 0;
    for (List<Place> line : Place.of(work)) {
      for (Place place : line) {
        double doubt = place.slot().map(Place::entropyBits).orElse(0.0);
        bits += doubt;
        fieldBits += place.field() ? doubt : 0;
        letters += place.isDoubtful() ? 1 : 0;
        fieldLetters += place.isDoubtful() && place.field() ? 1 : 0;
      }
    }
    return new Doubt(letters, fieldLetters, bits, fieldBits);
  }
}
