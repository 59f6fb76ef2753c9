package rakelight.work;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.Joining;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.archive.Sha256;
import rakelight.archive.Uuid7;
import rakelight.archive.Withdrawals;
import rakelight.archive.Withdrawals.What;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.SourceStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.search.GroundSearch;

/**
 * Takes photographs, readings and markers out of the working archive, with what was made of them.
 * An archivist's alone. What keeps something from publication only is {@code withhold}.
 */
public final class Withdrawing {
  private final Archive archive;
  private final PhotoStore photographs;
  private final ProposalStore proposals;

  /**
   * Why, and what becomes of the bytes.
   *
   * @param sealed whether bytes of originals are kept, sealed; otherwise they are deleted
   */
  public record Terms(String reason, Optional<String> askedBy, boolean sealed) {}

  /**
   * What was withdrawn.
   *
   * @param decision the last one of the act, by which all of it is taken back
   * @param photographs how many
   * @param journal how many earlier decisions still speak of it
   */
  public record Done(DecisionId decision, int photographs, int journal) {}

  public Withdrawing(Archive archive) {
    this.archive = archive;
    this.photographs = new PhotoStore(archive);
    this.proposals = new ProposalStore(archive);
  }

  /** What to see to when histories come together. */
  public static Joining joining() {
    return new WithdrawalJoining();
  }

  /** A photograph, with proposals that were made of it, also together with others. */
  public Done photograph(Photograph photograph, Terms terms, NamedReader by) {
    return withdraw(List.of(photograph), Map.of(), terms, by);
  }

  /**
   * All that people signed or drafted of a face. Its photographs stay, and so does what a machine
   * proposes.
   *
   * @throws ArchiveException if nothing was
   */
  public Done reading(Face face, Terms terms, NamedReader by) {
    ReadingStore readings = new ReadingStore(archive);
    if (readings.versions(face.id()).isEmpty() && readings.drafting(face.id()).isEmpty()) {
      throw new ArchiveException("Nobody has read that face yet; there is nothing to withdraw.");
    }
    return withdraw(List.of(), Map.of(face.id().value(), What.READING), terms, by);
  }

  /** A marker with its faces, their photographs, readings and notes, and links to it. */
  public Done marker(Marker marker, Terms terms, NamedReader by) {
    List<Photograph> shots = new ArrayList<>();
    Map<UUID, What> things = new LinkedHashMap<>();
    List<MarkerId> all = new ArrayList<>(new MarkerStore(archive).mergedInto(marker.id()));
    all.add(marker.id());
    for (MarkerId one : all) {
      for (Face face : photographs.faces(one)) {
        shots.addAll(photographs.onFace(face.id()));
        things.put(face.id().value(), What.FACE);
      }
      things.put(one.value(), What.MARKER);
    }
    return withdraw(shots, things, terms, by);
  }

  /**
   * @param things what else, by subject, in the order in which it can go
   */
  private Done withdraw(
      List<Photograph> shots, Map<UUID, What> things, Terms terms, NamedReader by) {
    by.requireArchivist();
    if (terms.reason().isBlank()) {
      throw new ArchiveException("Say in words why it is withdrawn (--reason).");
    }
    requireNoScan(shots);
    UUID batch = Uuid7.next();
    Withdrawals.Said said =
        new Withdrawals.Said(
            terms.reason().strip(),
            terms.askedBy().map(String::strip).filter(name -> !name.isEmpty()),
            batch,
            Optional.empty());
    Set<Sha256> originals = new HashSet<>();
    Done done =
        archive
            .ledger()
            .write(
                handle -> {
                  List<Decision> act = new ArrayList<>();
                  Withdrawals withdrawals = archive.withdrawals();
                  for (Photograph shot : shots) {
                    originals.add(shot.sha256());
                    Withdrawals.Said ofShot =
                        new Withdrawals.Said(
                            said.reason(),
                            said.askedBy(),
                            batch,
                            Optional.of(
                                new Withdrawals.Original(
                                    shot.sha256(),
                                    shot.format().extension(),
                                    shot.sizeBytes(),
                                    terms.sealed())));
                    act.add(
                        withdrawals.withdraw(
                            What.PHOTOGRAPH, shot.id().value(), ofShot, by.name()));
                  }
                  for (Proposal proposal : madeOf(shots, things)) {
                    act.add(
                        withdrawals.withdraw(
                            What.PROPOSAL, proposal.id().value(), said, by.name()));
                  }
                  things.forEach(
                      (subject, what) ->
                          act.add(withdrawals.withdraw(what, subject, said, by.name())));
                  return new Done(act.get(act.size() - 1).id(), shots.size(), speaking(act));
                });
    clearAway(originals);
    return done;
  }

  /** Used proposals that were made of a photograph, or are of a face. */
  private List<Proposal> madeOf(List<Photograph> shots, Map<UUID, What> things) {
    Set<PhotographId> ids = new HashSet<>();
    shots.forEach(shot -> ids.add(shot.id()));
    return proposals.allKept().stream()
        .filter(
            proposal ->
                proposal.photographs().stream().anyMatch(ids::contains)
                    || proposal
                        .face()
                        .map(FaceId::value)
                        .filter(face -> things.get(face) == What.FACE)
                        .isPresent())
        .toList();
  }

  /** The earlier decisions about what an act withdraws. */
  private int speaking(List<Decision> act) {
    return act.stream()
        .mapToInt(
            one ->
                (int)
                    archive.journal().bySubject(one.subject()).stream()
                        .filter(earlier -> !Withdrawals.isWithdrawal(earlier))
                        .count())
        .sum();
  }

  /** Deletes what follows from the ledger or was made of these originals, and moves the bytes. */
  private void clearAway(Set<Sha256> originals) {
    archive.conclusions().forget();
    archive.withdrawals().putAway(originals);
    new GroundSearch(archive).makeAnewIfThere();
  }

  private void requireNoScan(List<Photograph> shots) {
    Set<Sha256> scans = new HashSet<>();
    new SourceStore(archive)
        .sources()
        .forEach(source -> source.scans().forEach(scan -> scans.add(scan.sha256())));
    for (Photograph shot : shots) {
      if (scans.contains(shot.sha256())) {
        throw new ArchiveException(
            shot.originalName()
                + ": the same bytes are a scan of a source. Undo the scan first, then withdraw"
                + " it.");
      }
    }
  }
}
