package rakelight.survey;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.NamedFiles;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.PictureSource;
import rakelight.picture.Picture;
import rakelight.reading.CompareSeasons;
import rakelight.reading.MachineReader;
import rakelight.reading.MergeFace;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.reading.ProposedLine;
import rakelight.reading.ReaderOnDemand;
import rakelight.relief.LegibilityChange;

/**
 * How legible the lines of a face are in its last season against its first: all its photographs of
 * the first and of the last year are laid over each other, each line's letters measured against the
 * stone beside them on each, and read by a machine. Where people read the face in both seasons,
 * what they could tell counts with what the machine can. Legibility is the product of how far
 * letters stand out and how many can be told. What changes with the light alone is part of the
 * uncertainty.
 */
public final class SeasonsCompared {
  private final Archive archive;
  private final ReaderOnDemand reader;
  private final PhotoStore photos;
  private final ProposalStore proposals;

  /**
   * @param reader asked for when something is to be compared that wasn't before; borrowed
   */
  public SeasonsCompared(Archive archive, ReaderOnDemand reader) {
    this.archive = archive;
    this.reader = reader;
    this.photos = new PhotoStore(archive);
    this.proposals = new ProposalStore(archive);
  }

  /**
   * How many letters of a line can be told in each season: those that can be expected to be right,
   * of a machine's; of people's one each that is clear, half of one that isn't.
   */
  public record Told(double before, double after) {}

  /**
   * One line in two seasons.
   *
   * @param text as a machine reads it
   * @param change of its legibility
   * @param contrast how far its letters stand out alone
   * @param machine how many letters a machine tells
   * @param people how many people told; empty where they didn't read it in both seasons
   * @param before the line on a photograph of the first season, a PNG file
   * @param after the same place in the last
   */
  public record Line(
      int number,
      String text,
      LegibilityChange change,
      LegibilityChange contrast,
      Told machine,
      Optional<Told> people,
      Optional<byte[]> before,
      Optional<byte[]> after) {}

  /**
   * A face in two seasons.
   *
   * @param first year of its first photographs
   * @param last year of its last
   * @param notLaid names of photographs that don't fit over the one that was read
   */
  public record Compared(Face face, int first, int last, List<Line> lines, List<String> notLaid) {
    public Compared {
      lines = List.copyOf(lines);
      notLaid = List.copyOf(notLaid);
    }

    /** How many of its lines have lost more than another light could take. */
    public long worn() {
      return lines.stream().filter(line -> line.change().isWorn()).count();
    }
  }

  /** What there is to compare of a face. */
  private record Asked(
      int first, int last, List<Photograph> shots, Proposal proposal, CompareSeasons.Input input) {}

  /**
   * Compares the first and the last season of a face; empty where it was photographed in one year
   * only, or nothing was read on it. What is found is kept.
   *
   * @throws BadInputException if a photograph can't be decoded
   */
  public Optional<Compared> of(Face face) throws IOException, BadInputException {
    Optional<Asked> asked = asked(face, photos.photographs());
    if (asked.isEmpty()) {
      return Optional.empty();
    }
    Optional<NamedFiles> kept = kept(asked.get());
    if (kept.isEmpty()) {
      MachineReader machine = reader.get();
      DerivationKey key =
          archive
              .derived()
              .make(new CompareSeasons(machine), asked.get().input().readBy(machine.settings()));
      kept = archive.derived().result(CompareSeasons.KIND, key);
    }
    return Optional.of(compared(face, asked.get(), kept.orElseThrow()));
  }

  private Optional<NamedFiles> kept(Asked asked) {
    return archive.derived().result(CompareSeasons.KIND, CompareSeasons.KIND.key(asked.input()));
  }

  /**
   * What was compared before of each face by the models that found its lines, without looking at
   * any photograph now.
   *
   * @return the faces with what is kept of them
   */
  public static Map<FaceId, Compared> known(Archive archive) {
    try (ReaderOnDemand nobody = new ReaderOnDemand()) {
      return new SeasonsCompared(archive, nobody).known();
    }
  }

  private Map<FaceId, Compared> known() {
    List<Photograph> all = photos.photographs();
    Map<FaceId, Compared> known = new LinkedHashMap<>();
    for (Face face : photos.faces()) {
      asked(face, all)
          .flatMap(one -> kept(one).map(kept -> compared(face, one, kept)))
          .ifPresent(compared -> known.put(face.id(), compared));
    }
    return known;
  }

  private Optional<Asked> asked(Face face, List<Photograph> all) {
    SortedMap<Integer, List<Photograph>> years = new TreeMap<>();
    for (Photograph shot : all) {
      if (shot.face().equals(Optional.of(face.id()))
          && shot.isShown(Picture::isRead)
          && shot.taken().isPresent()) {
        years
            .computeIfAbsent(shot.taken().get().local().getYear(), year -> new ArrayList<>())
            .add(shot);
      }
    }
    Optional<Proposal> proposal = years.size() < 2 ? Optional.empty() : proposals.latest(face.id());
    if (proposal.isEmpty() || proposal.get().lines().isEmpty()) {
      return Optional.empty();
    }
    List<Photograph> first = years.getOrDefault(years.firstKey(), List.of());
    List<Photograph> last = years.getOrDefault(years.lastKey(), List.of());
    List<CompareSeasons.Line> lines = new ArrayList<>();
    for (ProposedLine line : proposal.get().lines()) {
      photos
          .photograph(line.photograph())
          .ifPresent(
              shot ->
                  lines.add(
                      new CompareSeasons.Line(
                          shot.source(), line.box(), line.heightPx(), line.score())));
    }
    List<Photograph> shots = new ArrayList<>(first);
    shots.addAll(last);
    Optional<MergeFace.Input> merged =
        archive.derived().input(MergeFace.KIND, proposal.get().key());
    return lines.size() < proposal.get().lines().size()
        ? Optional.empty() // Its photographs aren't all here.
        : merged.map(
            input ->
                new Asked(
                    years.firstKey(),
                    years.lastKey(),
                    shots,
                    proposal.get(),
                    new CompareSeasons.Input(
                        sources(first), sources(last), lines, input.reader())));
  }

  private static List<PictureSource> sources(List<Photograph> shots) {
    return shots.stream().map(Photograph::source).toList();
  }

  private Compared compared(Face face, Asked asked, NamedFiles result) {
    CompareSeasons.Kept kept = CompareSeasons.read(result);
    PeoplesSeasons people = PeoplesSeasons.of(archive, face.id(), asked.first(), asked.last());
    List<Line> lines = new ArrayList<>();
    for (CompareSeasons.Change change : kept.changes()) {
      ProposedLine line = asked.proposal().lines().get(change.line());
      Told machine = new Told(change.toldBefore(), change.toldAfter());
      Optional<Told> told = people.of(line.text());
      LettersTold byMachine = LettersTold.byMachine(machine.before(), machine.after());
      LettersTold letters =
          told.map(one -> byMachine.and(LettersTold.byPeople(one.before(), one.after())))
              .orElse(byMachine);
      lines.add(
          new Line(
              line.number(),
              line.text(),
              change.contrast().and(letters.change(), letters.uncertainty()),
              change.contrast(),
              machine,
              told,
              result.file(CompareSeasons.before(change.line())),
              result.file(CompareSeasons.after(change.line()))));
    }
    return new Compared(
        face,
        asked.first(),
        asked.last(),
        lines,
        kept.notLaid().stream().map(i -> asked.shots().get(i).originalName()).toList());
  }
}
