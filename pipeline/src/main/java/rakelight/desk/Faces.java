package rakelight.desk;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Supplier;
import rakelight.archive.Archive;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;
import rakelight.inscription.Basis;
import rakelight.inscription.Draft;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Inscription;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Suggestion;
import rakelight.person.PlainWords;
import rakelight.photo.Face;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

/**
 * Opens faces for readers and takes their decisions. Each change is in the journal when its method
 * returns. Thread-safe.
 */
final class Faces {
  private static final int PROPOSALS_KEPT = 64;

  private final Archive archive;
  private final ReadingStore readings;
  private final ProposalStore proposals;
  private final Leases leases;
  private final Map<ProposalId, Proposal> recent =
      new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<ProposalId, Proposal> eldest) {
          return size() > PROPOSALS_KEPT;
        }
      };

  Faces(Archive archive, Leases leases) {
    this.archive = archive;
    this.readings = new ReadingStore(archive);
    this.proposals = new ProposalStore(archive);
    this.leases = leases;
  }

  /** Who decides. */
  record By(String reader, Role role) {}

  /** The face as it is before this reader; takes no lease. */
  Work look(Face face, By by) {
    return archive.ledger().read(handle -> work(face, by));
  }

  /** The face as it is before this reader, who takes it up unless somebody else has it. */
  Work open(Face face, By by) {
    Work work = look(face, by);
    if (work.task() == Work.Task.READ || work.task() == Work.Task.SETTLE) {
      leases.take(face.id(), by.reader(), most(work));
    }
    return work;
  }

  /** Renews the reader's lease. */
  void hold(Face face, By by) {
    requireLease(look(face, by), by);
  }

  /** What a reader asks to be done with his draft. */
  @FunctionalInterface
  interface Change {
    Draft of(Work work) throws LeidenException, DraftEditing.RefusedException;
  }

  /** Makes one change to a reader's draft. */
  Work change(Face face, By by, String version, Change change) {
    Work work = ready(face, by, version);
    Draft changed;
    try {
      changed = change.of(work);
    } catch (LeidenException | DraftEditing.RefusedException | IllegalArgumentException e) {
      throw Refusal.refused(sentence(String.valueOf(e.getMessage())));
    }
    if (work.stored() && changed.equals(work.draft())) {
      return work;
    }
    return archive
        .ledger()
        .write(
            handle -> {
              requireSame(work, by);
              if (!work.stored()) {
                work.proposal().ifPresent(proposal -> proposals.keep(proposal, by.reader()));
              }
              readings.keepDraft(face.id(), changed, by.reader());
              return work(face, by);
            });
  }

  /** Takes the reader's last change back. */
  Work undo(Face face, By by, String version) {
    return takeBack(
        face,
        by,
        version,
        () -> readings.draftDecision(face.id(), by.reader()),
        "There is nothing to take back.");
  }

  /** Brings back what the last undo took. */
  Work redo(Face face, By by, String version) {
    return takeBack(
        face,
        by,
        version,
        () -> readings.redoable(face.id(), by.reader()),
        "There is nothing to bring back.");
  }

  private Work takeBack(
      Face face, By by, String version, Supplier<Optional<DecisionId>> last, String otherwise) {
    Work work = ready(face, by, version);
    return archive
        .ledger()
        .write(
            handle -> {
              requireSame(work, by);
              archive
                  .journal()
                  .undo(last.get().orElseThrow(() -> Refusal.refused(otherwise)), by.reader());
              return work(face, by);
            });
  }

  /**
   * Signs the reader's draft.
   *
   * @param before the reading that stood when the reader last looked
   */
  Work sign(Face face, By by, String version, Basis basis, Optional<ReadingId> before) {
    Work work = ready(face, by, version);
    if (!work.before().map(Reading::id).equals(before)) {
      throw Refusal.of(
          409,
          "superseded",
          work.before()
                  .map(
                      reading -> reading.reader() + " has signed a reading of this face meanwhile.")
                  .orElse("The reading you saw has been taken back.")
              + " Look at it, then sign again.");
    }
    if (!work.draft().isSettled()) {
      throw Refusal.refused("Some letters aren't decided yet; decide them first.");
    }
    Inscription inscription;
    try {
      inscription = work.draft().inscription();
    } catch (LeidenException e) {
      throw Refusal.refused("Line " + e.line() + ", " + e.getMessage() + ".");
    }
    List<ReadingId> settles =
        work.settling().map(two -> List.of(two.first().id(), two.second().id())).orElse(List.of());
    Work signed =
        archive
            .ledger()
            .write(
                handle -> {
                  requireSame(work, by);
                  readings.sign(
                      face.id(), inscription, basis, work.draft().proposal(), settles, by.reader());
                  return work(face, by);
                });
    leases.letGo(face.id(), by.reader());
    return signed;
  }

  /** Makes a new draft of what the reader signed, or of what stands, to be changed. */
  Work reopen(Face face, By by) {
    requireRole(by);
    Work work = look(face, by);
    if (work.task() != Work.Task.DONE) {
      return open(face, by);
    }
    requireLease(work, by);
    Inscription signed = signedBefore(work.readings(), by).map(Reading::inscription).orElseThrow();
    Draft whole;
    try {
      whole = DraftEditing.reopened(signed, work.shown(), work.proposal().map(Proposal::id));
    } catch (DraftEditing.RefusedException e) {
      throw Refusal.refused(sentence(String.valueOf(e.getMessage())));
    }
    return archive
        .ledger()
        .write(
            handle -> {
              requireSame(work, by);
              work.proposal().ifPresent(proposal -> proposals.keep(proposal, by.reader()));
              readings.keepDraft(face.id(), whole, by.reader());
              return work(face, by);
            });
  }

  /** Whether the reader can bring something back. */
  boolean canRedo(Work work) {
    return readings.redoable(work.face().id(), work.reader()).isPresent();
  }

  /** Somebody else who has the face, if he keeps this reader from it. */
  Optional<Leases.Lease> takenBy(Work work) {
    return leases.others(work.face().id(), work.reader()) >= most(work)
        ? leases.other(work.face().id(), work.reader())
        : Optional.empty();
  }

  void letGo(Face face, By by) {
    leases.letGo(face.id(), by.reader());
  }

  private Work ready(Face face, By by, String version) {
    requireRole(by);
    Work work = look(face, by);
    requireLease(work, by);
    if (!work.version().equals(version)) {
      throw changed();
    }
    if (work.task() == Work.Task.DONE) {
      throw Refusal.refused("You have signed this face; reopen it to change something.");
    }
    return work;
  }

  private static void requireRole(By by) {
    if (!by.role().mayDecide()) {
      throw Refusal.of(403, "role", "A guest may look, but not decide.");
    }
  }

  private void requireLease(Work work, By by) {
    Leases.Lease lease = leases.take(work.face().id(), by.reader(), most(work));
    if (!lease.reader().equals(by.reader())) {
      throw Refusal.of(
              409, "taken", lease.reader() + " has this face open; take another meanwhile.")
          .with("by", lease.reader())
          .with("until", lease.until());
    }
  }

  /** Two may read at once where two must, and nobody has signed yet. */
  private static int most(Work work) {
    return work.readings().test()
        ? Integer.MAX_VALUE
        : work.blind() && work.readings().versions().isEmpty() ? 2 : 1;
  }

  /** Within the transaction: whether nothing has moved since the work was looked at. */
  private void requireSame(Work work, By by) {
    if (!work(work.face(), by).version().equals(work.version())) {
      throw changed();
    }
  }

  private static Refusal changed() {
    return Refusal.of(
        409,
        "changed",
        "This reading has been changed in another window meanwhile. Here is how it stands now.");
  }

  private Work work(Face face, By by) {
    FaceReadings signed = readings.ofFace(face.id());
    Optional<DecisionId> at = readings.draftDecision(face.id(), by.reader());
    Optional<Draft> stored = at.flatMap(id -> readings.draft(face.id(), by.reader()));
    Optional<Proposal> proposal =
        stored.isPresent() ? stored.flatMap(draft -> begunFrom(face, draft)) : latest(face);
    boolean heldBack = signed.required() > 1 && signed.sealed();
    List<Suggestion> shown =
        proposal
            .map(
                found ->
                    heldBack
                        ? Suggestion.heldBack(found, PlainWords::contains)
                        : Suggestion.of(found))
            .orElse(List.of());
    Work.Task task = task(signed, by, stored.isPresent());
    try {
      if (stored.isPresent()) {
        return new Work(
            face,
            by.reader(),
            task,
            Objects.toString(at.orElseThrow()),
            true,
            stored.get(),
            proposal,
            shown,
            signed);
      }
      Optional<Reading> signedBefore = signedBefore(signed, by);
      String version;
      Draft draft;
      if (task == Work.Task.SETTLE) {
        FaceReadings.Two two = signed.two().orElseThrow();
        version = "settle-" + two.first().id() + "-" + two.second().id();
        draft = DraftEditing.between(two, shown, proposal.map(Proposal::id));
      } else if (task != Work.Task.READ && signedBefore.isPresent()) {
        version = "signed-" + signedBefore.get().id();
        draft = reopened(signedBefore.get().inscription(), shown, proposal);
      } else {
        version = "fresh-" + proposal.map(found -> found.id().toString()).orElse("none");
        draft = Draft.begin(shown, proposal.map(Proposal::id));
      }
      return new Work(face, by.reader(), task, version, false, draft, proposal, shown, signed);
    } catch (LeidenException | DraftEditing.RefusedException e) {
      throw new IllegalStateException("what was signed of " + face.id() + " can't be opened", e);
    }
  }

  /** What a reader would reopen: his own where others don't see it, else what stands. */
  private static Optional<Reading> signedBefore(FaceReadings signed, By by) {
    return signed
        .by(by.reader())
        .filter(own -> signed.required() > 1 || signed.test())
        .or(signed::current);
  }

  private static Draft reopened(
      Inscription inscription, List<Suggestion> shown, Optional<Proposal> proposal) {
    try {
      return DraftEditing.reopened(inscription, shown, proposal.map(Proposal::id));
    } catch (DraftEditing.RefusedException e) {
      return DraftEditing.plain(inscription, shown, proposal.map(Proposal::id));
    }
  }

  private static Work.Task task(FaceReadings signed, By by, boolean stored) {
    if (!by.role().mayDecide()) {
      return Work.Task.LOOK;
    }
    boolean own = signed.by(by.reader()).isPresent();
    Optional<FaceReadings.Two> two = signed.required() < 2 ? Optional.empty() : signed.two();
    boolean third =
        two.isPresent()
            && !two.get().first().reader().equals(by.reader())
            && !two.get().second().reader().equals(by.reader());
    if (stored) {
      return third ? Work.Task.SETTLE : Work.Task.READ;
    }
    if (third && signed.state() == FaceReadings.State.TO_SETTLE) {
      return Work.Task.SETTLE;
    }
    boolean done =
        signed.current().isPresent() || (own && (signed.required() > 1 || signed.test()));
    return done ? Work.Task.DONE : Work.Task.READ;
  }

  private Optional<Proposal> begunFrom(Face face, Draft draft) {
    return draft.proposal().flatMap(id -> proposal(face.id(), id));
  }

  private Optional<Proposal> latest(Face face) {
    return latest(face.id());
  }

  private Optional<Proposal> latest(FaceId face) {
    Optional<ProposalId> id = proposals.latestId(face);
    synchronized (recent) {
      Proposal known = id.map(recent::get).orElse(null);
      if (known != null) {
        return Optional.of(known);
      }
    }
    Optional<Proposal> read = proposals.latest(face);
    read.ifPresent(
        proposal -> {
          synchronized (recent) {
            recent.put(proposal.id(), proposal);
          }
        });
    return read;
  }

  /** A proposal of a face by its id: the newest, or one that somebody has used. */
  Optional<Proposal> proposal(FaceId face, ProposalId id) {
    return latest(face)
        .filter(proposal -> proposal.id().equals(id))
        .or(() -> proposals.kept(id))
        .filter(proposal -> proposal.face().filter(face::equals).isPresent());
  }

  private static String sentence(String message) {
    String first = message.substring(0, 1).toUpperCase(java.util.Locale.ROOT);
    return first + message.substring(1) + (message.endsWith(".") ? "" : ".");
  }
}
