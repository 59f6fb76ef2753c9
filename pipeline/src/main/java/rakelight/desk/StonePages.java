package rakelight.desk;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.ground.PlannedWalk;
import rakelight.ground.Walk;
import rakelight.ground.WalkStore;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.person.Statement;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;
import rakelight.survey.DatingClue;
import rakelight.survey.MadeMarkers;
import rakelight.work.NamedReader;

/** Gathers what the pages of a marker show of it as a thing. */
final class StonePages {
  private static final int LONGEST_PX = 800;

  /** Round an emblem so much of its size is shown. A choice. */
  private static final double MARGIN = 0.4;

  private final Archive archive;
  private final Clock clock;
  private final Sunlight sunlight;
  private final PhotoStore photographs;
  private final DescriptionStore descriptions;
  private final EmblemStore emblems;
  private final WalkStore walks;

  StonePages(Archive archive, Sunlight sunlight, Clock clock) {
    this.archive = archive;
    this.clock = clock;
    this.sunlight = sunlight;
    this.photographs = new PhotoStore(archive);
    this.descriptions = new DescriptionStore(archive);
    this.emblems = new EmblemStore(archive);
    this.walks = new WalkStore(archive);
  }

  /** The day it is at the ground. */
  LocalDate today() {
    return LocalDate.now(clock.withZone(archive.ground().zone()));
  }

  /**
   * One marker for one reader.
   *
   * @param statements what its readings assert, as far as this reader may see them
   */
  StonePage of(Marker marker, List<Statement> statements, NamedReader by) {
    LocalDate today = today();
    Optional<Described> described = descriptions.of(marker.id());
    Description said = described.map(Described::description).orElse(Description.NONE);
    List<Face> faces = photographs.faces(marker.id());
    List<StonePage.PictureLine> pictures = new ArrayList<>();
    List<StonePage.SunFace> sun = new ArrayList<>();
    for (Face face : faces) {
      photographs.ofFace(face.id()).stream()
          .filter(shot -> shot.isShown(Picture::isRead))
          .forEach(
              shot ->
                  pictures.add(
                      new StonePage.PictureLine(
                          shot.id().toString(), face.name() + ", " + shot.originalName())));
      Sunlight.plane(face, said).ifPresent(plane -> sun.add(sunlight.of(face, plane, today)));
    }
    List<DatingClue> clues = DatingClue.ofGround(archive.ground().regions());
    return new StonePage(
        marker.id().toString(),
        marker.number(),
        described,
        descriptions.terms(),
        faces.stream()
            .map(face -> new StonePage.FaceLine(face.name(), Sunlight.looks(face)))
            .toList(),
        MadeMarkers.alone(archive, clues, marker, statements),
        archive.ground().regions().orElse(""),
        emblems.ofMarker(marker.id()).stream()
            .map(note -> new StonePage.EmblemLine(note, drawing(note)))
            .toList(),
        pictures,
        sun,
        today.getYear(),
        walks(marker),
        by.role().mayDecide());
  }

  private List<StonePage.WalkLine> walks(Marker marker) {
    List<StonePage.WalkLine> lines = new ArrayList<>();
    for (PlannedWalk planned : walks.walks()) {
      List<Marker> order =
          WalkPlans.order(archive, planned).stops().stream().map(Walk.Stop::marker).toList();
      for (int i = 0; i < order.size(); i++) {
        if (order.get(i).id().equals(marker.id())) {
          lines.add(
              new StonePage.WalkLine(planned.name(), "/walk/" + planned.id(), i + 1, order.size()));
        }
      }
    }
    return lines;
  }

  /** Where an emblem is, if somebody outlined it on a photograph that is still there. */
  Optional<Drawing> drawing(EmblemNote note) {
    return note.outline()
        .flatMap(
            outline ->
                photographs
                    .photograph(outline.photograph())
                    .filter(shot -> shot.isShown(Picture::isRead))
                    .filter(shot -> isOn(note.marker(), shot))
                    .map(shot -> drawing(note.name(), shot, outline.corners())));
  }

  private boolean isOn(MarkerId marker, Photograph shot) {
    return shot.face()
        .flatMap(photographs::face)
        .filter(face -> face.marker().equals(marker))
        .isPresent();
  }

  private static Drawing drawing(String name, Photograph shot, List<Double> corners) {
    double left = Double.MAX_VALUE;
    double top = Double.MAX_VALUE;
    double right = 0;
    double foot = 0;
    for (int i = 0; i < corners.size(); i += 2) {
      left = Math.min(left, corners.get(i));
      right = Math.max(right, corners.get(i));
      top = Math.min(top, corners.get(i + 1));
      foot = Math.max(foot, corners.get(i + 1));
    }
    double margin = MARGIN * Math.max(right - left, foot - top);
    left = Math.max(0, left - margin);
    top = Math.max(0, top - margin);
    right = Math.min(shot.uprightWidthPx(), right + margin);
    foot = Math.min(shot.uprightHeightPx(), foot + margin);
    return new Drawing(
        "/images/photographs/" + shot.id() + "?longest=" + LONGEST_PX,
        shot.uprightWidthPx(),
        shot.uprightHeightPx(),
        String.format(Locale.ROOT, "%.0f %.0f %.0f %.0f", left, top, right - left, foot - top),
        name + ", outlined on the photograph",
        List.of(new Drawing.Shape("sure", points(corners))));
  }

  /** Corners as SVG has them. */
  static String points(List<Double> corners) {
    List<String> points = new ArrayList<>();
    for (int i = 0; i + 1 < corners.size(); i += 2) {
      points.add(String.format(Locale.ROOT, "%.1f,%.1f", corners.get(i), corners.get(i + 1)));
    }
    return points.stream().collect(Collectors.joining(" "));
  }
}
