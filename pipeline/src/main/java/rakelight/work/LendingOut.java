package rakelight.work;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.function.Consumer;
import java.util.function.IntConsumer;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.BadInputException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.Joining;
import rakelight.archive.LentPart;
import rakelight.archive.MarkerId;
import rakelight.archive.Merging;
import rakelight.archive.Projection;
import rakelight.archive.Sha256;
import rakelight.archive.Uuid7;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;
import rakelight.reading.FacePictures;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

/**
 * Lends markers to somebody who reads them on another machine, and takes in what was decided there.
 *
 * <p>The part has the photographs reduced, with all pictures that a reader looks at, the proposals,
 * what was noted of these markers and signed of their faces, and the ground's settings. It has no
 * original, nothing of other markers, no links, families, sources or questions, no draft but the
 * borrower's own, and nothing sealed.
 */
public final class LendingOut {
  /** What goes along about a marker, a face or a photograph. */
  private static final Set<String> GOING =
      Set.of(
          "marker.created",
          "marker.renumbered",
          "marker.merged",
          "marker.described",
          "marker.withheld",
          "condition.noted",
          "position.noted",
          "row.placed",
          "emblem.seen",
          "face.created",
          "face.described",
          "face.moved",
          "face.withheld",
          "face.left",
          "person.withheld",
          "person.died",
          "parse.corrected",
          "reading.signed",
          "photograph.also-shows",
          "photograph.ingested",
          "photograph.credited",
          "photograph.dated",
          "photograph.assigned",
          "photograph.withheld",
          ProposalStore.KEPT);

  private final Archive archive;
  private final List<Projection> projections;
  private final LendingStore lendings;

  public LendingOut(Archive archive, List<Projection> projections) {
    this.archive = archive;
    this.projections = List.copyOf(projections);
    this.lendings = new LendingStore(archive);
  }

  /**
   * What was lent.
   *
   * @param unmade pictures that couldn't be made, a line for each photograph
   */
  public record Lent(
      List<Marker> markers, int photographs, long sizeBytes, int decisions, List<String> unmade) {
    public Lent {
      markers = List.copyOf(markers);
      unmade = List.copyOf(unmade);
    }
  }

  /**
   * Lends markers.
   *
   * @param target a folder that is empty or doesn't exist yet
   * @param begun is told how many photographs there are
   * @param progress is told of each photograph whose pictures are made
   * @throws ArchiveException if there is no such marker, or the folder can't be written
   */
  public Lent lend(
      List<String> numbers,
      String borrower,
      Path target,
      NamedReader by,
      IntConsumer begun,
      Consumer<Photograph> progress)
      throws IOException {
    by.requireArchivist();
    archive.requireWritable();
    if (LentPart.of(archive).isPresent()) {
      throw new ArchiveException(
          archive.root() + ": lent itself; lend from the archive it was lent from.");
    }
    if (borrower.isBlank()) {
      throw new ArchiveException("Say who borrows them (--for).");
    }
    MarkerStore markers = new MarkerStore(archive);
    PhotoStore photos = new PhotoStore(archive);
    Set<Marker> chosen = new LinkedHashSet<>();
    numbers.forEach(number -> chosen.add(markers.named(number)));
    Set<UUID> subjects = new HashSet<>();
    List<UUID> noted = new ArrayList<>();
    List<Photograph> shots = new ArrayList<>();
    List<Face> faces = new ArrayList<>();
    for (Marker marker : chosen) {
      List<MarkerId> all = new ArrayList<>(markers.mergedInto(marker.id()));
      all.add(marker.id());
      for (MarkerId one : all) {
        subjects.add(one.value());
        faces.addAll(photos.faces(one));
      }
    }
    for (Face face : faces) {
      subjects.add(face.id().value());
      noted.add(face.id().value());
      shots.addAll(photos.ofFace(face.id()));
    }
    List<String> unmade = new ArrayList<>();
    begun.accept(shots.size());
    makePictures(faces, shots, unmade, progress);
    shots.forEach(shot -> subjects.add(shot.id().value()));
    ProposalStore proposals = new ProposalStore(archive);
    proposals.allKept().stream()
        .filter(proposal -> proposal.face().filter(f -> subjects.contains(f.value())).isPresent())
        .forEach(proposal -> subjects.add(proposal.id().value()));
    Set<DecisionId> origins = new HashSet<>();
    for (Face face : faces) {
      archive.journal().standing(face.id().value()).forEach(one -> origins.addAll(one.restsOn()));
    }
    UUID id = Uuid7.next();
    lendings.lend(id, borrower.strip(), chosen.stream().map(Marker::id).toList(), by.name());
    LentPart.Written written =
        LentPart.write(
            archive,
            target,
            id,
            decision -> goes(decision, subjects, origins, id, borrower.strip()),
            shots.stream().map(Photograph::sha256).collect(Collectors.toSet()),
            noted,
            ProposalStore.NEWEST);
    return new Lent(
        List.copyOf(chosen), shots.size(), written.sizeBytes(), written.decisions(), unmade);
  }

  private boolean goes(
      Decision decision,
      Set<UUID> subjects,
      Set<DecisionId> origins,
      UUID lending,
      String borrower) {
    String kind = decision.kind();
    if (kind.equals(LendingStore.LENT)) {
      return decision.subject().equals(lending);
    }
    if (kind.startsWith("ground.") || kind.equals("term.added")) {
      return true;
    }
    if (!subjects.contains(decision.subject())) {
      // A face that came from another marker needs that it was made there, and no more of it.
      return kind.equals("marker.created") && origins.contains(decision.id());
    }
    if (archive.withdrawals().hides(decision)) {
      return false;
    }
    if (ReadingStore.isOfDraft(decision)) {
      return decision.reader().equals(borrower);
    }
    return GOING.contains(kind) && !new ReadingStore(archive).isSealed(decision);
  }

  /** All that a reader looks at, made beforehand: the part has nothing to make it from. */
  private void makePictures(
      List<Face> faces, List<Photograph> shots, List<String> unmade, Consumer<Photograph> progress)
      throws IOException {
    FacePictures pictures = new FacePictures(archive);
    for (Photograph shot : shots) {
      try {
        if (shot.isShown(Picture::isRead)) {
          for (int longestPx : FacePictures.LENT_LONGEST_PX) {
            pictures.smaller(shot, longestPx);
          }
        }
      } catch (BadInputException e) {
        unmade.add(shot.originalName() + ": " + e.getMessage());
      }
      progress.accept(shot);
    }
    ProposalStore proposals = new ProposalStore(archive);
    for (Face face : faces) {
      Optional<Proposal> proposal = proposals.latest(face.id());
      try {
        if (proposal.isPresent() && !proposal.get().lines().isEmpty()) {
          pictures.lines(proposal.get());
          pictures.reliefs(proposal.get());
          for (int line = 1; line <= proposal.get().lines().size(); line++) {
            for (String name : FacePictures.stripNames(proposal.get())) {
              pictures.strip(proposal.get(), line, name);
            }
          }
        }
      } catch (BadInputException e) {
        unmade.add(face.name() + ": " + e.getMessage());
      }
    }
  }

  /**
   * Takes in what was decided in a part.
   *
   * @throws ArchiveException if the folder isn't a part lent from this archive
   */
  public Merging.Result takeBack(
      Path folder, List<Joining> joinings, NamedReader by, Consumer<Path> progress) {
    return meet(
        folder,
        by,
        (lending, part) -> {
          Merging.Result merged =
              Merging.of(archive, part, how(joinings, lending, false), progress);
          if (merged.decisions() > 0 || lending.returned().isEmpty()) {
            lendings.comeBack(lending, merged.decisions(), by.name());
          }
          return merged;
        });
  }

  /**
   * What {@link #takeBack} would bring now; nothing is changed.
   *
   * @throws ArchiveException as {@link #takeBack} does
   */
  public Merging.Result lookAt(
      Path folder, List<Joining> joinings, NamedReader by, Consumer<Path> progress) {
    return meet(
        folder,
        by,
        (lending, part) -> Merging.of(archive, part, how(joinings, lending, true), progress));
  }

  private static Merging.How how(
      List<Joining> joinings, LendingStore.Lending lending, boolean dryRun) {
    return new Merging.How(joinings, Optional.empty(), lending.place(), dryRun);
  }

  private Merging.Result meet(
      Path folder,
      NamedReader by,
      BiFunction<LendingStore.Lending, Archive, Merging.Result> meeting) {
    by.requireArchivist();
    try (Archive part = Archive.openToLook(folder, projections)) {
      UUID id =
          LentPart.of(part)
              .orElseThrow(
                  () ->
                      new ArchiveException(
                          folder
                              + ": not a part that was lent but a whole archive; `merge` takes"
                              + " those."));
      return meeting.apply(lendings.lending(id), part);
    }
  }

  /** The digests of originals that a part does without. */
  public static Set<Sha256> notLent(Archive part) {
    return LentPart.of(part).isEmpty()
        ? Set.of()
        : new PhotoStore(part)
            .photographs().stream()
                .map(Photograph::sha256)
                .filter(digest -> part.originals().find(digest).isEmpty())
                .collect(Collectors.toSet());
  }
}
