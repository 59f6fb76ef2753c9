package rakelight.reading;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.PhotographId;
import rakelight.archive.Projection;
import rakelight.archive.ProposalId;
import rakelight.archive.Sha256;
import rakelight.photo.PhotoStore;

/**
 * Proposals of an archive.
 *
 * <p>A proposal is a derivation, {@code derived/proposal/ab/KEY.json}, with ids and a time put on.
 * Which one is the newest of a face or photograph stands in a note, {@code
 * derived/newest-proposal/ab/UUID.json}, so that it can be found without loading any network; it
 * doesn't count once a photograph that it was made from has been put to another face. Once a person
 * has used a proposal it is also kept in the ledger, as one JSON document that never changes.
 */
public final class ProposalStore {
  /** The kind of notes on which proposal is the newest. */
  public static final String NEWEST = "newest-proposal";

  /** The kind of decision that keeps a proposal for ever. */
  public static final String KEPT = "proposal.kept";

  private final Archive archive;
  private final PhotoStore photos;

  public ProposalStore(Archive archive) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new KeptStore();
  }

  /** The newest proposal for a face. */
  public Optional<Proposal> latest(FaceId face) {
    return newest(face).flatMap(newest -> proposal(face.value(), Optional.of(face), newest));
  }

  /** The id of the newest proposal for a face, without opening it. */
  public Optional<ProposalId> latestId(FaceId face) {
    return newest(face)
        .filter(newest -> archive.derived().madeAt(MergeFace.KIND, newest.proposal()).isPresent())
        .map(newest -> ProposalId.of(face.value(), newest.proposal()));
  }

  /** The newest proposal for a photograph that isn't on any face. */
  public Optional<Proposal> latest(PhotographId photograph) {
    return newest(photograph.value())
        .flatMap(newest -> proposal(photograph.value(), Optional.empty(), newest));
  }

  private Optional<Newest> newest(FaceId face) {
    return newest(face.value())
        .filter(
            newest ->
                !photos.isAnyElsewhere(
                    newest.photographs().stream().map(Shot::photograph).toList(), face));
  }

  /** Puts ids and time on what a stage has made. */
  private Optional<Proposal> proposal(UUID subject, Optional<FaceId> face, Newest newest) {
    DerivationKey key = newest.proposal();
    Optional<MergedFace> merged = archive.derived().result(MergeFace.KIND, key);
    Optional<MergeFace.Input> input = archive.derived().input(MergeFace.KIND, key);
    Optional<Instant> at = archive.derived().madeAt(MergeFace.KIND, key);
    if (merged.isEmpty() || input.isEmpty() || at.isEmpty()) {
      return Optional.empty();
    }
    Map<Sha256, PhotographId> ids =
        newest.photographs().stream().collect(Collectors.toMap(Shot::original, Shot::photograph));
    List<FaceView> views =
        merged.get().views().stream()
            .map(
                view ->
                    new FaceView(
                        id(ids, view.original()),
                        view.outline(),
                        Optional.of(view.proportion()),
                        view.toLeading(),
                        view.emblems(),
                        view.otherStones()))
            .toList();
    List<ProposedLine> lines = new ArrayList<>();
    for (MergedFace.Line line : merged.get().lines()) {
      lines.add(proposed(lines.size() + 1, id(ids, line.original()), line));
    }
    List<UnsureLine> unsure = new ArrayList<>();
    for (MergedFace.Unsure one : merged.get().unsure()) {
      int number = lines.size() + unsure.size() + 1;
      unsure.add(
          new UnsureLine(proposed(number, id(ids, one.line().original()), one.line()), one.p()));
    }
    return Optional.of(
        new Proposal(
            ProposalId.of(subject, key),
            key,
            face,
            views,
            lines,
            input.get().reader().models(),
            at.get(),
            Optional.empty(),
            unsure));
  }

  private static ProposedLine proposed(int number, PhotographId photograph, MergedFace.Line line) {
    return new ProposedLine(
        number,
        photograph,
        line.line().ribbon(),
        line.line().heightPx(),
        line.line().score(),
        line.lattice());
  }

  private static PhotographId id(Map<Sha256, PhotographId> ids, Sha256 original) {
    return Optional.ofNullable(ids.get(original)).orElseThrow();
  }

  /** A proposal that a person has used. */
  public Optional<Proposal> kept(ProposalId id) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT document FROM kept_proposal WHERE id = :id")
                    .bind("id", id.toString())
                    .mapTo(String.class)
                    .findOne())
        .map(document -> Json.read(document, Proposal.class));
  }

  /** Whether a person has used a proposal, and nothing it was made from is withdrawn. */
  public boolean isKept(ProposalId id) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                        .createQuery("SELECT count(*) FROM kept_proposal WHERE id = :id")
                        .bind("id", id.toString())
                        .mapTo(Integer.class)
                        .one()
                    > 0);
  }

  /**
   * Keeps a proposal for ever, because this reader has used it; a second time does nothing. Call it
   * in the transaction that writes what rests on it.
   *
   * @throws ArchiveException if a photograph it was made from is withdrawn
   */
  public void keep(Proposal proposal, String reader) {
    archive
        .ledger()
        .write(
            handle -> {
              if (!isKept(proposal.id())) {
                if (proposal.photographs().stream()
                    .anyMatch(id -> archive.withdrawals().contains(id.value()))) {
                  throw new ArchiveException(
                      "A photograph that this was read from was withdrawn meanwhile; `propose`"
                          + " reads the others anew.");
                }
                archive
                    .journal()
                    .append(NewDecision.of(reader, KEPT, 1, proposal.id().value(), proposal));
              }
              return proposal;
            });
  }

  /** Every proposal that a person has used. */
  public List<Proposal> allKept() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT document FROM kept_proposal ORDER BY counter")
                    .mapTo(String.class)
                    .map(document -> Json.read(document, Proposal.class))
                    .list());
  }

  /** Makes what was merged the newest proposal of a face or photograph. */
  void pointTo(DerivationKey proposal, UUID subject, List<Shot> photographs) throws IOException {
    Newest newest = new Newest(proposal, photographs);
    if (newest(subject).filter(newest::equals).isEmpty()) {
      byte[] json = (Json.text(newest) + "\n").getBytes(StandardCharsets.UTF_8);
      archive.derived().write(archive.derived().note(NEWEST, subject), out -> out.write(json));
    }
  }

  /** What a note says; one that can't be read is as good as none and is made anew. */
  public Optional<Newest> newest(UUID subject) {
    Path file = archive.derived().note(NEWEST, subject);
    try {
      return Files.exists(file)
          ? Optional.of(Json.read(Files.readString(file, StandardCharsets.UTF_8), Newest.class))
          : Optional.empty();
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A photograph that a proposal was made from, and its id here. */
  public record Shot(Sha256 original, PhotographId photograph) {}

  /**
   * What a note says.
   *
   * @param photographs those the proposal was made from
   */
  public record Newest(DerivationKey proposal, List<Shot> photographs) {
    public Newest {
      photographs = List.copyOf(photographs);
    }
  }

  /** Writes the table of kept proposals. */
  private static final class KeptStore implements Projection {
    @Override
    public Set<String> kinds() {
      return Set.of(KEPT);
    }

    @Override
    public Set<String> tables() {
      return Set.of("kept_proposal");
    }

    @Override
    public void clear(Handle handle, UUID subject) {
      handle.execute("DELETE FROM kept_proposal WHERE id = ?", subject.toString());
    }

    @Override
    public void apply(Handle handle, Decision decision) {
      decision.requireVersion(1);
      handle.execute(
          "INSERT OR IGNORE INTO kept_proposal (id, face_id, counter, document) VALUES (?, ?, ?,"
              + " ?)",
          decision.subject().toString(),
          decision.payload().path("face").asText(null),
          decision.counter(),
          Json.text(decision.payload()));
    }
  }
}
