package rakelight.reading;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.Json;
import rakelight.archive.NamedFiles;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.finding.LineStrip;
import rakelight.photo.PictureSource;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.Polygon;
import rakelight.relief.LegibilityChange;
import rakelight.relief.LineContrast;
import rakelight.relief.Registration;

/**
 * Lays the photographs of a face's first and last season over those its lines were found on, and
 * keeps how far each line's letters stand out in both, and how many a machine can tell.
 */
public final class CompareSeasons implements Stage<CompareSeasons.Input, NamedFiles> {
  public static final StageKind<Input, NamedFiles> KIND =
      new StageKind<>("seasons", 2, Input.class, NamedFiles.class);

  private static final String CHANGES = "changes.json";
  private static final int STRIP_PX = 64;
  private static final double CAP_HEIGHTS = 1.9;

  private final MachineReader reader;

  /**
   * @param reader borrowed
   */
  public CompareSeasons(MachineReader reader) {
    this.reader = reader;
  }

  /** The photographs of each season, the lines to compare, and what reads them. */
  public record Input(
      List<PictureSource> first,
      List<PictureSource> last,
      List<Line> lines,
      ReaderSettings reader) {
    public Input {
      first = List.copyOf(first);
      last = List.copyOf(last);
      lines = List.copyOf(lines);
    }

    /** The same, read by another reader. */
    public Input readBy(ReaderSettings other) {
      return new Input(first, last, lines, other);
    }
  }

  /**
   * A line on the photograph it was found on.
   *
   * @param ribbon see {@link FoundLine}
   */
  public record Line(PictureSource on, Polygon ribbon, double heightPx, double score) {
    FoundLine found() {
      return new FoundLine(ribbon, heightPx, score);
    }
  }

  /**
   * What is kept.
   *
   * @param changes of the lines that both seasons show
   * @param notLaid of the photographs of the first season, then the last, from 0: those that don't
   *     fit over any that lines were found on
   */
  public record Kept(List<Change> changes, List<Integer> notLaid) {
    public Kept {
      changes = List.copyOf(changes);
      notLaid = List.copyOf(notLaid);
    }
  }

  /**
   * One line's change.
   *
   * @param line its place in the input, from 0
   * @param before see {@link LegibilityChange}
   * @param toldBefore how many of its letters can be expected to be read rightly on a photograph of
   *     the first season
   * @param toldAfter the same of the last
   */
  public record Change(
      int line,
      double before,
      double change,
      double uncertainty,
      double toldBefore,
      double toldAfter) {
    /** How far its letters stand out. */
    public LegibilityChange contrast() {
      return new LegibilityChange(before, change, uncertainty);
    }
  }

  /** A line on one photograph: how far it stands out, and how many letters can be told. */
  private record Looked(LineContrast contrast, double told) {}

  /** A photograph and the way to it from those that lines were found on. */
  private record Seen(GrayImage picture, Map<PictureSource, Homography> from) {}

  @Override
  public StageKind<Input, NamedFiles> kind() {
    return KIND;
  }

  /**
   * @throws IllegalArgumentException if the input asks for another reader
   */
  @Override
  public NamedFiles run(Input input, Given given) throws BadInputException {
    if (!input.reader().equals(reader.settings())) {
      throw new IllegalArgumentException("The input asks for another reader: " + input.reader());
    }
    Map<PictureSource, GrayImage> read = new LinkedHashMap<>();
    for (Line line : input.lines()) {
      if (!read.containsKey(line.on())) {
        read.put(line.on(), Picture.upright(line.on(), given));
      }
    }
    List<Integer> notLaid = new ArrayList<>();
    List<Seen> first = seen(input.first(), 0, read, given, notLaid);
    List<Seen> last = seen(input.last(), input.first().size(), read, given, notLaid);
    List<Change> changes = new ArrayList<>();
    Map<String, byte[]> files = new HashMap<>();
    List<List<Looked>> looksBefore = looked(first, input.lines());
    List<List<Looked>> looksAfter = looked(last, input.lines());
    for (int i = 0; i < input.lines().size(); i++) {
      Line line = input.lines().get(i);
      List<Looked> before = looksBefore.get(i);
      List<Looked> after = looksAfter.get(i);
      if (!before.isEmpty() && !after.isEmpty()) {
        LegibilityChange found = LegibilityChange.of(contrasts(before), contrasts(after));
        changes.add(
            new Change(
                i, found.before(), found.change(), found.uncertainty(), told(before), told(after)));
        int number = i;
        strip(first, line).ifPresent(strip -> files.put(before(number), Picture.png(strip)));
        strip(last, line).ifPresent(strip -> files.put(after(number), Picture.png(strip)));
      }
    }
    files.put(CHANGES, Json.text(new Kept(changes, notLaid)).getBytes(StandardCharsets.UTF_8));
    return NamedFiles.of(files);
  }

  /** The file that shows a line in the first season. */
  public static String before(int line) {
    return "before-" + line + ".png";
  }

  /** The file that shows it in the last. */
  public static String after(int line) {
    return "after-" + line + ".png";
  }

  /** What a kept result holds. */
  public static Kept read(NamedFiles result) {
    return Json.read(
        new String(result.file(CHANGES).orElseThrow(), StandardCharsets.UTF_8), Kept.class);
  }

  private static List<Seen> seen(
      List<PictureSource> season,
      int number,
      Map<PictureSource, GrayImage> read,
      Given given,
      List<Integer> notLaid)
      throws BadInputException {
    List<Seen> seen = new ArrayList<>();
    for (int i = 0; i < season.size(); i++) {
      GrayImage picture = Picture.upright(season.get(i), given);
      Map<PictureSource, Homography> from = new HashMap<>();
      for (Map.Entry<PictureSource, GrayImage> one : read.entrySet()) {
        Optional<Homography> move =
            one.getKey().equals(season.get(i))
                ? Optional.of(Homography.identity())
                : Registration.of(one.getValue(), picture);
        move.ifPresent(there -> from.put(one.getKey(), there));
      }
      if (from.isEmpty()) {
        notLaid.add(number + i);
      } else {
        seen.add(new Seen(picture, from));
      }
    }
    return seen;
  }

  /** Of each line what every photograph shows that lies over the one it was found on. */
  private List<List<Looked>> looked(List<Seen> season, List<Line> lines) {
    List<List<Looked>> looked = new ArrayList<>();
    lines.forEach(line -> looked.add(new ArrayList<>()));
    for (Seen seen : season) {
      List<Integer> shown = new ArrayList<>();
      List<LaidLine> laid = new ArrayList<>();
      for (int i = 0; i < lines.size(); i++) {
        Homography move = seen.from().get(lines.get(i).on());
        if (move != null) {
          shown.add(i);
          laid.add(new LaidLine(lines.get(i).found(), move));
        }
      }
      List<LineLattice> read = reader.readLines(seen.picture(), laid);
      for (int i = 0; i < laid.size(); i++) {
        looked
            .get(shown.get(i))
            .add(
                new Looked(
                    LineContrast.of(seen.picture(), laid.get(i)), read.get(i).lettersSeen()));
      }
    }
    return looked;
  }

  private static List<LineContrast> contrasts(List<Looked> looked) {
    return looked.stream().map(Looked::contrast).toList();
  }

  private static double told(List<Looked> looked) {
    return looked.stream().mapToDouble(Looked::told).average().orElse(0);
  }

  /** A line on the first photograph that it can be seen on. */
  private static Optional<GrayImage> strip(List<Seen> season, Line line) {
    int width = LineStrip.widthPx(line.found(), STRIP_PX, CAP_HEIGHTS);
    return season.stream()
        .flatMap(
            seen ->
                Optional.ofNullable(seen.from().get(line.on()))
                    .map(
                        move ->
                            LineStrip.cut(
                                seen.picture(),
                                new LaidLine(line.found(), move),
                                width,
                                STRIP_PX,
                                CAP_HEIGHTS))
                    .stream())
        .findFirst();
  }
}
