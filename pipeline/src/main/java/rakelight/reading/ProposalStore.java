package rakelight.reading;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.PhotographId;
import rakelight.archive.Projection;
import rakelight.archive.ProposalId;
import rakelight.archive.Stage;
import rakelight.photo.PhotoStore;

/**
 * Proposals of an archive.
 *
 * <p>A proposal is a derivation: {@code derived/proposal/ab/KEY.json}. Which one is the newest of a
 * face stands in {@code derived/newest-proposal/ab/KEY.json}, the key made from the face's id, so
 * that it can be found without loading any network; it doesn't count once a photograph that it was
 * made from has been put to another face. Once a person has used a proposal it is also kept in the
 * ledger, as one JSON document that never changes.
 */
public final class ProposalStore {
  static final Stage STAGE = new Stage("proposal", 2);
  private static final Stage NEWEST = new Stage("newest-proposal", 1);

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
    return latestKey(face).flatMap(this::made);
  }

  /** The key of the newest proposal for a face. */
  public Optional<DerivationKey> latestKey(FaceId face) {
    return newest(face.value())
        .filter(newest -> !photos.isAnyElsewhere(newest.photographs(), face))
        .map(Newest::proposal);
  }

  /** The newest proposal for a photograph that isn't on any face. */
  public Optional<Proposal> latest(PhotographId photograph) {
    return newest(photograph.value()).map(Newest::proposal).flatMap(this::made);
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

  /**
   * Keeps a proposal for ever, because this reader has used it; a second time does nothing. Call it
   * in the transaction that writes what rests on it.
   */
  public void keep(Proposal proposal, String reader) {
    archive
        .ledger()
        .write(
            handle -> {
              if (kept(proposal.id()).isEmpty()) {
                archive
                    .journal()
                    .append(NewDecision.of(reader, KEPT, 1, proposal.id().value(), proposal));
              }
              return proposal;
            });
  }

  /** A proposal by its key. */
  public Optional<Proposal> made(DerivationKey key) {
    return read(archive.derived().path(STAGE, key, "json"), Proposal.class);
  }

  /** Writes a proposal and makes it the newest of its face or photograph. */
  void write(Proposal proposal, UUID subject) throws IOException {
    archive.derived().write(STAGE, proposal.key(), "json", out -> out.write(bytes(proposal)));
    pointTo(proposal, subject);
  }

  /** Makes a proposal that was made before the newest of its subject. */
  void pointTo(Proposal proposal, UUID subject) throws IOException {
    Newest newest = new Newest(proposal.key(), proposal.photographs());
    if (newest(subject).filter(newest::equals).isEmpty()) {
      archive.derived().write(NEWEST, pointer(subject), "json", out -> out.write(bytes(newest)));
    }
  }

  private Optional<Newest> newest(UUID subject) {
    return read(archive.derived().path(NEWEST, pointer(subject), "json"), Newest.class);
  }

  /**
   * What a pointer says.
   *
   * @param photographs those the proposal was made from; none where an earlier program wrote it
   */
  private record Newest(DerivationKey proposal, List<PhotographId> photographs) {
    Newest(DerivationKey proposal, @Nullable List<PhotographId> photographs) {
      this.proposal = proposal;
      this.photographs = photographs == null ? List.of() : List.copyOf(photographs);
    }
  }

  private static DerivationKey pointer(UUID subject) {
    return DerivationKey.of(NEWEST, List.of(), Map.of("subject", subject.toString()), List.of());
  }

  static byte[] bytes(Object value) {
    return (Json.text(value) + "\n").getBytes(StandardCharsets.UTF_8);
  }

  /** Reads a derived document; one that can't be read is as good as missing and is made anew. */
  static <T> Optional<T> read(Path file, Class<T> type) {
    try {
      return Files.exists(file)
          ? Optional.of(Json.read(Files.readString(file, StandardCharsets.UTF_8), type))
          : Optional.empty();
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
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
          "INSERT INTO kept_proposal (id, face_id, counter, document) VALUES (?, ?, ?, ?)",
          decision.subject().toString(),
          decision.payload().path("face").asText(null),
          decision.counter(),
          Json.text(decision.payload()));
    }
  }
}
