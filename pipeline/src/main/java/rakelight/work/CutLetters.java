package rakelight.work;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.inscription.Draft;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.Reading;
import rakelight.inscription.SignId;
import rakelight.publish.LetterPlaces;
import rakelight.reading.Proposal;

/**
 * Where on a photograph the letters of a signed reading stand, as far as the proposal shows it that
 * the reading was made from, or the newest one.
 */
public final class CutLetters implements LetterPlaces {
  private final Faces faces;
  private final Sight sight;

  public CutLetters(Archive archive, Faces faces) {
    this.faces = faces;
    this.sight = new Sight(archive);
  }

  /**
   * A letter, or one of the letters of a gap.
   *
   * @param stretch where it stands; empty where no photograph shows it
   */
  public record At(SignId sign, Optional<Stretch> stretch) {}

  @Override
  public List<PlacedLetter> of(Reading standing) {
    List<PlacedLetter> placed = new ArrayList<>();
    for (List<At> line : lines(standing)) {
      for (At at : line) {
        at.stretch()
            .ifPresent(
                stretch ->
                    placed.add(
                        new PlacedLetter(
                            at.sign(),
                            stretch.on().photograph(),
                            stretch.box(),
                            stretch.reckoned())));
      }
    }
    return placed;
  }

  /** The letters of each line of the reading that stands; none where nothing is known of them. */
  public List<List<At>> lines(Reading standing) {
    Optional<Proposal> shown =
        standing
            .proposal()
            .flatMap(id -> faces.proposal(standing.face(), id))
            .or(() -> faces.newestProposal(standing.face()));
    return shown.map(proposal -> lines(standing, proposal)).orElse(List.of());
  }

  private List<List<At>> lines(Reading standing, Proposal proposal) {
    Draft draft =
        Faces.reopened(standing.inscription(), sight.shown(proposal), Optional.of(proposal));
    List<List<Place>> places =
        Place.of(draft, Optional.of(proposal), sight.shown(proposal), false, false);
    List<List<SignId>> signs = DraftEditing.signs(standing.inscription());
    List<List<At>> lines = new ArrayList<>();
    for (int i = 0; i < signs.size(); i++) {
      List<At> line = new ArrayList<>();
      if (i < places.size() && places.get(i).size() == signs.get(i).size()) {
        for (int j = 0; j < signs.get(i).size(); j++) {
          line.add(new At(signs.get(i).get(j), places.get(i).get(j).stretch()));
        }
      }
      lines.add(line);
    }
    return lines;
  }
}
