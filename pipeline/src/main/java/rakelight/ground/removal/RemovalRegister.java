package rakelight.ground.removal;

import java.util.List;
import java.util.Map;
import rakelight.archive.DecisionId;
import rakelight.archive.SourceId;
import rakelight.person.RowsOfSource;

/**
 * A register of removals that was taken in.
 *
 * @param sourceNumber how people name the source
 * @param title of the source
 * @param file its name
 * @param columns by field, the column of the file it was taken from, so that another register can
 *     be taken in alike
 * @param stated figures that the register itself gives for its sums
 * @param decision by which it was taken in
 */
public record RemovalRegister(
    SourceId source,
    long sourceNumber,
    String title,
    String file,
    Map<String, String> columns,
    List<Stated> stated,
    List<Removal> rows,
    DecisionId decision)
    implements RowsOfSource<Removal> {

  /**
   * A figure that a register gives itself, such as the total at its foot.
   *
   * @param oldGround which of its grounds it is of
   */
  public record Stated(String oldGround, RemovalFigure figure, int count) {}

  public RemovalRegister {
    columns = Map.copyOf(columns);
    stated = List.copyOf(stated);
    rows = List.copyOf(rows);
  }

  @Override
  public int numberOf(Removal row) {
    return row.number();
  }
}
