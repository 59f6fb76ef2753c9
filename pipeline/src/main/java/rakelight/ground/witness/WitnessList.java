package rakelight.ground.witness;

import java.util.List;
import java.util.Map;
import rakelight.archive.DecisionId;
import rakelight.archive.SourceId;
import rakelight.person.RowsOfSource;

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
    DecisionId decision)
    implements RowsOfSource<WitnessRow> {
  public WitnessList {
    columns = Map.copyOf(columns);
    rows = List.copyOf(rows);
  }

  @Override
  public int numberOf(WitnessRow row) {
    return row.number();
  }
}
