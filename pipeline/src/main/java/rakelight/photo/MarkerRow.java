package rakelight.photo;

import java.util.List;
import rakelight.archive.MarkerId;

/**
 * A marker as a list shows it.
 *
 * @param number its present number
 * @param earlierNumbers those it had before, oldest first
 */
public record MarkerRow(MarkerId id, String number, List<String> earlierNumbers) {
  public MarkerRow {
    earlierNumbers = List.copyOf(earlierNumbers);
  }
}
