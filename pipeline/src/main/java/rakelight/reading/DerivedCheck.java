package rakelight.reading;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import rakelight.archive.Archive;
import rakelight.archive.DerivationInput;
import rakelight.archive.DerivationKey;
import rakelight.archive.Derived;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.archive.StageKind;
import rakelight.marker.MarkerStore;
import rakelight.photo.CardLook;
import rakelight.photo.Face;
import rakelight.photo.Frame;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.PictureSource;
import rakelight.photo.Showing;
import rakelight.picture.SmallerPicture;
import rakelight.relief.FindCarving;
import rakelight.relief.FindFeatures;
import rakelight.relief.FindLettering;
import rakelight.relief.LightStrips;
import rakelight.relief.LineStrips;
import rakelight.relief.LinesDrawn;
import rakelight.relief.ReliefPictures;

/**
 * Compares what has been derived with what the ledger asks for now, by keys alone: what is out of
 * date, what is missing and what nothing needs any more. Runs no stage.
 *
 * <p>Readings and proposals are asked for by every photograph and face; pictures are made on first
 * sight and never missing. What a kept proposal is shown with is needed as long as that is kept.
 * What is out of date stands until its successor has been made.
 */
public final class DerivedCheck {
  private final Archive archive;
  private final PhotoStore photos;
  private final MarkerStore markers;
  private final ProposalStore proposals;
  private final Proposer proposer;
  private final StageInputs inputs;
  private final ReaderSettings settings;

  private final List<Finding> findings = new ArrayList<>();
  private final List<Derived.Lying> unneeded = new ArrayList<>();

  /** Names needed, by stage. */
  private final Map<String, Set<String>> needed = new HashMap<>();

  /** What a reading is of: an original, by its digest, or a part of it. */
  private record ReadOf(String original, Optional<Frame> frame) {
    ReadOf(Showing showing) {
      this(showing.photograph().sha256().hex(), showing.frame());
    }

    /** The same of an earlier version of the stage. */
    ReadOf(DerivationInput input) {
      this(
          input.input().path("picture").path("original").asText(),
          Optional.of(input.input().path("frame"))
              .filter(JsonNode::isObject)
              .map(frame -> Json.read(frame.toString(), Frame.class)));
    }
  }

  /** Of which no reading is there that is wanted. */
  private final Set<ReadOf> unread = new HashSet<>();

  private final Set<PictureSource> sources = new HashSet<>();
  private final Set<CardLook.Input> cards = new HashSet<>();

  /**
   * @param reader the one that proposals are made with; borrowed
   */
  public DerivedCheck(Archive archive, MachineReader reader) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
    this.proposals = new ProposalStore(archive);
    this.proposer = new Proposer(archive, reader);
    this.inputs = new StageInputs(photos, proposals);
    this.settings = reader.settings();
  }

  /** How a derivation stands to what is asked for. */
  public enum State {
    /** There is one, but the ledger or the models ask for another now. */
    OUT_OF_DATE,
    /** There is none. */
    MISSING,
    /** There is one that nothing asks for. */
    UNNEEDED
  }

  /**
   * Something that isn't as asked for.
   *
   * @param stage its folder
   * @param of the photograph's path, or marker and face; the name of the files where nothing needs
   *     them
   * @param sizeBytes on disk; 0 where nothing is there
   */
  public record Finding(State state, String stage, String of, long sizeBytes) {}

  /** Compares. */
  public List<Finding> run() {
    List<Showing> readable = Proposer.readable(photos);
    for (Photograph photograph : photos.photographs()) {
      sources.add(photograph.source());
      cards.add(new CardLook.Input(photograph.sha256(), photograph.preview()));
    }
    for (Showing showing : readable) {
      DerivationKey key = proposer.readingKey(showing);
      need(ReadPhotograph.KIND, key);
      if (!archive.derived().has(ReadPhotograph.KIND, key)) {
        unread.add(new ReadOf(showing));
      }
    }
    Proposer.subjects(readable).forEach(this::subject);
    proposals.allKept().forEach(this::needPictures);
    Set<ReadOf> readBefore = new HashSet<>();
    archive.derived().eachLying(lying -> judge(lying, readBefore));
    for (Showing showing : readable) {
      ReadOf of = new ReadOf(showing);
      if (unread.contains(of)) {
        State state = readBefore.contains(of) ? State.OUT_OF_DATE : State.MISSING;
        String path = showing.photograph().originalPath();
        findings.add(new Finding(state, ReadPhotograph.KIND.name(), path, 0));
      }
    }
    return List.copyOf(findings);
  }

  /**
   * Deletes what {@link #run} found that nothing needs.
   *
   * @return how many
   */
  public int drop() throws IOException {
    for (Derived.Lying lying : unneeded) {
      archive.derived().drop(lying);
    }
    return unneeded.size();
  }

  private void subject(UUID subject, List<Showing> showings) {
    Optional<FaceId> face = showings.get(0).face();
    Photograph first = showings.get(0).photograph();
    needed.computeIfAbsent(ProposalStore.NEWEST, stage -> new HashSet<>()).add(subject.toString());
    List<Showing> read =
        showings.stream().filter(showing -> !unread.contains(new ReadOf(showing))).toList();
    Optional<DerivationKey> wanted =
        read.isEmpty()
            ? Optional.empty()
            : Optional.of(MergeFace.KIND.key(proposer.mergeInput(read)));
    Optional<DerivationKey> newest =
        proposals
            .newest(subject)
            .map(ProposalStore.Newest::proposal)
            .filter(key -> archive.derived().has(MergeFace.KIND, key));
    wanted.ifPresent(key -> need(MergeFace.KIND, key));
    newest.ifPresent(key -> need(MergeFace.KIND, key));
    Optional<Proposal> shown =
        face.isPresent() ? proposals.latest(face.get()) : proposals.latest(first.id());
    shown.ifPresent(this::needPictures);
    if (newest.isEmpty() || !newest.equals(wanted)) {
      State state = newest.isEmpty() ? State.MISSING : State.OUT_OF_DATE;
      findings.add(
          new Finding(
              state,
              MergeFace.KIND.name(),
              face.flatMap(photos::face).map(this::inWords).orElse(first.originalPath()),
              0));
    }
  }

  private String inWords(Face face) {
    return "marker " + markers.numberOf(face.marker()) + ", face " + face.name();
  }

  private void needPictures(Proposal proposal) {
    if (!inputs.areThere(proposal)) {
      return;
    }
    need(ReliefPictures.KIND, ReliefPictures.KIND.key(inputs.relief(proposal)));
    for (StageInputs.Together lines : inputs.strips(proposal)) {
      need(LineStrips.KIND, LineStrips.KIND.key(inputs.reliefStrips(lines)));
      for (FaceView view : lines.proposal().views()) {
        view.toLeading()
            .map(move -> inputs.lightStrips(lines, view.photograph(), move))
            .ifPresent(input -> need(LightStrips.KIND, LightStrips.KIND.key(input)));
      }
    }
    need(LinesDrawn.KIND, LinesDrawn.KIND.key(inputs.lines(proposal)));
  }

  private void need(StageKind<?, ?> kind, DerivationKey key) {
    needed.computeIfAbsent(kind.name(), stage -> new HashSet<>()).add(key.hex());
  }

  private void judge(Derived.Lying lying, Set<ReadOf> readBefore) {
    if (needed.getOrDefault(lying.stage(), Set.of()).contains(lying.name())
        || lying.input().filter(this::stillAsked).isPresent()) {
      return;
    }
    Optional<ReadOf> of =
        lying
            .input()
            .filter(input -> input.stage().equals(ReadPhotograph.KIND.name()))
            .map(ReadOf::new);
    if (of.filter(unread::contains).isPresent()) {
      readBefore.add(of.get());
      return;
    }
    unneeded.add(lying);
    findings.add(new Finding(State.UNNEEDED, lying.stage(), lying.name(), lying.sizeBytes()));
  }

  /** Whether this is of a photograph, in whatever size it was asked for. */
  private boolean stillAsked(DerivationInput input) {
    if (input.isOf(SmallerPicture.KIND)) {
      return sources.contains(input.as(SmallerPicture.KIND).picture());
    }
    if (input.isOf(ReadPhotograph.KIND)) {
      // Of a stone beside the one that the photograph is of.
      ReadPhotograph.Input read = input.as(ReadPhotograph.KIND);
      return read.frame().isPresent()
          && read.reader().equals(settings)
          && sources.contains(read.picture());
    }
    if (input.isOf(FindFeatures.KIND)) {
      return sources.contains(input.as(FindFeatures.KIND).picture());
    }
    if (input.isOf(FindCarving.KIND)) {
      return input.as(FindCarving.KIND).face().views().stream()
          .allMatch(view -> sources.contains(view.picture()));
    }
    if (input.isOf(CompareSeasons.KIND)) {
      CompareSeasons.Input seasons = input.as(CompareSeasons.KIND);
      return sources.containsAll(seasons.first()) && sources.containsAll(seasons.last());
    }
    if (input.isOf(FindLettering.KIND)) {
      return sources.contains(input.as(FindLettering.KIND).picture());
    }
    if (input.isOf(CardLook.KIND)) {
      return cards.contains(input.as(CardLook.KIND));
    }
    return false;
  }
}
