package rakelight.ground.witness;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.archive.SourceId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.RowsOfSource;
import rakelight.person.Source;
import rakelight.person.SourceStore;

/** Earlier lists of the ground's stones, and what people said of which row speaks of which. */
public final class WitnessStore {
  /** Subject: the source. Rests on the decision that recorded it. */
  static final String LISTED = "witness.listed";

  /** Subject: the source. Rests on the listing and the marker. */
  static final String IS = "witness.is";

  static final String IS_NOT = "witness.is-not";

  private final Archive archive;

  /** Version 1 of the payload of {@link #LISTED}. */
  record Listed(
      String file,
      List<String> header,
      Map<String, String> columns,
      String called,
      List<WitnessRow> rows) {}

  /** Version 1 of the payload of {@link #IS} and {@link #IS_NOT}. */
  record Judged(int row, MarkerId marker, String note) {}

  /**
   * What somebody said of a row.
   *
   * @param is whether it speaks of the marker
   */
  public record Opinion(
      SourceId source, int row, MarkerId marker, boolean is, String reader, DecisionId decision) {}

  public WitnessStore(Archive archive) {
    this.archive = archive;
  }

  /** The state tables of this store. */
  public static Projection projection() {
    return new ListsStore();
  }

  /** Every list, in the order their sources were recorded. */
  public List<WitnessList> lists() {
    List<WitnessList> lists = new ArrayList<>();
    for (Source source : new SourceStore(archive).sources()) {
      archive
          .ledger()
          .read(
              handle ->
                  handle
                      .select("SELECT * FROM witness_list WHERE source = ?", source.id().toString())
                      .map(
                          (row, context) ->
                              new WitnessList(
                                  source.id(),
                                  source.number(),
                                  source.title(),
                                  row.getString("file"),
                                  Json.words(row.getString("columns")),
                                  row.getString("called"),
                                  rows(handle, source.id()),
                                  DecisionId.of(row.getString("decision_id"))))
                      .findOne())
          .ifPresent(lists::add);
    }
    return List.copyOf(lists);
  }

  private static List<WitnessRow> rows(Handle handle, SourceId source) {
    return handle
        .select("SELECT document FROM witness_row WHERE source = ? ORDER BY row", source.toString())
        .mapTo(String.class)
        .map(document -> Json.read(document, WitnessRow.class))
        .list();
  }

  /**
   * The list of a source such as {@code 5}, or of a row such as {@code 5.3}.
   *
   * @throws ArchiveException if none was taken in for it
   */
  public WitnessList list(String sourceNumber) {
    return RowsOfSource.of(
        lists(), sourceNumber, "There is no earlier list of source %s here. `witness` lists them.");
  }

  /** The newest mapping of columns of a name. */
  public Optional<Map<String, String>> mapping(String called) {
    return lists().stream()
        .filter(list -> !called.isEmpty() && list.called().equals(called))
        .reduce((earlier, later) -> later)
        .map(WitnessList::columns);
  }

  /**
   * Takes a list in.
   *
   * @param called the name by which its mapping of columns is found again; may be empty
   * @throws ArchiveException if one of this source is here already
   */
  public void take(Source source, String file, WitnessFile list, String called, String reader) {
    archive
        .ledger()
        .write(
            handle -> {
              RowsOfSource.requireNone(lists(), source, "list");
              return archive
                  .journal()
                  .append(
                      NewDecision.of(
                              reader,
                              LISTED,
                              1,
                              source.id().value(),
                              new Listed(
                                  file,
                                  list.header(),
                                  new TreeMap<>(list.columns()),
                                  called.strip(),
                                  list.rows()))
                          .restingOn(List.of(source.decision())));
            });
  }

  /**
   * Says whether a row speaks of a marker. That it does takes the place of what was said before.
   *
   * @param place such as {@code 5.3}
   * @throws ArchiveException if there is no such row or marker
   */
  public void judge(String place, String markerNumber, boolean is, String note, String reader) {
    WitnessList list = list(place);
    WitnessRow row = list.row(place);
    MarkerStore markers = new MarkerStore(archive);
    Marker marker = markers.named(markerNumber);
    archive
        .journal()
        .append(
            NewDecision.of(
                    reader,
                    is ? IS : IS_NOT,
                    1,
                    list.source().value(),
                    new Judged(row.number(), marker.id(), note.strip()))
                .restingOn(List.of(list.decision(), markers.madeBy(marker.id()))));
  }

  /** What was said, in order. */
  public List<Opinion> opinions() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT o.*, coalesce(n.now, o.marker_id) AS marker FROM witness_opinion o"
                            + " LEFT JOIN marker_now n ON n.id = o.marker_id ORDER BY o.counter")
                    .map(
                        (row, context) ->
                            new Opinion(
                                SourceId.of(row.getString("source")),
                                row.getInt("row"),
                                MarkerId.of(row.getString("marker")),
                                row.getInt("is_it") == 1,
                                row.getString("reader"),
                                DecisionId.of(row.getString("decision_id"))))
                    .list());
  }

  /** Writes the tables of earlier lists. */
  private static final class ListsStore implements Projection {
    @Override
    public Set<String> kinds() {
      return Set.of(LISTED, IS, IS_NOT);
    }

    @Override
    public Set<String> tables() {
      return Set.of("witness_list", "witness_row", "witness_opinion");
    }

    @Override
    public Map<String, String> settings() {
      return Map.of(LISTED, "the stones it lists");
    }

    @Override
    public void clear(Handle handle, UUID subject) {
      for (String table : tables()) {
        handle.execute("DELETE FROM " + table + " WHERE source = ?", subject.toString());
      }
    }

    @Override
    public void apply(Handle handle, Decision decision) {
      decision.requireVersion(1);
      String source = decision.subject().toString();
      if (decision.kind().equals(LISTED)) {
        Listed listed = decision.payload(Listed.class);
        handle.execute(
            "INSERT OR IGNORE INTO witness_list (source, decision_id, file, columns, called,"
                + " counter) VALUES (?, ?, ?, ?, ?, ?)",
            source,
            decision.id().toString(),
            listed.file(),
            Json.text(new TreeMap<>(listed.columns())),
            listed.called(),
            decision.counter());
        for (WitnessRow row : listed.rows()) {
          handle.execute(
              "INSERT OR IGNORE INTO witness_row (decision_id, source, row, document) VALUES (?,"
                  + " ?, ?, ?)",
              decision.id().toString(),
              source,
              row.number(),
              Json.text(row));
        }
        return;
      }
      Judged judged = decision.payload(Judged.class);
      handle.execute(
          "INSERT INTO witness_opinion (decision_id, source, row, marker_id, is_it, note, reader,"
              + " counter) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
          decision.id().toString(),
          source,
          judged.row(),
          judged.marker().toString(),
          decision.kind().equals(IS) ? 1 : 0,
          judged.note(),
          decision.reader(),
          decision.counter());
    }
  }
}
