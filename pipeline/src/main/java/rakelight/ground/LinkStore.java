package rakelight.ground;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Belonging;
import rakelight.person.Evidence;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.People;

/** Links that people confirmed. */
public final class LinkStore {
  /** Subject: the marker it leads from. Rests on the decisions of the markers it names. */
  static final String CONFIRMED = "link.confirmed";

  /** Subject: the marker it would lead from. Rests on the marker and the reading. */
  static final String REFUSED = "link.refused";

  /** How a mention is named: marker, face, number, and a letter for somebody named as kin. */
  private static final String MENTION = ".+:.+:[0-9]+[a-z]?";

  private static final RowMapper<Link> ROW =
      (row, context) ->
          new Link(
              MarkerId.of(row.getString("from_marker")),
              Link.Kind.of(row.getString("kind")).orElseThrow(),
              Optional.ofNullable(row.getString("to_marker")).map(MarkerId::of),
              Optional.ofNullable(row.getString("to_words")),
              Optional.ofNullable(row.getString("to_face")).map(face -> person(row, face)),
              row.getString("note"),
              row.getString("reader"),
              Instant.parse(row.getString("at")),
              DecisionId.of(row.getString("decision_id")));

  private final Archive archive;
  private final MarkerStore markers;

  /** Version 1 of the payload. */
  record Confirmed(
      Link.Kind kind,
      Optional<MarkerId> toMarker,
      Optional<String> toWords,
      Optional<MentionId> toPerson,
      String note) {}

  /** Version 1 of the payload. */
  record RefusedLink(MentionId toPerson, String toWords, String note) {}

  /**
   * A proposed link that somebody refused: the marker isn't this person's.
   *
   * @param toWords the person, as he was called
   */
  public record Refusal(
      MarkerId from,
      MentionId toPerson,
      String toWords,
      String note,
      String reader,
      Instant at,
      DecisionId decision) {}

  public LinkStore(Archive archive) {
    this.archive = archive;
    this.markers = new MarkerStore(archive);
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new LinkProjection();
  }

  /** Every link, in the order they were confirmed. */
  public List<Link> links() {
    return links("ORDER BY counter");
  }

  /**
   * What the links say of whose a stone is; what is only said to be, or was removed, is no such.
   */
  public List<Belonging> belongings() {
    return links().stream()
        .filter(
            link ->
                switch (link.kind()) {
                  case FOOTSTONE_OF, BURIED_HERE, COMMEMORATED -> true;
                  case REMOVED_FROM, REBURIED, SAID_TO_BE -> false;
                })
        .filter(link -> link.toMarker().isPresent() || link.toPerson().isPresent())
        .map(link -> new Belonging(link.from(), link.toMarker(), link.toPerson()))
        .toList();
  }

  /** The links that lead from or to a marker. */
  public List<Link> ofMarker(MarkerId marker) {
    return links(
        "WHERE from_marker = ? OR to_marker = ? ORDER BY counter",
        marker.toString(),
        marker.toString());
  }

  /** The markers that a decision links, whether it stands or not; none if it is about no link. */
  public static List<MarkerId> linked(Decision decision) {
    if (!decision.kind().equals(CONFIRMED)) {
      return List.of();
    }
    Confirmed link = decision.payload(Confirmed.class);
    return Stream.concat(Stream.of(new MarkerId(decision.subject())), link.toMarker().stream())
        .toList();
  }

  /**
   * Confirms a link; one that stands already is given back as it is.
   *
   * @param from number of a marker
   * @param to number of a marker, or a person, as the kind asks for: in words, or by where he is
   *     named, such as {@code 15:E:1}
   * @throws ArchiveException if a marker or mention isn't known or would be linked to itself, or
   *     the face that names the person is read anew in this moment
   */
  public Link confirm(String from, Link.Kind kind, String to, String note, String reader) {
    Optional<Mention> person = person(kind, to);
    return archive.ledger().write(handle -> confirm(from, kind, to, person, note, reader));
  }

  /**
   * Confirms every link of a file, or none; the number that are new.
   *
   * @throws ArchiveException as {@link #confirm}, naming the line
   */
  public int confirmAll(LinkFile file, String reader) {
    List<Optional<Mention>> persons = new ArrayList<>();
    for (LinkFile.Row row : file.rows()) {
      persons.add(onLine(row, () -> person(row.kind(), row.to())));
    }
    return archive
        .ledger()
        .write(
            handle -> {
              long before = archive.journal().lastCounter();
              for (int i = 0; i < persons.size(); i++) {
                LinkFile.Row row = file.rows().get(i);
                Optional<Mention> person = persons.get(i);
                onLine(
                    row,
                    () -> confirm(row.from(), row.kind(), row.to(), person, row.note(), reader));
              }
              return (int) (archive.journal().lastCounter() - before);
            });
  }

  /**
   * Says that a marker isn't a person's; what stands already is given back as it is.
   *
   * @param from number of a marker
   * @param to where the person is named, such as {@code 15:E:1}
   * @throws ArchiveException if either isn't known, or the link is confirmed
   */
  public Refusal refuse(String from, String to, String note, String reader) {
    Mention person = People.mention(archive, to);
    return archive
        .ledger()
        .write(
            handle -> {
              Marker marker = markers.named(from);
              new Evidence(archive).requireCurrent(person);
              if (ofMarker(marker.id()).stream()
                  .anyMatch(link -> link.toPerson().filter(person.id()::equals).isPresent())) {
                throw new ArchiveException(
                    "Marker " + from + " is confirmed to be of " + to + "; undo that first.");
              }
              Optional<Refusal> standing =
                  refusals().stream()
                      .filter(r -> r.from().equals(marker.id()))
                      .filter(r -> r.toPerson().equals(person.id()))
                      .findFirst();
              if (standing.isPresent()) {
                return standing.get();
              }
              List<DecisionId> restsOn = new ArrayList<>(List.of(markers.madeBy(marker.id())));
              person.source().reading().ifPresent(reading -> restsOn.add(reading.decision()));
              DecisionId decision =
                  archive
                      .journal()
                      .append(
                          NewDecision.of(
                                  reader,
                                  REFUSED,
                                  1,
                                  marker.id().value(),
                                  new RefusedLink(person.id(), person.called(), note))
                              .restingOn(restsOn))
                      .id();
              return refusals().stream()
                  .filter(r -> r.decision().equals(decision))
                  .findFirst()
                  .orElseThrow();
            });
  }

  /** Every refusal that stands, in the order they were said. */
  public List<Refusal> refusals() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT coalesce(n.now, r.from_marker) AS from_now, r.* FROM link_refused r"
                            + " LEFT JOIN marker_now n ON n.id = r.from_marker WHERE"
                            + " coalesce(n.now, r.from_marker) IN (SELECT id FROM marker) AND"
                            + " r.to_face IN (SELECT face_id FROM reading) ORDER BY r.counter")
                    .map(
                        (row, context) ->
                            new Refusal(
                                MarkerId.of(row.getString("from_now")),
                                person(row, row.getString("to_face")),
                                row.getString("to_words"),
                                row.getString("note"),
                                row.getString("reader"),
                                Instant.parse(row.getString("at")),
                                DecisionId.of(row.getString("decision_id"))))
                    .list());
  }

  private static <T> T onLine(LinkFile.Row row, Supplier<T> work) {
    try {
      return work.get();
    } catch (ArchiveException e) {
      throw new ArchiveException("line " + row.line() + ": " + e.getMessage(), e);
    }
  }

  /** Whom the words name, if they name a mention; looked up before anything is written. */
  private Optional<Mention> person(Link.Kind kind, String to) {
    return kind.leadsToMarker() || !to.strip().matches(MENTION)
        ? Optional.empty()
        : Optional.of(People.mention(archive, to));
  }

  private Link confirm(
      String from,
      Link.Kind kind,
      String to,
      Optional<Mention> person,
      String note,
      String reader) {
    Marker marker = markers.named(from);
    person.ifPresent(new Evidence(archive)::requireCurrent);
    Optional<MarkerId> toMarker =
        kind.leadsToMarker() ? Optional.of(markers.named(to).id()) : Optional.empty();
    Optional<String> toWords =
        kind.leadsToMarker()
            ? Optional.empty()
            : person.map(Mention::called).or(() -> Optional.of(to.strip()));
    Optional<MentionId> toPerson = person.map(Mention::id);
    if (toMarker.isPresent() && toMarker.get().equals(marker.id())) {
      throw new ArchiveException("Marker " + from + " can't be linked to itself.");
    }
    Optional<Link> standing =
        links("WHERE from_marker = ?", marker.id().toString()).stream()
            .filter(link -> link.kind() == kind)
            .filter(link -> link.toMarker().equals(toMarker))
            .filter(link -> link.toWords().equals(toWords))
            .filter(link -> link.toPerson().equals(toPerson))
            .findFirst();
    if (standing.isPresent()) {
      return standing.get();
    }
    List<DecisionId> restsOn = new ArrayList<>();
    restsOn.add(markers.madeBy(marker.id()));
    toMarker.ifPresent(id -> restsOn.add(markers.madeBy(id)));
    person
        .flatMap(mention -> mention.source().reading())
        .ifPresent(reading -> restsOn.add(reading.decision()));
    DecisionId decision =
        archive
            .journal()
            .append(
                NewDecision.of(
                        reader,
                        CONFIRMED,
                        1,
                        marker.id().value(),
                        new Confirmed(kind, toMarker, toWords, toPerson, note))
                    .restingOn(restsOn))
            .id();
    return links("WHERE decision_id = ?", decision.toString()).get(0);
  }

  /**
   * What leads to a marker or a person that was withdrawn is left out, and what leads from a marker
   * to one that it was merged with.
   */
  private List<Link> links(String rest, Object... arguments) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT from_marker, kind, to_marker, to_words, to_face, to_sign, to_place,"
                            + " note, reader, at, decision_id FROM (SELECT coalesce(f.now,"
                            + " l.from_marker) AS from_marker, l.kind, coalesce(t.now, l.to_marker)"
                            + " AS to_marker, l.to_words, l.to_face, l.to_sign, l.to_place, l.note,"
                            + " l.reader, l.at, l.decision_id, l.counter FROM link l LEFT JOIN"
                            + " marker_now f ON f.id = l.from_marker LEFT JOIN marker_now t ON t.id"
                            + " = l.to_marker WHERE (l.to_marker IS NULL OR l.to_marker IN (SELECT"
                            + " id FROM marker)) AND (l.to_face IS NULL OR l.to_face IN (SELECT"
                            + " face_id FROM reading)) AND coalesce(f.now, l.from_marker) IS NOT"
                            + " coalesce(t.now, l.to_marker)) "
                            + rest,
                        arguments)
                    .map(ROW)
                    .list());
  }

  private static MentionId person(ResultSet row, String face) {
    try {
      return new MentionId(FaceId.of(face), row.getInt("to_sign"), row.getInt("to_place"));
    } catch (SQLException e) {
      throw new ArchiveException("a link can't be read: " + e.getMessage(), e);
    }
  }
}
