package rakelight.inscription;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;
import rakelight.archive.Sha256;
import rakelight.photo.PhotoStore;

/**
 * Signed readings and the drafts that become readings. The current reading of a face is the last
 * one signed that stands.
 */
public final class ReadingStore {
  private static final String COLUMNS =
      "SELECT id, face_id, version, reader, at, basis, basis_date, basis_light, basis_witness,"
          + " proposal_id, text, sign_ids, decision_id FROM reading ";

  private static final RowMapper<Reading> ROW =
      (row, context) ->
          new Reading(
              ReadingId.of(row.getString("id")),
              FaceId.of(row.getString("face_id")),
              row.getInt("version"),
              new Basis(
                  Basis.Kind.of(row.getString("basis")).orElseThrow(),
                  Optional.ofNullable(row.getString("basis_date")).map(LocalDate::parse),
                  Optional.ofNullable(row.getString("basis_light")),
                  Optional.ofNullable(row.getString("basis_witness"))),
              Optional.ofNullable(row.getString("proposal_id")).map(ProposalId::of),
              inscription(row.getString("text"), row.getString("sign_ids")),
              row.getString("reader"),
              Instant.parse(row.getString("at")),
              DecisionId.of(row.getString("decision_id")));

  private final Archive archive;
  private final PhotoStore photographs;

  public ReadingStore(Archive archive) {
    this.archive = archive;
    this.photographs = new PhotoStore(archive);
  }

  /** The state tables of this store. */
  public static Projection projection() {
    return new ReadingProjection();
  }

  /** What the face says by the last reading of it that stands. */
  public Optional<Reading> current(FaceId face) {
    return readings("WHERE face_id = ? ORDER BY version DESC LIMIT 1", face.toString()).stream()
        .findFirst();
  }

  /** Every version that stands, the first one first. */
  public List<Reading> versions(FaceId face) {
    return readings("WHERE face_id = ? ORDER BY version", face.toString());
  }

  /** A reading by its id, current or not. */
  public Optional<Reading> reading(ReadingId id) {
    return readings("WHERE id = ?", id.toString()).stream().findFirst();
  }

  /** The current reading of every face that has one, in the order they were signed. */
  public List<Reading> current() {
    return readings(
        "r WHERE version = (SELECT max(version) FROM reading o WHERE o.face_id = r.face_id)"
            + " ORDER BY counter");
  }

  /**
   * Signs a reading. Signs that the last reading has too keep their ids; the reader's draft of the
   * face is done with.
   *
   * @param proposal the proposal whose lines it counts, if any
   */
  public Reading sign(
      FaceId face,
      Inscription inscription,
      Basis basis,
      Optional<ProposalId> proposal,
      String reader) {
    return archive
        .ledger()
        .write(
            handle -> {
              Inscription kept = withKeptIds(face, inscription);
              ReadingId id = ReadingId.next();
              archive
                  .journal()
                  .append(
                      NewDecision.of(
                              reader,
                              ReadingDecisions.SIGNED,
                              1,
                              face.value(),
                              new ReadingDecisions.Signed(
                                  id,
                                  basis,
                                  proposal,
                                  Leiden.printLines(kept),
                                  kept.signs().stream().map(sign -> sign.id().number()).toList()))
                          .restingOn(List.of(photographs.madeBy(face))));
              return reading(id).orElseThrow();
            });
  }

  /**
   * What signing a file did.
   *
   * @param signed readings signed
   * @param unchanged faces whose current reading by this reader says the same on the same basis
   */
  public record Signed(int signed, int unchanged) {}

  /** Signs every reading of a file, or none. Markers and faces not yet known are made. */
  public Signed signAll(ReadingFile file, Basis basis, String reader) {
    return archive
        .ledger()
        .write(
            handle -> {
              int signed = 0;
              for (ReadingFile.Entry entry : file.entries()) {
                FaceId face = photographs.faceOf(entry.marker(), entry.face(), reader).id();
                if (!isCurrent(face, entry, basis, reader)) {
                  sign(face, entry.inscription(), basis, entry.proposal(), reader);
                  signed++;
                }
              }
              return new Signed(signed, file.entries().size() - signed);
            });
  }

  private boolean isCurrent(FaceId face, ReadingFile.Entry entry, Basis basis, String reader) {
    return current(face)
        .filter(reading -> reading.reader().equals(reader) && reading.basis().equals(basis))
        .filter(reading -> reading.proposal().equals(entry.proposal()))
        .filter(
            reading ->
                Leiden.printLines(reading.inscription())
                    .equals(Leiden.printLines(entry.inscription())))
        .isPresent();
  }

  /** Keeps a reader's draft of a face in place of the one before. */
  public void keepDraft(FaceId face, Draft draft, String reader) {
    archive
        .journal()
        .append(
            NewDecision.of(reader, ReadingDecisions.DRAFTED, 1, face.value(), draft)
                .restingOn(List.of(photographs.madeBy(face))));
  }

  /**
   * Keeps a file made elsewhere from which a face's reading is taken.
   *
   * @param notCarried what of it a reading has no place for
   */
  public void keepImported(
      FaceId face, String file, Sha256 digest, String content, List<String> notCarried, String by) {
    archive
        .journal()
        .append(
            NewDecision.of(
                    by,
                    ReadingDecisions.IMPORTED,
                    1,
                    face.value(),
                    new ReadingDecisions.Imported(file, digest, content, notCarried))
                .restingOn(List.of(photographs.madeBy(face))));
  }

  /** What the reader has settled of a face and not signed. */
  public Optional<Draft> draft(FaceId face, String reader) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT lines, proposal_id FROM reading_draft WHERE face_id = :face AND"
                            + " reader = :reader")
                    .bind("face", face.toString())
                    .bind("reader", reader)
                    .map(
                        (row, context) ->
                            new Draft(
                                List.of(Json.read(row.getString("lines"), Draft.Line[].class)),
                                Optional.ofNullable(row.getString("proposal_id"))
                                    .map(ProposalId::of)))
                    .findOne());
  }

  private Inscription withKeptIds(FaceId face, Inscription inscription) {
    int lastUsed =
        archive.journal().bySubject(face.value()).stream()
            .filter(decision -> decision.kind().equals(ReadingDecisions.SIGNED))
            .flatMap(decision -> decision.payload(ReadingDecisions.Signed.class).signIds().stream())
            .mapToInt(Integer::intValue)
            .max()
            .orElse(0);
    return current(face)
        .map(before -> SignIds.carry(before.inscription(), inscription, lastUsed))
        .orElseGet(() -> renumbered(inscription, lastUsed));
  }

  private static Inscription renumbered(Inscription inscription, int lastUsed) {
    Map<SignId, SignId> newIds = new HashMap<>();
    int next = lastUsed;
    for (Sign sign : inscription.signs()) {
      newIds.put(sign.id(), new SignId(++next));
    }
    return inscription.withIds(newIds);
  }

  private List<Reading> readings(String rest, Object... arguments) {
    return archive
        .ledger()
        .read(handle -> handle.select(COLUMNS + rest, arguments).map(ROW).list());
  }

  private static Inscription inscription(String text, String signIds) {
    try {
      Inscription parsed = Leiden.parse(text);
      List<Integer> ids = Arrays.stream(signIds.split(" ")).map(Integer::valueOf).toList();
      if (ids.size() != parsed.signs().size()) {
        throw new ArchiveException(
            "A reading in the ledger has "
                + parsed.signs().size()
                + " signs and "
                + ids.size()
                + " ids. Run `check`.");
      }
      Map<SignId, SignId> newIds = new HashMap<>();
      for (int i = 0; i < ids.size(); i++) {
        newIds.put(parsed.signs().get(i).id(), new SignId(ids.get(i)));
      }
      return parsed.withIds(newIds);
    } catch (LeidenException e) {
      throw new ArchiveException(
          "A reading in the ledger can't be read, line " + e.line() + ", " + e.getMessage(), e);
    }
  }
}
