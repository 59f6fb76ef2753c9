package rakelight.survey;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.reading.FaceView;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.relief.CarvingLook;
import rakelight.relief.CarvingOrder;
import rakelight.relief.CarvingPair;
import rakelight.relief.CarvingSought;
import rakelight.relief.FindCarving;
import rakelight.relief.RakedFace;

/**
 * The carvings of a ground by how alike they are: those that people outlined, and the areas that a
 * machine takes for emblems. What is found of each is kept among what is derived. Likeness is an
 * offer; what two are, people say.
 */
public final class CarvingsAlike {
  private final Archive archive;
  private final PhotoStore photos;
  private final ProposalStore proposals;
  private final EmblemStore emblems;
  private final FindCarving finder = new FindCarving();

  public CarvingsAlike(Archive archive) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
    this.proposals = new ProposalStore(archive);
    this.emblems = new EmblemStore(archive);
  }

  /**
   * One carving.
   *
   * @param outline in upright full-size pixels of its photograph
   * @param note whose outline it is; empty for one that a machine found or that is asked for only
   */
  public record Carving(Photograph photograph, Polygon outline, Optional<EmblemNote> note) {}

  /**
   * One that is like another.
   *
   * @param match where the two are alike
   */
  public record Like(Carving carving, CarvingSought.Match match) {}

  /** A carving by the note that outlines it; empty where it has no outline on a photograph here. */
  public Optional<Carving> of(EmblemNote note) {
    return note.outline()
        .flatMap(
            outline ->
                photos
                    .photograph(outline.photograph())
                    .filter(shot -> shot.isShown(Picture::isRead))
                    .map(shot -> new Carving(shot, polygon(outline), Optional.of(note))));
  }

  private static Polygon polygon(EmblemNote.Outline outline) {
    List<Point> points = new ArrayList<>();
    for (int i = 0; i < outline.corners().size(); i += 2) {
      points.add(new Point(outline.corners().get(i), outline.corners().get(i + 1)));
    }
    return new Polygon(points);
  }

  /** Every carving that is known, those that people outlined first. */
  public List<Carving> all() {
    List<Carving> all = new ArrayList<>();
    emblems.all().forEach(note -> of(note).ifPresent(all::add));
    List<Carving> noted = List.copyOf(all);
    for (Photograph shot : photos.photographs()) {
      proposal(shot)
          .map(proposal -> proposal.views().get(0))
          .filter(leading -> leading.photograph().equals(shot.id()))
          .filter(leading -> shot.isShown(Picture::isRead))
          .ifPresent(
              leading ->
                  leading.emblems().stream()
                      .map(area -> new Carving(shot, area, Optional.empty()))
                      .filter(area -> noted.stream().noneMatch(one -> same(one, area)))
                      .forEach(all::add));
    }
    return all;
  }

  private Optional<Proposal> proposal(Photograph shot) {
    return shot.face().isEmpty()
        ? proposals.latest(shot.id())
        : shot.face().flatMap(proposals::latest);
  }

  /** Whether two are one carving, perhaps on two photographs of one face. */
  private boolean same(Carving one, Carving other) {
    if (one.photograph().id().equals(other.photograph().id())) {
      return overlap(one.outline(), other.outline());
    }
    return one.photograph().face().isPresent()
        && one.photograph().face().equals(other.photograph().face())
        && onLeading(one).flatMap(a -> onLeading(other).map(b -> overlap(a, b))).orElse(false);
  }

  private static boolean overlap(Polygon one, Polygon other) {
    return one.contains(other.centre()) || other.contains(one.centre());
  }

  private Optional<Polygon> onLeading(Carving carving) {
    return proposal(carving.photograph())
        .flatMap(proposal -> toLeading(proposal, carving.photograph()))
        .map(move -> carving.outline().map(move::map));
  }

  private static Optional<Homography> toLeading(Proposal proposal, Photograph shot) {
    for (FaceView view : proposal.views()) {
      if (view.photograph().equals(shot.id())) {
        return view == proposal.views().get(0)
            ? Optional.of(Homography.identity())
            : view.toLeading();
      }
    }
    return Optional.empty();
  }

  /** The photographs of a carving's face that lie over its own, that one first. */
  private List<RakedFace.View> views(Carving carving) {
    List<RakedFace.View> views = new ArrayList<>();
    views.add(
        new RakedFace.View(carving.photograph().source(), Homography.identity(), Optional.empty()));
    Optional<Proposal> proposal = proposal(carving.photograph());
    Optional<Homography> own = proposal.flatMap(one -> toLeading(one, carving.photograph()));
    if (own.isPresent()) {
      Homography back = own.get().inverse();
      for (FaceView view : proposal.orElseThrow().views()) {
        Optional<Photograph> shot = photos.photograph(view.photograph());
        if (shot.isPresent() && !view.photograph().equals(carving.photograph().id())) {
          toLeading(proposal.get(), shot.get())
              .ifPresent(
                  move ->
                      views.add(
                          new RakedFace.View(
                              shot.get().source(), move.then(back), Optional.empty())));
        }
      }
    }
    return views;
  }

  private FindCarving.Input input(Carving carving) {
    return FindCarving.Input.of(carving.outline(), views(carving));
  }

  private CarvingLook look(FindCarving.Input input) throws IOException, BadInputException {
    DerivationKey key = archive.derived().make(finder, input);
    return FindCarving.read(input, archive.derived().result(FindCarving.KIND, key).orElseThrow());
  }

  /**
   * The carvings that are like one, the most alike first. Those whose photograph can't be read are
   * left out; {@code check} names them.
   *
   * @param most how many
   * @throws BadInputException if the photograph of the one asked for can't be read
   */
  public List<Like> of(Carving asked, int most) throws IOException, BadInputException {
    CarvingSought sought = CarvingSought.of(look(input(asked)));
    List<Found> found = new ArrayList<>();
    for (Carving other : all()) {
      if (!same(asked, other)) {
        try {
          CarvingLook look = look(input(other));
          found.add(new Found(other, look, sought.likeness(look)));
        } catch (BadInputException e) {
          continue; // The rest is shown.
        }
      }
    }
    List<Like> likes = new ArrayList<>();
    for (Found one : ordered(found)) {
      if (likes.size() < most) {
        likes.add(new Like(one.carving(), sought.match(one.look())));
      }
    }
    return List.copyOf(likes);
  }

  private record Found(Carving carving, CarvingLook look, double likeness) {}

  private static List<Found> ordered(List<Found> found) {
    return CarvingOrder.of(
            found.stream().mapToDouble(Found::likeness).toArray(),
            (one, others) -> {
              CarvingSought own = CarvingSought.of(found.get(one).look());
              return Arrays.stream(others)
                  .mapToDouble(other -> own.likeness(found.get(other).look()))
                  .toArray();
            })
        .stream()
        .map(found::get)
        .toList();
  }

  /**
   * Both side by side with the places that are alike joined.
   *
   * @return a PNG file
   */
  public byte[] beside(Carving asked, Like like) throws IOException, BadInputException {
    return CarvingPair.drawn(
        look(input(asked)), look(input(like.carving())), like.match().places());
  }
}
