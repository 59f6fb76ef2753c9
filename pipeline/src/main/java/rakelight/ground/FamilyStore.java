package rakelight.ground;

import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

/** What people said of families: which markers are of one, which aren't, what it is called. */
public final class FamilyStore {
  /** Subject: the first marker. Rests on both. */
  static final String TOGETHER = "family.together";

  /** Subject: the first marker. Rests on both. */
  static final String APART = "family.apart";

  /** Subject: the marker. Rests on it. */
  static final String CALLED = "family.called";

  private final Archive archive;
  private final MarkerStore markers;

  /** Version 1 of the payload of all three kinds. */
  record Said(Optional<MarkerId> other, Optional<String> name) {}

  /**
   * One thing that people said, the newest last.
   *
   * @param other of two markers the second
   * @param name what the family is called
   */
  record Saying(String what, MarkerId marker, Optional<MarkerId> other, Optional<String> name) {}

  public FamilyStore(Archive archive) {
    this.archive = archive;
    this.markers = new MarkerStore(archive);
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new FamilyProjection();
  }

  /**
   * Says that two markers are of one family.
   *
   * @throws ArchiveException if a marker isn't known or they are one
   */
  public DecisionId join(String one, String other, String reader) {
    return decide(TOGETHER, one, Optional.of(other), Optional.empty(), reader);
  }

  /**
   * Says that two markers aren't of one family.
   *
   * @throws ArchiveException if a marker isn't known or they are one
   */
  public DecisionId part(String one, String other, String reader) {
    return decide(APART, one, Optional.of(other), Optional.empty(), reader);
  }

  /**
   * Says what the family is called that a marker is of.
   *
   * @throws ArchiveException if the marker isn't known or the name is blank
   */
  public DecisionId call(String marker, String name, String reader) {
    if (name.isBlank()) {
      throw new ArchiveException("A family needs a name.");
    }
    return decide(CALLED, marker, Optional.empty(), Optional.of(name.strip()), reader);
  }

  private DecisionId decide(
      String kind, String one, Optional<String> other, Optional<String> name, String reader) {
    Marker first = markers.named(one);
    Optional<Marker> second = other.map(markers::named);
    if (second.filter(first::equals).isPresent()) {
      throw new ArchiveException("Marker " + one + " is one marker; give two.");
    }
    List<DecisionId> restsOn =
        second
            .map(marker -> List.of(markers.madeBy(first.id()), markers.madeBy(marker.id())))
            .orElseGet(() -> List.of(markers.madeBy(first.id())));
    Said said = new Said(second.map(Marker::id), name);
    return archive
        .journal()
        .append(NewDecision.of(reader, kind, 1, first.id().value(), said).restingOn(restsOn))
        .id();
  }

  /** All that stands, the oldest first; of two markers the newest saying holds. */
  List<Saying> sayings() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT f.what, coalesce(a.now, f.marker_id) AS one, coalesce(b.now,"
                            + " f.other) AS other, f.name FROM family_said f LEFT JOIN marker_now a"
                            + " ON a.id = f.marker_id LEFT JOIN marker_now b ON b.id = f.other WHERE"
                            + " coalesce(a.now, f.marker_id) IN (SELECT id FROM marker) AND"
                            + " (f.other IS NULL OR coalesce(b.now, f.other) IN (SELECT id FROM"
                            + " marker)) ORDER BY f.counter")
                    .map(
                        (row, context) ->
                            new Saying(
                                row.getString("what"),
                                MarkerId.of(row.getString("one")),
                                Optional.ofNullable(row.getString("other")).map(MarkerId::of),
                                Optional.ofNullable(row.getString("name"))))
                    .list());
  }

  static void write(Handle handle, Decision decision) {
    Said said = decision.payload(Said.class);
    handle.execute(
        "INSERT INTO family_said VALUES (?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        decision.kind(),
        said.other().map(MarkerId::toString),
        said.name(),
        decision.counter());
  }
}
