package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import rakelight.archive.Archive;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.photo.Frame;
import rakelight.photo.PhotoPart;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.Showing;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * Stones that photographs show beside the one they are of, as the finder outlined them: which face
 * each is, a person says ({@link PhotoStore#alsoShows}). A photograph on no face may be of any of
 * its stones, so all of them are listed.
 *
 * <p>Limits: stones that touch are one outline; what the finder takes for a part of the same
 * marker, above or below, isn't listed; nor is what is smaller than a tenth of the largest.
 */
public final class StonesBeside {
  /** Smaller ones, by area beside the largest, are too far away for their letters. */
  private static final double SMALLEST = 0.1;

  private final Archive archive;
  private final PhotoStore photos;
  private final ProposalStore proposals;

  /** What was seen on photographs by the merges that say so: a merge never changes. */
  private final Map<DerivationKey, List<Seen>> seen = new ConcurrentHashMap<>();

  public StonesBeside(Archive archive) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
    this.proposals = new ProposalStore(archive);
  }

  /** The outlines on one photograph of a merge; none where it shows one stone alone. */
  private record Seen(String original, Polygon face, List<Polygon> others) {}

  /** The stones of one photograph, from left to right; none where it shows one alone. */
  public List<StoneBeside> on(Photograph photograph) {
    return on(photograph, photos.parts(photograph.id()));
  }

  /** Those of all photographs that somebody has to say something of, by path and number. */
  public List<StoneBeside> open() {
    Map<Photograph, List<PhotoPart>> said = new LinkedHashMap<>();
    List<PhotoPart> all = photos.parts();
    for (Photograph photograph : photos.photographs()) {
      said.put(
          photograph,
          all.stream().filter(part -> part.photograph().equals(photograph.id())).toList());
    }
    return said.entrySet().stream()
        .filter(one -> one.getKey().card().isEmpty() && one.getKey().setAside().isEmpty())
        .flatMap(one -> on(one.getKey(), one.getValue()).stream())
        .filter(StoneBeside::isOpen)
        .toList();
  }

  private List<StoneBeside> on(Photograph photograph, List<PhotoPart> said) {
    UUID subject = photograph.face().map(FaceId::value).orElse(photograph.id().value());
    Optional<DerivationKey> newest = proposals.newest(subject).map(ProposalStore.Newest::proposal);
    List<Polygon> outlines =
        new ArrayList<>(newest.map(merge -> outlines(photograph, merge)).orElse(List.of()));
    for (PhotoPart part : said) {
      if (outlines.stream().noneMatch(outline -> isIn(part, outline))) {
        Frame frame = part.frame();
        outlines.add(
            Polygon.rectangle(
                frame.left(),
                frame.top(),
                frame.left() + frame.widthPx(),
                frame.top() + frame.heightPx()));
      }
    }
    if (outlines.isEmpty()) {
      return List.of();
    }
    outlines.sort(Comparator.comparingDouble(outline -> outline.centre().x()));
    Optional<ReaderSettings> settings =
        newest
            .flatMap(merge -> archive.derived().input(MergeFace.KIND, merge))
            .map(MergeFace.Input::reader);
    List<StoneBeside> stones = new ArrayList<>();
    for (Polygon outline : outlines) {
      Optional<PhotoPart> part =
          said.stream().filter(one -> isIn(one, outline)).reduce((earlier, later) -> later);
      Frame frame =
          part.map(PhotoPart::frame)
              .orElseGet(
                  () ->
                      PhotoStore.frameAbout(
                          photograph,
                          outline.left(),
                          outline.top(),
                          outline.right(),
                          outline.bottom()));
      stones.add(
          new StoneBeside(
              stones.size() + 1,
              photograph,
              outline,
              frame,
              settings.flatMap(with -> lines(photograph, frame, with)),
              part));
    }
    return stones;
  }

  /** What the finder saw; of a photograph on no face the stone it took for its own, too. */
  private List<Polygon> outlines(Photograph photograph, DerivationKey merge) {
    String original = photograph.sha256().hex();
    List<Polygon> outlines = new ArrayList<>();
    for (Seen one : seen.computeIfAbsent(merge, this::seen)) {
      if (one.original().equals(original)) {
        outlines.addAll(one.others());
        if (photograph.face().isEmpty()) {
          outlines.add(one.face());
        }
      }
    }
    return outlines;
  }

  private static boolean isIn(PhotoPart part, Polygon outline) {
    Point middle = outline.centre();
    return part.frame().contains(middle.x(), middle.y());
  }

  private List<Seen> seen(DerivationKey merge) {
    List<Seen> all = new ArrayList<>();
    archive
        .derived()
        .result(MergeFace.KIND, merge)
        .ifPresent(
            merged -> {
              for (MergedFace.View view : merged.views()) {
                List<Polygon> others = apart(view);
                if (!others.isEmpty()) {
                  all.add(new Seen(view.original().hex(), view.outline(), others));
                }
              }
            });
    return all;
  }

  /** The stones beside the face, each once, without what is far away. */
  private static List<Polygon> apart(MergedFace.View view) {
    List<Polygon> apart = new ArrayList<>();
    for (Polygon other : view.otherStones()) {
      Point middle = other.centre();
      boolean isKnown =
          view.outline().contains(middle)
              || apart.stream().anyMatch(known -> known.contains(middle));
      if (!isKnown && other.area() >= SMALLEST * view.outline().area()) {
        apart.add(other);
      }
    }
    return apart;
  }

  private Optional<List<String>> lines(Photograph photograph, Frame frame, ReaderSettings with) {
    ReadPhotograph.Input input =
        new ReadPhotograph.Input(photograph.source(), Optional.of(frame), with);
    return archive
        .derived()
        .result(ReadPhotograph.KIND, ReadPhotograph.KIND.key(input))
        .map(
            read ->
                read.lines().stream()
                    .map(ReadLine::lattice)
                    .filter(LineLattice::readable)
                    .map(LineLattice::best)
                    .toList());
  }

  /** What is to be read of a photograph that nobody has said anything of yet. */
  List<Showing> unread(Photograph photograph) {
    return on(photograph).stream()
        .filter(stone -> stone.said().isEmpty() && stone.lines().isEmpty())
        .map(stone -> Showing.part(photograph, Optional.empty(), stone.frame()))
        .toList();
  }
}
