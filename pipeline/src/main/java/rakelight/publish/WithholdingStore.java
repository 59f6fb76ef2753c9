package rakelight.publish;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.PhotographId;
import rakelight.archive.Projection;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.person.MentionId;
import rakelight.publish.Withholding.Cause;
import rakelight.publish.Withholding.Subject;

/** What people decided to keep from whatever is published, and the ground's rule for burials. */
public final class WithholdingStore {
  /** Subject: the archive. */
  static final String TOLD_AFTER = "ground.burials-told-after";

  /** After the noun of the subject, the kind of decision. */
  private static final String WITHHELD = ".withheld";

  static final Set<String> KINDS =
      Set.of("marker" + WITHHELD, "face" + WITHHELD, "photograph" + WITHHELD, "person" + WITHHELD);

  /** Longer than any rule of closure we know of (from memory); it guards against slips. */
  private static final int MOST_YEARS = 200;

  private static final RowMapper<Withholding> ROW =
      (row, context) ->
          new Withholding(
              subject(row),
              Cause.of(row.getString("cause")).orElseThrow(),
              row.getString("reason"),
              Optional.ofNullable(row.getString("asked_by")),
              LocalDate.parse(row.getString("asked_on")),
              row.getString("reader"),
              DecisionId.of(row.getString("decision_id")));

  private final Archive archive;

  /**
   * Version 1 of the payload of all {@link #KINDS}.
   *
   * @param mention for a person
   */
  record Said(
      String cause,
      String reason,
      Optional<String> askedBy,
      LocalDate on,
      Optional<MentionId> mention) {}

  /** Version 1 of the payload; without years there is no such rule. */
  record ToldAfter(Optional<Integer> years) {}

  public WithholdingStore(Archive archive) {
    this.archive = archive;
  }

  /** The state tables of this store. */
  public static Projection projection() {
    return new WithholdingProjection();
  }

  /** Every withholding that stands, the oldest first; of a merged marker, of what it is part of. */
  public List<Withholding> withholdings() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT w.*, n.now FROM withholding w LEFT JOIN marker_now n ON n.id ="
                            + " w.subject ORDER BY w.counter")
                    .map(ROW)
                    .list());
  }

  /**
   * Withholds something.
   *
   * @param on the day it was asked for or ruled
   * @throws ArchiveException if there is no such thing here, the reason has no words, or the cause
   *     can't be said of a person
   */
  public Withholding withhold(
      Subject subject,
      Cause cause,
      String reason,
      Optional<String> askedBy,
      LocalDate on,
      String reader) {
    if (reason.isBlank()) {
      throw new ArchiveException("Say in words why it is withheld (--reason).");
    }
    if (subject instanceof Subject.OfPerson && !cause.fitsPersons()) {
      throw new ArchiveException(
          "“"
              + cause.words()
              + "” is said of a marker, a face or a photograph. Name one of these, or give another"
              + " cause (--why).");
    }
    Said said =
        new Said(
            cause.label(),
            reason.strip(),
            askedBy.map(String::strip).filter(name -> !name.isEmpty()),
            on,
            subject instanceof Subject.OfPerson person
                ? Optional.of(person.mention())
                : Optional.empty());
    return archive
        .ledger()
        .write(
            handle -> {
              DecisionId decision =
                  archive
                      .journal()
                      .append(
                          NewDecision.of(reader, subject.noun() + WITHHELD, 1, subject.uuid(), said)
                              .restingOn(List.of(madeBy(subject))))
                      .id();
              return withholdings().stream()
                  .filter(withholding -> withholding.decision().equals(decision))
                  .findFirst()
                  .orElseThrow();
            });
  }

  /** How many years a burial must be old before it is told; empty where there is no such rule. */
  public OptionalInt toldAfterYears() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT years FROM burials_told_after")
                    .mapTo(Integer.class)
                    .findOne())
        .map(OptionalInt::of)
        .orElse(OptionalInt.empty());
  }

  /**
   * Sets the ground's rule for young burials.
   *
   * @param years 1 to {@value #MOST_YEARS}; empty for no rule
   * @throws ArchiveException if there are fewer or more
   */
  public void tellAfter(OptionalInt years, String reader) {
    if (years.isPresent() && (years.getAsInt() < 1 || years.getAsInt() > MOST_YEARS)) {
      throw new ArchiveException(
          "A burial is told after 1 to " + MOST_YEARS + " years, not " + years.getAsInt() + ".");
    }
    Optional<Integer> said =
        years.isPresent() ? Optional.of(years.getAsInt()) : Optional.<Integer>empty();
    archive
        .journal()
        .append(NewDecision.of(reader, TOLD_AFTER, 1, archive.id(), new ToldAfter(said)));
  }

  private DecisionId madeBy(Subject subject) {
    return subject instanceof Subject.OfPerson person
        ? new ReadingStore(archive)
            .current(person.mention().face())
            .map(Reading::decision)
            .orElseThrow(() -> new ArchiveException("Nobody is named there; `persons` lists them."))
        : archive.journal().madeBy(subject.noun(), subject.uuid());
  }

  private static Subject subject(ResultSet row) throws SQLException {
    String id = row.getString("subject");
    return switch (row.getString("kind").replace(WITHHELD, "")) {
      case "marker" ->
          new Subject.OfMarker(MarkerId.of(Optional.ofNullable(row.getString("now")).orElse(id)));
      case "face" -> new Subject.OfFace(FaceId.of(id));
      case "photograph" -> new Subject.OfPhotograph(PhotographId.of(id));
      default ->
          new Subject.OfPerson(
              new MentionId(FaceId.of(id), row.getInt("sign"), row.getInt("place")));
    };
  }
}
