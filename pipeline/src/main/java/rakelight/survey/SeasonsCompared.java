package rakelight.survey;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.PhotographId;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.finding.LineStrip;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.PictureSource;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.reading.ProposedLine;
import rakelight.relief.LegibilityChange;
import rakelight.relief.LineContrast;
import rakelight.relief.Registration;

/**
 * How legible the lines of a face are in its last season against its first: all its photographs of
 * the first and of the last year are laid over each other, and each line's letters measured against
 * the stone beside them on each. What changes with the light alone is part of the uncertainty.
 */
public final class SeasonsCompared {
  private static final int STRIP_PX = 64;
  private static final double CAP_HEIGHTS = 1.9;

  private final Archive archive;
  private final PhotoStore photos;
  private final ProposalStore proposals;

  public SeasonsCompared(Archive archive) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
    this.proposals = new ProposalStore(archive);
  }

  /**
   * One line in two seasons.
   *
   * @param text as a machine reads it
   * @param before the line on a photograph of the first season, in capitals {@value #STRIP_PX} /
   *     {@value #CAP_HEIGHTS} pixels high
   * @param after the same place in the last
   */
  public record Line(
      int number,
      String text,
      LegibilityChange change,
      Optional<GrayImage> before,
      Optional<GrayImage> after) {}

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

  /**
   * Compares the first and the last season of a face; empty where it was photographed in one year
   * only, or nothing was read on it.
   *
   * @throws BadInputException if a photograph can't be decoded
   */
  public Optional<Compared> of(Face face) throws IOException, BadInputException {
    Optional<Proposal> proposal = proposals.latest(face.id());
    SortedMap<Integer, List<Photograph>> years = new TreeMap<>();
    for (Photograph shot : photos.photographs()) {
      if (shot.face().equals(Optional.of(face.id()))
          && shot.isShown(Picture::isRead)
          && shot.taken().isPresent()) {
        years
            .computeIfAbsent(shot.taken().get().local().getYear(), year -> new ArrayList<>())
            .add(shot);
      }
    }
    if (proposal.isEmpty() || years.size() < 2 || proposal.get().lines().isEmpty()) {
      return Optional.empty();
    }
    List<String> notLaid = new ArrayList<>();
    List<Seen> first =
        seen(years.getOrDefault(years.firstKey(), List.of()), proposal.get(), notLaid);
    List<Seen> last = seen(years.getOrDefault(years.lastKey(), List.of()), proposal.get(), notLaid);
    List<Line> lines = new ArrayList<>();
    for (ProposedLine line : proposal.get().lines()) {
      List<LineContrast> before = contrasts(first, line);
      List<LineContrast> after = contrasts(last, line);
      if (!before.isEmpty() && !after.isEmpty()) {
        lines.add(
            new Line(
                line.number(),
                line.text(),
                LegibilityChange.of(before, after),
                strip(first, line),
                strip(last, line)));
      }
    }
    return Optional.of(new Compared(face, years.firstKey(), years.lastKey(), lines, notLaid));
  }

  /**
   * A photograph and the way to it from those that lines were found on.
   *
   * @param from by the photograph that lines were found on
   */
  private record Seen(GrayImage picture, Map<PhotographId, Homography> from) {}

  private List<Seen> seen(List<Photograph> season, Proposal proposal, List<String> notLaid)
      throws BadInputException {
    Map<PhotographId, GrayImage> read = new HashMap<>();
    for (ProposedLine line : proposal.lines()) {
      Optional<Photograph> shot = photos.photograph(line.photograph());
      if (shot.isPresent() && !read.containsKey(line.photograph())) {
        read.put(line.photograph(), picture(shot.get()));
      }
    }
    List<Seen> seen = new ArrayList<>();
    for (Photograph shot : season) {
      GrayImage picture = picture(shot);
      Map<PhotographId, Homography> from = new HashMap<>();
      for (Map.Entry<PhotographId, GrayImage> one : read.entrySet()) {
        Optional<Homography> move =
            one.getKey().equals(shot.id())
                ? Optional.of(Homography.identity())
                : Registration.of(one.getValue(), picture);
        move.ifPresent(there -> from.put(one.getKey(), there));
      }
      if (from.isEmpty()) {
        notLaid.add(shot.originalName());
      } else {
        seen.add(new Seen(picture, from));
      }
    }
    return seen;
  }

  private GrayImage picture(Photograph shot) throws BadInputException {
    return Picture.upright(shot.source(), archive.derived().given(new Of(shot.source())));
  }

  /** Names the one original that is looked at. */
  private record Of(PictureSource picture) {}

  private static List<LineContrast> contrasts(List<Seen> season, ProposedLine line) {
    List<LineContrast> contrasts = new ArrayList<>();
    FoundLine found = new FoundLine(line.box(), line.heightPx(), line.score());
    for (Seen seen : season) {
      Optional.ofNullable(seen.from().get(line.photograph()))
          .map(move -> LineContrast.of(seen.picture(), new LaidLine(found, move)))
          .ifPresent(contrasts::add);
    }
    return contrasts;
  }

  /** A line on the first photograph that it can be seen on. */
  private static Optional<GrayImage> strip(List<Seen> season, ProposedLine line) {
    FoundLine found = new FoundLine(line.box(), line.heightPx(), line.score());
    int width = LineStrip.widthPx(found, STRIP_PX, CAP_HEIGHTS);
    return season.stream()
        .flatMap(
            seen ->
                Optional.ofNullable(seen.from().get(line.photograph()))
                    .map(
                        move ->
                            LineStrip.cut(
                                seen.picture(),
                                new LaidLine(found, move),
                                width,
                                STRIP_PX,
                                CAP_HEIGHTS))
                    .stream())
        .findFirst();
  }
}
