package rakelight.work;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
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
import rakelight.inscription.Settling;
import rakelight.inscription.Suggestion;
import rakelight.photo.Face;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

/**
 * Opens faces for readers and takes their decisions. Each change is in the journal when its method
 * returns. Thread-safe.
 */
public final class Faces {
  private static final int PROPOSALS_KEPT = 64;

  private final Archive archive;
  private final ReadingStore readings;
  private final ProposalStore proposals;
  private final LeftFaceStore leftFaces;
  private final Leases leases;
  private final Map<ProposalId, Proposal> recent =
      new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<ProposalId, Proposal> eldest) {
          return size() > PROPOSALS_KEPT;
        }
      };

  public Faces(Archive archive, Leases leases) {
    this.archive = archive;
    this.readings = new ReadingStore(archive);
    this.proposals = new ProposalStore(archive);
    this.leftFaces = new LeftFaceStore(archive);
    this.leases = leases;
  }

  /** The face as it is before this reader; takes no lease. */
  public Work look(Face face, NamedReader by) {
    return archive.ledger().read(handle -> work(face, by));
  }

  /** The face as it is before this reader, who takes it up unless somebody else has it. */
  public Work open(Face face, NamedReader by) {
    Work work = look(face, by);
    if (work.task() == Work.Task.READ || work.task() == Work.Task.SETTLE) {
      leases.take(face.id(), by.name(), most(work));
    }
    return work;
  }

  /** Renews the reader's lease. */
  public void hold(Face face, NamedReader by) {
    requireLease(look(face, by), by);
  }

  /** What a reader asks to be done with his draft. */
  @FunctionalInterface
  public interface Change {
    /**
     * @throws RefusedException if a rule forbids it
     */
    Draft of(Work work) throws LeidenException, DraftEditing.RefusedException;
  }

  /**
   * Makes one change to a reader's draft.
   *
   * @param version the state of the draft that the change is meant for
   * @throws RefusedException if the draft stands otherwise by now, or the change can't be made
   */
  public Work change(Face face, NamedReader by, String version, Change change) {
    Work work = ready(face, by, version);
    Draft changed;
    try {
      changed = change.of(work);
    } catch (LeidenException | DraftEditing.RefusedException | IllegalArgumentException e) {
      throw impossible(String.valueOf(e.getMessage()));
    }
    if (!work.stored() || !changed.equals(work.draft())) {
      keep(work, changed, by);
    }
    return look(face, by);
  }

  /** Keeps a draft; where there was none, with the proposal it began from. */
  private void keep(Work work, Draft changed, NamedReader by) {
    keep(work, changed, Optional.empty(), by);
  }

  /**
   * Keeps a draft that may go on with another proposal than it began from.
   *
   * @param mended that proposal, made from the one before
   */
  void keep(Work work, Draft changed, Optional<Proposal> mended, NamedReader by) {
    archive
        .ledger()
        .write(
            handle -> {
              requireSameDraft(work);
              if (!work.stored()) {
                requireSameReadings(work);
              }
              if (!work.stored() || mended.isPresent()) {
                work.proposal().ifPresent(proposal -> proposals.keep(proposal, by.name()));
                mended.ifPresent(proposal -> proposals.keep(proposal, by.name()));
              }
              readings.keepDraft(work.face().id(), changed, by.name());
              return changed;
            });
  }

  /**
   * Takes the reader's last change back.
   *
   * @throws RefusedException if there is none, or the draft stands otherwise by now
   */
  public Work undo(Face face, NamedReader by, String version) {
    Work work = ready(face, by, version);
    return takeBack(
        work, by, readings.draftDecision(face.id(), by.name()), new Refused.NothingToTakeBack());
  }

  /**
   * Brings back what the last undo took.
   *
   * @throws RefusedException if there is nothing, or the draft stands otherwise by now
   */
  public Work redo(Face face, NamedReader by, String version) {
    Work work = ready(face, by, version);
    return takeBack(
        work, by, readings.redoable(face.id(), by.name()), new Refused.NothingToBringBack());
  }

  private Work takeBack(Work work, NamedReader by, Optional<DecisionId> last, Refused otherwise) {
    DecisionId decision = last.orElseThrow(() -> new RefusedException(otherwise));
    archive
        .ledger()
        .write(
            handle -> {
              requireSameDraft(work);
              return archive.journal().undo(decision, by.name());
            });
    return look(work.face(), by);
  }

  /**
   * Signs the reader's draft.
   *
   * @param before the reading that stood when the reader last looked
   * @throws RefusedException if letters are open, or the draft or what was signed of the face
   *     stands otherwise by now
   */
  public Work sign(
      Face face, NamedReader by, String version, Basis basis, Optional<ReadingId> before) {
    Work work = ready(face, by, version);
    if (!work.before().map(Reading::id).equals(before)) {
      throw superseded(work.before());
    }
    Draft draft = work.draft();
    if (!draft.isSettled()) {
      throw new RefusedException(new Refused.Undecided(firstOpen(draft)));
    }
    Inscription inscription;
    try {
      inscription = draft.inscription();
    } catch (LeidenException e) {
      throw new RefusedException(
          new Refused.Impossible("Line " + e.line() + ", " + e.getMessage() + "."));
    }
    List<ReadingId> settles =
        work.settling().map(two -> List.of(two.first().id(), two.second().id())).orElse(List.of());
    archive
        .ledger()
        .write(
            handle -> {
              requireSameDraft(work);
              requireSameReadings(work);
              return readings.sign(
                  face.id(), inscription, basis, draft.proposal(), settles, by.name());
            });
    leases.letGo(face.id(), by.name());
    return look(face, by);
  }

  /** The first line with an open letter, from 1; 0 if there is no line. */
  private static int firstOpen(Draft draft) {
    int line = 0;
    while (line < draft.lines().size() && draft.lines().get(line).isSettled()) {
      line++;
    }
    return line < draft.lines().size() ? line + 1 : 0;
  }

  /**
   * Makes a new draft of what the reader signed, or of what stands, to be changed.
   *
   * @throws RefusedException if it can't be parted at its lines, or somebody has the face
   */
  public Work reopen(Face face, NamedReader by) {
    by.requireDeciding();
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
      throw impossible(String.valueOf(e.getMessage()));
    }
    keep(work, whole, by);
    return look(face, by);
  }

  /**
   * Puts a face aside for another reader or for a visit; a second time changes why.
   *
   * @param note in the reader's words; may be empty
   */
  public void leave(Face face, NamedReader by, LeftFace.Why why, String note) {
    by.requireDeciding();
    leftFaces.leave(face.id(), why, note, by.name());
    letGo(face, by);
  }

  /** Takes every decision back by which a face is put aside. */
  public void comeBack(Face face, NamedReader by) {
    by.requireDeciding();
    leftFaces.comeBack(face.id(), by.name());
  }

  /** Whether the reader can bring something back. */
  public boolean canRedo(Work work) {
    return readings.redoable(work.face().id(), work.reader()).isPresent();
  }

  /** The lease of another who keeps this reader from the face, else this reader's own. */
  public Optional<Leases.Lease> lease(Work work) {
    return leases.others(work.face().id(), work.reader()) >= most(work)
        ? leases.other(work.face().id(), work.reader())
        : leases.of(work.face().id(), work.reader());
  }

  /** Gives the reader's lease back. */
  public void letGo(Face face, NamedReader by) {
    leases.letGo(face.id(), by.name());
  }

  /** The face before a reader who may change his draft of it now, and means this version. */
  Work ready(Face face, NamedReader by, String version) {
    by.requireDeciding();
    Work work = look(face, by);
    requireLease(work, by);
    if (!work.version().equals(version)) {
      throw new RefusedException(new Refused.Changed());
    }
    if (work.task() == Work.Task.DONE) {
      throw new RefusedException(new Refused.AlreadySigned());
    }
    return work;
  }

  private void requireLease(Work work, NamedReader by) {
    Leases.Lease lease = leases.take(work.face().id(), by.name(), most(work));
    if (!lease.reader().equals(by.name())) {
      throw new RefusedException(new Refused.Taken(lease.reader(), lease.until()));
    }
  }

  /** Two may read at once where two must, and nobody has signed yet. */
  private static int most(Work work) {
    return work.readings().test()
        ? Integer.MAX_VALUE
        : work.blind() && work.readings().versions().isEmpty() ? 2 : 1;
  }

  /** Within the transaction: whether the draft is still the one that was looked at. */
  private void requireSameDraft(Work work) {
    Optional<String> version =
        readings.draftDecision(work.face().id(), work.reader()).map(DecisionId::toString);
    if (!version.equals(Optional.of(work.version()).filter(seen -> work.stored()))) {
      throw new RefusedException(new Refused.Changed());
    }
  }

  /** Within the transaction: whether what was signed is still what was looked at. */
  private void requireSameReadings(Work work) {
    if (work.readsAlone()) {
      return;
    }
    List<ReadingId> seen = work.readings().versions().stream().map(Reading::id).toList();
    if (!readings.signedIds(work.face().id()).equals(seen)) {
      throw superseded(readings.current(work.face().id()));
    }
  }

  private static RefusedException superseded(Optional<Reading> now) {
    return new RefusedException(new Refused.Superseded(now.map(Reading::reader)));
  }

  static RefusedException impossible(String message) {
    String first = message.substring(0, 1).toUpperCase(Locale.ROOT);
    return new RefusedException(
        new Refused.Impossible(first + message.substring(1) + (message.endsWith(".") ? "" : ".")));
  }

  private Work work(Face face, NamedReader by) {
    FaceReadings signed = readings.ofFace(face.id());
    Optional<DecisionId> at = readings.draftDecision(face.id(), by.name());
    Optional<Draft> stored = at.flatMap(id -> readings.draft(face.id(), by.name()));
    Optional<Proposal> proposal =
        stored.isPresent()
            ? stored.flatMap(draft -> begunFrom(face, draft))
            : drawnOn(face, signed, by).or(() -> latest(face));
    List<Suggestion> shown =
        proposal.map(found -> Sight.shown(found, signed.heldBack())).orElse(List.of());
    Work.Task task = task(signed, by, stored.isPresent());
    try {
      if (stored.isPresent()) {
        return new Work(
            face,
            by.name(),
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
        draft = Settling.begin(two, shown, proposal.map(Proposal::id));
      } else if (task != Work.Task.READ && signedBefore.isPresent()) {
        version = "signed-" + signedBefore.get().id();
        draft = reopened(signedBefore.get().inscription(), shown, proposal);
      } else {
        version = "fresh-" + proposal.map(found -> found.id().toString()).orElse("none");
        draft = Draft.begin(shown, proposal.map(Proposal::id));
      }
      return new Work(face, by.name(), task, version, false, draft, proposal, shown, signed);
    } catch (LeidenException | DraftEditing.RefusedException e) {
      throw new IllegalStateException("what was signed of " + face.id() + " can't be opened", e);
    }
  }

  /** What a reader would reopen: his own where others don't see it, else what stands. */
  private static Optional<Reading> signedBefore(FaceReadings signed, NamedReader by) {
    return signed
        .by(by.name())
        .filter(own -> signed.required() > 1 || signed.test())
        .or(signed::current);
  }

  static Draft reopened(
      Inscription inscription, List<Suggestion> shown, Optional<Proposal> proposal) {
    try {
      return DraftEditing.reopened(inscription, shown, proposal.map(Proposal::id));
    } catch (DraftEditing.RefusedException e) {
      return DraftEditing.plain(inscription, shown, proposal.map(Proposal::id));
    }
  }

  private static Work.Task task(FaceReadings signed, NamedReader by, boolean stored) {
    if (!by.role().mayDecide()) {
      return Work.Task.LOOK;
    }
    boolean own = signed.by(by.name()).isPresent();
    boolean third = signed.toSettle(by.name()).isPresent();
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

  /** The proposal a reader signed from, if lines were drawn on it: no machine makes it again. */
  private Optional<Proposal> drawnOn(Face face, FaceReadings signed, NamedReader by) {
    return signedBefore(signed, by)
        .flatMap(Reading::proposal)
        .flatMap(id -> proposal(face.id(), id))
        .filter(proposal -> proposal.mends().isPresent());
  }

  private Optional<Proposal> begunFrom(Face face, Draft draft) {
    return draft.proposal().flatMap(id -> proposal(face.id(), id));
  }

  private Optional<Proposal> latest(Face face) {
    return latest(face.id());
  }

  /** The newest proposal of a face. */
  Optional<Proposal> newestProposal(FaceId face) {
    return latest(face);
  }

  private Optional<Proposal> latest(FaceId face) {
    return proposals.latestId(face).flatMap(id -> remembered(id, () -> proposals.latest(face)));
  }

  /** A proposal never changes, so it is read once. */
  private Optional<Proposal> remembered(ProposalId id, Supplier<Optional<Proposal>> read) {
    synchronized (recent) {
      Proposal known = recent.get(id);
      if (known != null) {
        return Optional.of(known);
      }
    }
    Optional<Proposal> found = read.get();
    found.ifPresent(
        proposal -> {
          synchronized (recent) {
            recent.put(proposal.id(), proposal);
          }
        });
    return found;
  }

  /** A proposal of a face by its id: the newest, or one that somebody has used. */
  public Optional<Proposal> proposal(FaceId face, ProposalId id) {
    return latest(face)
        .filter(proposal -> proposal.id().equals(id))
        .or(
            () ->
                proposals.isKept(id) ? remembered(id, () -> proposals.kept(id)) : Optional.empty())
        .filter(proposal -> proposal.face().filter(face::equals).isPresent());
  }
}
