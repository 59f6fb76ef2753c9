package rakelight.work;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiPredicate;
import rakelight.archive.Archive;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.reading.ProposalStore;

/**
 * Which proposal is the newest of each face, for whoever asks about many faces again and again. A
 * note is read once, and again when its folder has been written to, by whichever process. Not
 * thread-safe.
 */
final class NewestProposals {
  /** File systems tell times in steps; a folder written to so lately is looked at once more. */
  private static final Duration COARSEST_STEP = Duration.ofSeconds(2);

  private final Archive archive;
  private final ProposalStore proposals;
  private final Map<Path, FileTime> written = new HashMap<>();
  private final Map<Path, List<FaceId>> inFolder = new HashMap<>();
  private final Map<FaceId, Optional<ProposalStore.Newest>> newest = new HashMap<>();

  NewestProposals(Archive archive) {
    this.archive = archive;
    this.proposals = new ProposalStore(archive);
  }

  /**
   * Looks into the folders that were written to since the last time.
   *
   * @return the faces asked about before that have another newest proposal now
   */
  public List<FaceId> refresh() {
    List<FaceId> changed = new ArrayList<>();
    inFolder.forEach(
        (folder, faces) -> {
          if (hasBeenWritten(folder)) {
            for (FaceId face : faces) {
              Optional<ProposalStore.Newest> now = proposals.newest(face.value());
              if (!now.equals(newest.put(face, now))) {
                changed.add(face);
              }
            }
          }
        });
    return changed;
  }

  /**
   * The key of the newest proposal for a face, as of the last look.
   *
   * @param isAnyElsewhere whether any of the photographs it was made from is on another face by
   *     now; then it doesn't count
   */
  public Optional<DerivationKey> key(
      FaceId face, BiPredicate<List<PhotographId>, FaceId> isAnyElsewhere) {
    Optional<ProposalStore.Newest> known = newest.get(face);
    if (known == null) {
      Path folder =
          archive
              .derived()
              .note(ProposalStore.NEWEST, face.value())
              .resolveSibling(".")
              .normalize();
      if (!inFolder.containsKey(folder)) {
        hasBeenWritten(folder);
      }
      inFolder.computeIfAbsent(folder, first -> new ArrayList<>()).add(face);
      known = proposals.newest(face.value());
      newest.put(face, known);
    }
    return known
        .filter(
            one ->
                !isAnyElsewhere.test(
                    one.photographs().stream().map(ProposalStore.Shot::photograph).toList(), face))
        .map(ProposalStore.Newest::proposal);
  }

  /** Whether a folder may have been written to since this was last asked of it. */
  private boolean hasBeenWritten(Path folder) {
    FileTime now;
    try {
      now = Files.getLastModifiedTime(folder);
    } catch (NoSuchFileException e) {
      now = FileTime.from(Instant.EPOCH);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    boolean same = now.equals(written.put(folder, now));
    if (now.toInstant().plus(COARSEST_STEP).isAfter(Instant.now())) {
      written.remove(folder);
    }
    return !same;
  }
}
