package rakelight.publish;

import java.util.List;
import java.util.Optional;
import rakelight.ground.MarkerPosition;
import rakelight.ground.RowPlace;
import rakelight.marker.ConditionNote;
import rakelight.marker.Description;
import rakelight.marker.EmblemNote;
import rakelight.marker.Marker;

/**
 * A marker as an edition tells it, beside what its faces say.
 *
 * @param description what it is; {@link Description#NONE} where nobody has said
 * @param condition what was seen on the newest day
 * @param emblems in order of the notes; outlines only on photographs that are told
 * @param plots whose boundary it lies in
 */
public record ToldMarker(
    Marker marker,
    Description description,
    Optional<ConditionNote> condition,
    List<EmblemNote> emblems,
    Optional<MarkerPosition> position,
    Optional<RowPlace> row,
    List<String> plots) {
  public ToldMarker {
    emblems = List.copyOf(emblems);
    plots = List.copyOf(plots);
  }
}
