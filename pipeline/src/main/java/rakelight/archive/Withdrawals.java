package rakelight.archive;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;

/**
 * What was withdrawn from the archive: it is in no table but the journal and {@code withdrawn}, and
 * nothing new can be decided about it. Bytes of originals are sealed, moved to {@code
 * originals/sealed} where only {@link Check} and {@link Backup} look, or purged, deleted. Their
 * digests are remembered.
 *
 * <p>Order of writes: first the decisions, in one transaction, then what was derived is deleted,
 * last the original is moved or deleted. A crash in between leaves an original in the open that no
 * row speaks of; {@link #putAway} sees to it, which every ingest calls.
 */
public final class Withdrawals {
  /** What can be withdrawn; a decision's kind is its name and {@code .withdrawn}. */
  public enum What {
    PHOTOGRAPH,
    PROPOSAL,
    /** All that people signed or drafted of a face; the subject is the face, which stays. */
    READING,
    FACE,
    MARKER;

    /** The kind of the decision that withdraws such a thing. */
    public String kind() {
      return name().toLowerCase(Locale.ROOT) + ".withdrawn";
    }
  }

  static final Set<String> KINDS =
      Arrays.stream(What.values()).map(What::kind).collect(Collectors.toUnmodifiableSet());

  /**
   * Version 1 of the payload of all kinds.
   *
   * @param batch what was withdrawn in one act shares it
   * @param original of a photograph
   */
  public record Said(
      String reason, Optional<String> askedBy, UUID batch, Optional<Original> original) {}

  /**
   * The original of a photograph.
   *
   * @param sealed whether its bytes are kept; otherwise they are deleted
   */
  public record Original(Sha256 sha256, String extension, long sizeBytes, boolean sealed) {}

  private final Ledger ledger;
  private final Journal journal;
  private final Originals originals;
  private final Derived derived;

  Withdrawals(Ledger ledger, Journal journal, Originals originals, Derived derived) {
    this.ledger = ledger;
    this.journal = journal;
    this.originals = originals;
    this.derived = derived;
  }

  /** Whether a decision withdraws something. */
  public static boolean isWithdrawal(Decision decision) {
    return KINDS.contains(decision.kind());
  }

  /**
   * Writes that a thing is withdrawn. What points to it must be withdrawn before it; {@link
   * #putAway} comes after the transaction.
   *
   * @throws ArchiveException if there is no such thing here
   */
  public Decision withdraw(What what, UUID subject, Said said, String reader) {
    DecisionId first =
        journal.standing(subject).stream()
            .map(Decision::id)
            .findFirst()
            .orElseThrow(() -> new ArchiveException("There is no " + subject + " here."));
    return journal.append(
        NewDecision.of(reader, what.kind(), 1, subject, said).restingOn(List.of(first)));
  }

  /**
   * Says that one more thing goes by an act that withdrew another.
   *
   * @param made the first decision about the thing
   */
  public static NewDecision alsoBy(
      Decision act, What what, Decision made, Optional<Original> original) {
    Said said = act.payload(Said.class);
    return NewDecision.of(
            Decision.PROGRAM,
            what.kind(),
            1,
            made.subject(),
            new Said(said.reason(), said.askedBy(), said.batch(), original))
        .restingOn(List.of(made.id()));
  }

  /** The decision by which the photograph with these bytes is withdrawn, if it is. */
  public Optional<DecisionId> of(Sha256 original) {
    return ledger.read(
        handle ->
            handle
                .createQuery("SELECT decision_id FROM withdrawn WHERE sha256 = :sha256")
                .bind("sha256", original.hex())
                .mapTo(String.class)
                .findFirst()
                .map(DecisionId::of));
  }

  /** What is withdrawn, the decisions of one act together, the oldest first. */
  public List<List<Decision>> acts() {
    Map<UUID, List<Decision>> acts = new LinkedHashMap<>();
    ledger
        .read(
            handle ->
                handle
                    .createQuery("SELECT decision_id FROM withdrawn ORDER BY counter")
                    .mapTo(String.class)
                    .list())
        .forEach(
            id -> {
              Decision one = journal.find(DecisionId.of(id)).orElseThrow();
              acts.computeIfAbsent(one.payload(Said.class).batch(), b -> new ArrayList<>())
                  .add(one);
            });
    return List.copyOf(acts.values());
  }

  /** Whether a thing, all of it, is withdrawn. */
  public boolean contains(UUID subject) {
    return ledger.read(
        handle ->
            handle
                    .createQuery(
                        "SELECT count(*) FROM withdrawn WHERE subject = :subject AND kind <>"
                            + " :reading")
                    .bind("subject", subject.toString())
                    .bind("reading", What.READING.kind())
                    .mapTo(Integer.class)
                    .one()
                > 0);
  }

  /** Whether what a decision says is withdrawn; that something is withdrawn isn't. */
  public boolean hides(Decision decision) {
    if (isWithdrawal(decision) || decision.kind().equals(Decision.UNDONE)) {
      return false;
    }
    if (contains(decision.subject())) {
      return true;
    }
    boolean letters =
        decision.kind().startsWith("reading.") || decision.kind().startsWith("face.known");
    return letters
        && ledger.read(
            handle ->
                handle
                        .createQuery(
                            "SELECT count(*) FROM withdrawn WHERE subject = :subject AND kind ="
                                + " :reading AND counter > :counter")
                        .bind("subject", decision.subject().toString())
                        .bind("reading", What.READING.kind())
                        .bind("counter", decision.counter())
                        .mapTo(Integer.class)
                        .one()
                    > 0);
  }

  /** Whether what something was made from names an original that is withdrawn. */
  boolean isMadeOf(String input) {
    return withdrawn().stream().anyMatch(original -> input.contains(original.sha256().hex()));
  }

  /** Where the sealed originals lie, and how large they are. */
  public Map<Path, Long> sealed() {
    Map<Path, Long> sealed = new LinkedHashMap<>();
    withdrawn().stream()
        .filter(Original::sealed)
        .forEach(
            original ->
                sealed.put(
                    originals.sealedPath(original.sha256(), original.extension()),
                    original.sizeBytes()));
    return sealed;
  }

  /** As {@link #putAway(Set)}, with none of which more is known. */
  public void putAway() {
    putAway(Set.of());
  }

  /**
   * Has every original where it belongs: those that are withdrawn sealed or deleted, with what was
   * made of them deleted, and those whose withdrawal was undone back among the others.
   *
   * @param withdrawn what was made of these is deleted even where the original is missing
   */
  public void putAway(Set<Sha256> withdrawn) {
    try {
      Set<Sha256> digests = new HashSet<>();
      Set<Sha256> open = new HashSet<>(withdrawn);
      for (Original original : withdrawn()) {
        digests.add(original.sha256());
        if (originals.find(original.sha256()).isPresent()) {
          open.add(original.sha256());
        }
      }
      if (!open.isEmpty()) {
        derived.dropMadeFrom(open);
      }
      for (Original original : withdrawn()) {
        if (original.sealed()) {
          originals.seal(original.sha256());
        } else {
          originals.purge(original.sha256());
        }
      }
      originals.unseal(digest -> !digests.contains(digest));
    } catch (IOException e) {
      throw new ArchiveException(
          "What was withdrawn can't be put away ("
              + e
              + "). Check the archive's folder, then run `ingest` or `undo` again.",
          e);
    }
  }

  private List<Original> withdrawn() {
    return ledger.read(
        handle ->
            handle
                .createQuery(
                    "SELECT sha256, extension, size_bytes, sealed FROM withdrawn WHERE sha256 IS"
                        + " NOT NULL ORDER BY counter")
                .map(
                    (row, context) ->
                        new Original(
                            new Sha256(row.getString("sha256")),
                            row.getString("extension"),
                            row.getLong("size_bytes"),
                            row.getBoolean("sealed")))
                .list());
  }
}
