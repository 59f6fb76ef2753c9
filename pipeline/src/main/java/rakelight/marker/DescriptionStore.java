package rakelight.marker;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.archive.Uuid7;
import rakelight.marker.Term.Quality;

/**
 * Descriptions of markers and the ground's own terms for them. The newest description of a marker
 * stands, those before it are kept.
 */
public final class DescriptionStore {
  /** Subject: the marker. */
  static final String DESCRIBED = "marker.described";

  /** Subject: the term's own id. */
  static final String TERM = "term.added";

  private static final int LONGEST_REMARK = 1000;
  private static final double LARGEST_CM = 3000;

  private static final RowMapper<Described> ROW =
      (row, context) ->
          new Described(
              MarkerId.of(row.getString("marker_id")),
              Json.read(row.getString("description"), Description.class),
              row.getString("reader"),
              Instant.parse(row.getString("at")),
              DecisionId.of(row.getString("decision_id")));

  private final Archive archive;

  /**
   * Version 1 of the payload.
   *
   * @param batch what is decided in one act shares it
   */
  record Said(Description description, UUID batch) {}

  /** Version 1 of the payload. */
  record Added(Quality list, String term, String meaning, String source, UUID batch) {}

  public DescriptionStore(Archive archive) {
    this.archive = archive;
  }

  /** The state tables of this store. */
  public static Projection projection() {
    return new DescriptionProjection();
  }

  /** All terms: the program's and the ground's. */
  public Terms terms() {
    List<Term> own =
        archive
            .ledger()
            .read(
                handle ->
                    handle
                        .createQuery(
                            "SELECT list, term, meaning, source FROM term ORDER BY counter")
                        .map(
                            (row, context) ->
                                new Term(
                                    Quality.valueOf(row.getString("list")),
                                    row.getString("term"),
                                    row.getString("meaning"),
                                    row.getString("source")))
                        .list());
    return Terms.carried().with(own);
  }

  /**
   * Adds terms of the ground's own; those that are there already are passed over.
   *
   * @return so many were added
   */
  public int add(List<Term> terms, String reader) {
    UUID batch = Uuid7.next();
    return archive
        .ledger()
        .write(
            handle -> {
              int added = 0;
              for (Term term : terms) {
                if (terms().find(term.of(), term.name()).isEmpty()) {
                  archive
                      .journal()
                      .append(
                          NewDecision.of(
                              reader,
                              TERM,
                              1,
                              Uuid7.next(),
                              new Added(
                                  term.of(), term.name(), term.meaning(), term.source(), batch)));
                  added++;
                }
              }
              return added;
            });
  }

  /**
   * Says what a marker is, all of it.
   *
   * @param batch what is decided in one act shares it
   * @throws ArchiveException if a word isn't one of the terms, or a measure can't be
   */
  public void describe(MarkerId marker, Description description, UUID batch, String reader) {
    Description clean = checked(description, terms());
    archive
        .journal()
        .append(
            NewDecision.of(reader, DESCRIBED, 1, marker.value(), new Said(clean, batch))
                .restingOn(List.of(new MarkerStore(archive).madeBy(marker))));
  }

  /**
   * The same with every word as its list has it.
   *
   * @throws ArchiveException as {@link #describe} does
   */
  public static Description checked(Description said, Terms terms) {
    said.remark()
        .filter(words -> words.length() > LONGEST_REMARK)
        .ifPresent(
            words -> {
              throw new ArchiveException("A remark has " + LONGEST_REMARK + " signs at most.");
            });
    measured("height", said.heightCm());
    measured("width", said.widthCm());
    measured("thickness", said.thicknessCm());
    return new Description(
        said.kind().map(word -> terms.named(Quality.KIND, word)),
        said.form().map(word -> terms.named(Quality.FORM, word)),
        said.material().map(word -> terms.named(Quality.MATERIAL, word)),
        said.lettering().stream().map(word -> terms.named(Quality.LETTERING, word)).toList(),
        said.parts().stream().map(part -> checked(part, terms)).toList(),
        said.heightCm(),
        said.widthCm(),
        said.thicknessCm(),
        said.origin().map(word -> terms.named(Quality.ORIGIN, word)),
        said.maker(),
        said.madeAt(),
        said.earlier(),
        said.enclosure(),
        said.remark());
  }

  private static Description.Part checked(Description.Part part, Terms terms) {
    part.leanDegrees()
        .filter(lean -> !(lean >= 0 && lean <= 90))
        .ifPresent(
            lean -> {
              throw new ArchiveException("A part leans by 0 to 90 degrees, not " + lean + ".");
            });
    return new Description.Part(
        terms.named(Quality.PART, part.name()),
        terms.named(Quality.STATE, part.state()),
        part.leanDegrees());
  }

  private static void measured(String what, Optional<Double> cm) {
    cm.filter(value -> !(value > 0 && value <= LARGEST_CM))
        .ifPresent(
            value -> {
              throw new ArchiveException(
                  "A " + what + " is given in centimetres, up to 3000, not " + value + ".");
            });
  }

  /** What stands of a marker. */
  public Optional<Described> of(MarkerId marker) {
    return history(marker).stream().findFirst();
  }

  /** All that was ever said of a marker, the newest first. */
  public List<Described> history(MarkerId marker) {
    return select("WHERE marker_id = ?", marker.toString());
  }

  /** What stands of every marker that is described. */
  public Map<MarkerId, Described> all() {
    Map<MarkerId, Described> standing = new LinkedHashMap<>();
    select("").forEach(one -> standing.putIfAbsent(one.marker(), one));
    return standing;
  }

  private List<Described> select(String where, Object... values) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT marker_id, description, reader, at, decision_id FROM (SELECT"
                            + " coalesce(n.now, d.marker_id) AS marker_id, d.description, d.reader,"
                            + " d.at, d.decision_id, d.counter FROM marker_description d LEFT JOIN"
                            + " marker_now n ON n.id = d.marker_id) "
                            + where
                            + " ORDER BY counter DESC",
                        values)
                    .map(ROW)
                    .list());
  }
}
