package rakelight.ground.witness;

import java.util.List;
import java.util.Map;
import rakelight.archive.DecisionId;
import rakelight.archive.SourceId;

/**
 * An earlier list.
 *
 * @param columns by field, the column of the file
 * @param called the name of that mapping; empty where it has none
 */
public record WitnessList(
    SourceId source,
    long sourceNumber,
    String title,
    String file,
    Map<String, String> columns,
    String called,
    List<WitnessRow> rows,
    DecisionId decision) {
  public WitnessList {
    columns = Map.copyOf(columns);
    rows = List.copyOf(rows);
  }

  /** How a row is named, such as {@code 5.3}. */
  public String place(WitnessRow row) {
    return sourceNumber + "." + row.number();
  }
}
