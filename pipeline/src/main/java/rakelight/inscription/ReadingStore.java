package rakelight.inscription;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.Joining;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;
import rakelight.archive.Sha256;
import rakelight.photo.PhotoStore;
import rakelight.reading.ProposalStore;

/**
 * Signed readings and the drafts that become readings. What signs a reading, keeps a draft or marks
 * a face as known is called by {@code work} alone, which holds the rules for it. Which reading of a
 * face stands is said by {@link FaceReadings}. Where a ground asks for two readers, what only one
 * has signed is sealed: show nobody else {@link #versions} or {@link #reading} of such a face.
 */
public final class ReadingStore {
  private static final String COLUMNS =
      "SELECT id, face_id, version, reader, at, basis, basis_date, basis_light, basis_witness,"
          + " proposal_id, settles, text, sign_ids, decision_id FROM reading ";

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
              Optional.ofNullable(row.getString("settles")).stream()
                  .flatMap(ids -> Arrays.stream(ids.split(" ", -1)))
                  .map(ReadingId::of)
                  .toList(),
              new StoredText(row.getString("text"), row.getString("sign_ids")),
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

  /** What to see to when histories come together. */
  public static Joining joining() {
    return new ReadingJoining();
  }

  /** What the face says by the reading of it that stands. */
  public Optional<Reading> current(FaceId face) {
    return ofFace(face).current();
  }

  /** All that was signed of a face, sealed or not. */
  public FaceReadings ofFace(FaceId face) {
    return archive
        .ledger()
        .read(
            handle ->
                new FaceReadings(
                    readings("WHERE face_id = ? ORDER BY version", face.toString()),
                    required(),
                    handle
                            .createQuery(
                                "SELECT count(*) FROM known_face WHERE face_id = :face AND part ="
                                    + " 0")
                            .bind("face", face.toString())
                            .mapTo(Integer.class)
                            .one()
                        > 0));
  }

  /**
   * All that was signed of every face of which anything was, in the order of the last signature.
   */
  public List<FaceReadings> all() {
    return archive
        .ledger()
        .read(
            handle -> {
              Map<FaceId, List<Reading>> byFace = new LinkedHashMap<>();
              for (Reading reading : readings("ORDER BY counter")) {
                List<Reading> versions = byFace.remove(reading.face());
                versions = versions == null ? new ArrayList<>() : versions;
                versions.add(reading);
                byFace.put(reading.face(), versions);
              }
              int required = required();
              Set<FaceId> tests = tests();
              List<FaceReadings> all = new ArrayList<>();
              byFace.forEach(
                  (face, versions) ->
                      all.add(new FaceReadings(versions, required, tests.contains(face))));
              return all;
            });
  }

  /** Every version of a face that stands, sealed or not, the first one first. */
  public List<Reading> versions(FaceId face) {
    return ofFace(face).versions();
  }

  /** The ids of {@link #versions}, to see at little cost whether anything was signed meanwhile. */
  public List<ReadingId> signedIds(FaceId face) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT id FROM reading WHERE face_id = :face ORDER BY version")
                    .bind("face", face.toString())
                    .mapTo(String.class)
                    .map(ReadingId::of)
                    .list());
  }

  /** A reading by its id, current or not, sealed or not. */
  public Optional<Reading> reading(ReadingId id) {
    return readings("WHERE id = ?", id.toString()).stream().findFirst();
  }

  /** The reading that stands of every face that has one, in the order they were signed. */
  public List<Reading> current() {
    return all().stream().flatMap(face -> face.current().stream()).toList();
  }

  /** How many readers must read each face: 1 or 2. */
  public int required() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT readers FROM readings_required")
                    .mapTo(Integer.class)
                    .findOne()
                    .orElse(1));
  }

  /**
   * Changes how many readers must read each face.
   *
   * @throws IllegalArgumentException if it isn't 1 or 2
   */
  public void require(int readers, String reader) {
    if (readers < 1 || readers > 2) {
      throw new IllegalArgumentException("one reader or two, not " + readers);
    }
    archive
        .journal()
        .append(
            NewDecision.of(
                reader,
                ReadingDecisions.REQUIRED,
                1,
                archive.id(),
                new ReadingDecisions.Required(readers)));
  }

  /** Notes what a face is known to say, so that it measures whoever reads it. */
  public void know(FaceId face, Inscription truth, String reader) {
    know(ReadingDecisions.KNOWN, face, truth, reader);
  }

  /**
   * Notes some letters of a face that are known beforehand, so that they measure whoever reads it;
   * its reading stands as any other.
   *
   * @param letters with gaps where nothing is known
   * @throws ArchiveException if no letter of it is known
   */
  public void knowLetters(FaceId face, Inscription letters, String reader) {
    if (letters.signs().stream().noneMatch(Letter.class::isInstance)) {
      throw new ArchiveException(
          "No letter of this face is given; there is nothing to measure by.");
    }
    know(ReadingDecisions.KNOWN_LETTERS, face, letters, reader);
  }

  private void know(String kind, FaceId face, Inscription truth, String reader) {
    archive
        .journal()
        .append(
            NewDecision.of(
                    reader,
                    kind,
                    1,
                    face.value(),
                    new ReadingDecisions.Known(Leiden.printLines(truth)))
                .restingOn(List.of(photographs.madeBy(face))));
  }

  /**
   * What is known of a face beforehand.
   *
   * @param whole whether all of it is, so that it serves for nothing but to measure readers
   */
  public record Known(Inscription text, boolean whole) {}

  /** What is known beforehand of each face of which anything is. */
  public Map<FaceId, Known> known() {
    return archive
        .ledger()
        .read(
            handle -> {
              Map<FaceId, Known> known = new HashMap<>();
              handle
                  .createQuery("SELECT face_id, text, part FROM known_face")
                  .map(
                      (row, context) ->
                          known.put(
                              FaceId.of(row.getString("face_id")),
                              new Known(
                                  StoredText.parsed(row.getString("text")),
                                  row.getInt("part") == 0)))
                  .list();
              return known;
            });
  }

  private Set<FaceId> tests() {
    return archive
        .ledger()
        .read(
            handle ->
                Set.copyOf(
                    handle
                        .createQuery("SELECT face_id FROM known_face WHERE part = 0")
                        .mapTo(String.class)
                        .map(FaceId::of)
                        .list()));
  }

  /** Whether a decision holds what nobody but its own reader may see yet. */
  public boolean isSealed(Decision decision) {
    return switch (decision.kind()) {
      case ReadingDecisions.KNOWN, ReadingDecisions.KNOWN_LETTERS -> true;
      case ReadingDecisions.SIGNED, ReadingDecisions.DRAFTED, ReadingDecisions.IMPORTED ->
          ofFace(new FaceId(decision.subject())).sealed();
      case ProposalStore.KEPT -> {
        String face = decision.payload().path("face").asText();
        yield required() > 1 && (face.isEmpty() || ofFace(FaceId.of(face)).sealed());
      }
      default -> false;
    };
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
    return sign(face, inscription, basis, proposal, List.of(), reader);
  }

  /**
   * Signs a reading that settles two others.
   *
   * @param settles the two readings; none if it is the reader's own reading
   */
  public Reading sign(
      FaceId face,
      Inscription inscription,
      Basis basis,
      Optional<ProposalId> proposal,
      List<ReadingId> settles,
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
                              2,
                              face.value(),
                              new ReadingDecisions.Signed(
                                  id,
                                  basis,
                                  proposal,
                                  settles.isEmpty() ? Optional.empty() : Optional.of(settles),
                                  Leiden.printLines(kept),
                                  kept.signs().stream().map(sign -> sign.id().number()).toList()))
                          .restingOn(List.of(photographs.madeBy(face))));
              return reading(id).orElseThrow();
            });
  }

  /**
   * Keeps a reader's draft of a face in place of the one before: as a decision that holds the lines
   * that changed.
   */
  public void keepDraft(FaceId face, Draft draft, String reader) {
    archive
        .ledger()
        .write(
            handle -> {
              List<Draft.Line> before = draft(face, reader).map(Draft::lines).orElse(List.of());
              List<Draft.Line> after = draft.lines();
              int least = Math.min(before.size(), after.size());
              int head = 0;
              while (head < least && before.get(head).equals(after.get(head))) {
                head++;
              }
              int tail = 0;
              while (tail < least - head
                  && before
                      .get(before.size() - 1 - tail)
                      .equals(after.get(after.size() - 1 - tail))) {
                tail++;
              }
              List<DecisionId> restsOn = new ArrayList<>(List.of(photographs.madeBy(face)));
              draftDecision(face, reader).ifPresent(restsOn::add);
              return archive
                  .journal()
                  .append(
                      NewDecision.of(
                              reader,
                              ReadingDecisions.DRAFTED,
                              3,
                              face.value(),
                              new ReadingDecisions.Drafted(
                                  draft.proposal(),
                                  head,
                                  before.size() - head - tail,
                                  after.subList(head, after.size() - tail)))
                          .restingOn(restsOn));
            });
  }

  /**
   * The lines that a decision about a draft leaves with letters decided with their line, from 1 and
   * in order; none for any other decision.
   */
  public static List<Integer> seenLines(Decision decision) {
    if (!decision.kind().equals(ReadingDecisions.DRAFTED) || decision.version() < 3) {
      return List.of();
    }
    ReadingDecisions.Drafted drafted = decision.payload(ReadingDecisions.Drafted.class);
    List<Integer> lines = new ArrayList<>();
    for (int i = 0; i < drafted.lines().size(); i++) {
      if (drafted.lines().get(i).places().stream()
          .anyMatch(place -> place.how() == Draft.Decided.WITH_ITS_LINE)) {
        lines.add(drafted.from() + i + 1);
      }
    }
    return lines;
  }

  /** Whether a decision is about letters of a draft. */
  public static boolean isOfDraft(Decision decision) {
    return decision.kind().equals(ReadingDecisions.DRAFTED);
  }

  /** Whether a decision signs a reading of a face, its subject. */
  public static boolean isSigned(Decision decision) {
    return decision.kind().equals(ReadingDecisions.SIGNED);
  }

  /** The decision that a reader's draft of a face stands at; empty while there is no draft. */
  public Optional<DecisionId> draftDecision(FaceId face, String reader) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT decision_id FROM reading_draft WHERE face_id = :face AND"
                            + " reader = :reader")
                    .bind("face", face.toString())
                    .bind("reader", reader)
                    .mapTo(String.class)
                    .findOne())
        .map(DecisionId::of);
  }

  /**
   * The undo that would be undone to bring back what the reader last took back of a draft; empty
   * once he has decided something else.
   */
  public Optional<DecisionId> redoable(FaceId face, String reader) {
    Deque<DecisionId> undone = new ArrayDeque<>();
    Set<DecisionId> drafted = new HashSet<>();
    for (Decision decision : archive.journal().bySubject(face.value())) {
      if (!decision.reader().equals(reader)) {
        continue;
      }
      if (decision.kind().equals(ReadingDecisions.DRAFTED)) {
        drafted.add(decision.id());
        undone.clear();
      } else if (decision.kind().equals(ReadingDecisions.SIGNED)) {
        undone.clear();
      } else if (decision.kind().equals(Decision.UNDONE)) {
        DecisionId target = DecisionId.of(decision.payload().path("undoes").asText());
        if (drafted.contains(target)) {
          undone.push(decision.id());
        } else {
          undone.remove(target);
        }
      }
    }
    return Optional.ofNullable(undone.peek());
  }

  /** The readers who have a draft of a face. */
  public Set<String> drafting(FaceId face) {
    return archive
        .ledger()
        .read(
            handle ->
                new TreeSet<>(
                    handle
                        .createQuery("SELECT reader FROM reading_draft WHERE face_id = :face")
                        .bind("face", face.toString())
                        .mapTo(String.class)
                        .list()));
  }

  /** The readers who have a draft of each face. */
  public Map<FaceId, Set<String>> drafting() {
    return archive
        .ledger()
        .read(
            handle -> {
              Map<FaceId, Set<String>> drafting = new HashMap<>();
              handle
                  .createQuery("SELECT face_id, reader FROM reading_draft")
                  .map(
                      (row, context) ->
                          drafting
                              .computeIfAbsent(
                                  FaceId.of(row.getString("face_id")), id -> new TreeSet<>())
                              .add(row.getString("reader")))
                  .list();
              return drafting;
            });
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
            .map(decision -> decision.payload(ReadingDecisions.Signed.class))
            .flatMap(signed -> signed.signIds().stream())
            .mapToInt(Integer::intValue)
            .max()
            .orElse(0);
    return lastSigned(face)
        .map(before -> SignIds.carry(before.inscription(), inscription, lastUsed))
        .orElseGet(() -> renumbered(inscription, lastUsed));
  }

  private Optional<Reading> lastSigned(FaceId face) {
    return readings("WHERE face_id = ? ORDER BY version DESC LIMIT 1", face.toString()).stream()
        .findFirst();
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
}
