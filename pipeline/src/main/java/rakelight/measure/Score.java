package rakelight.measure;

import java.awt.geom.Area;
import java.awt.geom.Path2D;
import java.awt.geom.PathIterator;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.finding.FoundLine;
import rakelight.finding.GrayImage;
import rakelight.finding.PictureException;
import rakelight.finding.Point;
import rakelight.finding.Polygon;
import rakelight.finding.PpOcrLineFinder;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.CarvedLetters;
import rakelight.reading.LineLattice;
import rakelight.reading.PpOcrRecogniser;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.reading.ProposedLine;
import rakelight.reading.Proposer;
import rakelight.reading.ReadLine;
import rakelight.reading.ReadPicture;
import rakelight.reading.Reader;
import rakelight.reading.Slot;
import rakelight.reading.TesseractRecogniser;

/**
 * Scores proposals against the truth, beside rivals that read the same photographs in the same run:
 * PP-OCR v4 alone, and plain Tesseract on the untouched photograph. Where the truth has boxes, the
 * letters are also read inside them, so that what finding the lines costs can be seen.
 *
 * <p>A face is scored once: the truth of a line is that of the photograph on which it is most
 * legible, and a rival is given the photograph of the face on which it saw most. Lines are matched
 * in any order ({@link LineMatching}); a line nobody read counts as deleted letters; letters read
 * where no line was cut are counted apart, as strays.
 */
public final class Score {
  /** Bins of the calibration error; it depends on their number. */
  public static final int BINS = 10;

  /** Least overlap of a found line with a true one, intersection over union, to count as found. */
  private static final double FOUND_OVERLAP = 0.5;

  private static final List<String> LEGIBILITY = List.of("legible", "worn", "poor");

  /** All, then the classes of legibility, then materials and lights. */
  private static final Comparator<String> SLICES =
      Comparator.comparing((String slice) -> !slice.equals("all"))
          .thenComparing(Score::legibility)
          .thenComparing(Comparator.naturalOrder());

  /** Ways of reading, as reported. */
  private static final String PROPOSALS = "proposals";

  private static final String PROPOSALS_TRUE_BOXES = "proposals' recognisers, true boxes";
  private static final String CARVED_TRUE_BOXES = "carved-letters alone, true boxes";
  private static final String PPOCR = "PP-OCR v4 alone";
  private static final String PPOCR_TRUE_BOXES = "PP-OCR v4 alone, true boxes";
  private static final String TESSERACT = "plain Tesseract, whole photograph";

  private final Archive archive;
  private final PhotoStore photos;
  private final Map<String, Map<String, Tally>> tallies = new LinkedHashMap<>();
  private final Map<String, Calibration> calibrations = new TreeMap<>(SLICES);
  private final Map<String, Finding> findings = new LinkedHashMap<>();

  /** Scores proposals of this archive. */
  public Score(Archive archive) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
  }

  /**
   * One row of the result.
   *
   * @param way how the photographs were read
   * @param slice which lines: "all", or a class such as "legible" or "marble"
   * @param lines lines of the truth
   * @param linesRead those for which anything was read
   * @param letterError errors per letter as given
   * @param letterErrorCaseBlind errors per letter, blind to case and to typeface
   * @param wordErrorCaseBlind errors per word, likewise
   * @param strayRate letters read where no line is, over letters of the truth
   * @param amongThree share of letters among the first three alternatives, if asked
   */
  public record Row(
      String way,
      String slice,
      int lines,
      int linesRead,
      double letterError,
      double letterErrorCaseBlind,
      double wordErrorCaseBlind,
      double strayRate,
      Optional<Double> amongThree) {}

  /**
   * Everything measured in one run.
   *
   * @param faces scored
   * @param missing files of the truth that the archive doesn't hold, or holds without a proposal
   * @param lines found and missed by each way that finds lines itself, where the truth has boxes
   * @param calibrationError expected calibration error of proposed letters by slice, over {@link
   *     #BINS} bins
   * @param diagram how often letters of each stated probability were right
   */
  public record Result(
      int faces,
      List<String> missing,
      List<Row> rows,
      List<LinesFound> lines,
      Map<String, Double> calibrationError,
      List<Calibration.Bin> diagram) {}

  /**
   * How well a way of reading finds lines.
   *
   * @param recall share of true lines found, by slice
   * @param precision share of found lines that are true ones
   */
  public record LinesFound(String way, Map<String, Double> recall, double precision) {}

  /** Lines of the truth and those of them found, by slice; lines found and those of them true. */
  private static final class Finding {
    private final Map<String, int[]> recall = new TreeMap<>(SLICES);
    private int found;
    private int trueOnes;

    LinesFound result(String way) {
      Map<String, Double> shares = new LinkedHashMap<>();
      recall.forEach((slice, counts) -> shares.put(slice, (double) counts[1] / counts[0]));
      return new LinesFound(way, shares, found == 0 ? 0 : (double) trueOnes / found);
    }
  }

  private record Scored(List<TruthLine> truth, List<Photograph> photographs, Proposal proposal) {}

  private record Said(String text, Optional<LineLattice> lattice) {
    static Said of(LineLattice lattice) {
      return new Said(lattice.best(), Optional.of(lattice));
    }
  }

  /** Reads with every rival and counts; minutes on a large truth. */
  public Result run(List<TruthLine> truth) throws IOException {
    List<String> missing = new ArrayList<>();
    List<Scored> faces = faces(truth, missing);
    try (Reader own = Reader.standard();
        Reader ppocr =
            new Reader(new PpOcrLineFinder(), List.of(new Reader.Voice(new PpOcrRecogniser(), 1)));
        Reader carved =
            new Reader(new PpOcrLineFinder(), List.of(new Reader.Voice(new CarvedLetters(), 1)));
        TesseractRecogniser tesseract = new TesseractRecogniser()) {
      for (Scored face : faces) {
        score(face, own, ppocr, carved, tesseract);
      }
    }
    Map<String, Double> calibrationError = new LinkedHashMap<>();
    calibrations.forEach((slice, said) -> calibrationError.put(slice, said.expectedError()));
    return new Result(
        faces.size(),
        missing,
        rows(),
        findings.entrySet().stream().map(e -> e.getValue().result(e.getKey())).toList(),
        calibrationError,
        calibrations.getOrDefault("all", new Calibration(BINS)).diagram());
  }

  private List<Scored> faces(List<TruthLine> truth, List<String> missing) {
    Map<String, Photograph> byName = new HashMap<>();
    photos.photographs().forEach(photograph -> byName.put(photograph.originalName(), photograph));
    Map<String, List<TruthLine>> byFile = new LinkedHashMap<>();
    truth.forEach(line -> byFile.computeIfAbsent(line.file(), f -> new ArrayList<>()).add(line));

    Map<Object, List<String>> filesOfFace = new LinkedHashMap<>();
    for (String file : byFile.keySet()) {
      Photograph photograph = byName.get(file);
      if (photograph == null) {
        missing.add(file);
        continue;
      }
      Object face = photograph.face().<Object>map(id -> id).orElse(photograph.id());
      filesOfFace.computeIfAbsent(face, f -> new ArrayList<>()).add(file);
    }
    ProposalStore proposals = new ProposalStore(archive);
    List<Scored> faces = new ArrayList<>();
    filesOfFace.forEach(
        (face, files) -> {
          List<Photograph> shots = files.stream().map(byName::get).toList();
          Optional<Proposal> proposal =
              face instanceof FaceId id
                  ? proposals.latest(id)
                  : proposals.latest(shots.get(0).id());
          if (proposal.isPresent()) {
            faces.add(new Scored(mostLegible(files, byFile), shots, proposal.get()));
          } else {
            missing.addAll(files);
          }
        });
    return faces;
  }

  /** Of each line the truth of the photograph that shows it best. */
  private static List<TruthLine> mostLegible(
      List<String> files, Map<String, List<TruthLine>> byFile) {
    Map<Integer, TruthLine> best = new TreeMap<>();
    for (String file : files) {
      for (TruthLine line : byFile.getOrDefault(file, List.of())) {
        best.merge(line.line(), line, (a, b) -> rank(b) < rank(a) ? b : a);
      }
    }
    return best.values().stream().filter(line -> !line.text().isEmpty()).toList();
  }

  private static int rank(TruthLine line) {
    return legibility(line.legibility());
  }

  private static int legibility(String slice) {
    int rank = LEGIBILITY.indexOf(slice);
    return rank < 0 ? LEGIBILITY.size() : rank;
  }

  private void score(
      Scored face, Reader own, Reader ppocr, Reader carved, TesseractRecogniser tesseract)
      throws IOException {
    count(
        PROPOSALS,
        face.truth(),
        face.proposal().lines().stream().map(line -> Said.of(line.lattice())).toList());
    countFound(PROPOSALS, face, face.proposal().lines().stream().map(ProposedLine::box).toList());

    List<Said> ppocrBest = List.of();
    List<Said> tesseractBest = List.of();
    double mostSeen = -1;
    int mostLetters = -1;
    for (Photograph photograph : face.photographs()) {
      GrayImage picture;
      try {
        picture = Proposer.pixels(archive, photograph);
      } catch (PictureException e) {
        continue; // reported when proposals were made
      }
      ReadPicture read = ppocr.read(picture);
      countFound(PPOCR, face, read.lines().stream().map(line -> line.line().ribbon()).toList());
      if (read.lettersSeen() > mostSeen) {
        mostSeen = read.lettersSeen();
        ppocrBest = read.lines().stream().map(ReadLine::lattice).map(Said::of).toList();
      }
      List<String> page = tesseract.readPage(picture);
      int letters = page.stream().mapToInt(String::length).sum();
      if (letters > mostLetters) {
        mostLetters = letters;
        tesseractBest = page.stream().map(line -> new Said(line, Optional.empty())).toList();
      }
      List<TruthLine> boxed =
          face.truth().stream()
              .filter(line -> line.file().equals(photograph.originalName()))
              .filter(line -> line.box().isPresent())
              .toList();
      if (!boxed.isEmpty()) {
        countTrueBoxes(PROPOSALS_TRUE_BOXES, own, picture, boxed);
        countTrueBoxes(CARVED_TRUE_BOXES, carved, picture, boxed);
        countTrueBoxes(PPOCR_TRUE_BOXES, ppocr, picture, boxed);
      }
    }
    count(PPOCR, face.truth(), ppocrBest);
    count(TESSERACT, face.truth(), tesseractBest);
  }

  private void count(String way, List<TruthLine> truth, List<Said> said) {
    List<LineMatching.Pair> pairs =
        LineMatching.match(
            truth.stream().map(line -> Tally.fold(line.text())).toList(),
            said.stream().map(line -> Tally.fold(line.text())).toList());
    for (LineMatching.Pair pair : pairs) {
      if (pair.truthIndex() < 0) {
        tally(way, "all").addStray(said.get(pair.readIndex()).text());
        continue;
      }
      Optional<Said> read =
          pair.readIndex() < 0 ? Optional.empty() : Optional.of(said.get(pair.readIndex()));
      countLine(way, truth.get(pair.truthIndex()), read);
    }
  }

  private void countLine(String way, TruthLine line, Optional<Said> read) {
    Optional<LineLattice> lattice = read.flatMap(Said::lattice);
    int wanted = Tally.foldedLetters(line.text()).size();
    int amongThree = lattice.map(l -> amongThree(way, line, l)).orElse(0);
    for (String slice : slices(line)) {
      Tally tally = tally(way, slice);
      tally.add(line.text(), read.map(Said::text).orElse(""));
      if (!way.equals(TESSERACT)) {
        tally.addAmongThree(wanted, amongThree);
      }
    }
  }

  /** Counts true letters among the first three of their slot, and notes calibration on the way. */
  private int amongThree(String way, TruthLine line, LineLattice lattice) {
    List<Slot> slots = new ArrayList<>();
    List<String> best = new ArrayList<>();
    for (Slot slot : lattice.slots()) {
      String text = slot.best().isBlank() ? slot.best() : Tally.fold(slot.best());
      if (!text.isEmpty()) {
        slots.add(slot);
        best.add(text);
      }
    }
    List<String> truth = Tally.foldedLetters(line.text());
    int among = 0;
    for (Alignment.Step step : Alignment.of(truth, best).steps()) {
      if (step.hypothesisIndex() < 0) {
        continue;
      }
      Slot slot = slots.get(step.hypothesisIndex());
      if (step.referenceIndex() >= 0) {
        String wanted = truth.get(step.referenceIndex());
        among +=
            slot.alternatives().stream()
                    .limit(3)
                    .anyMatch(
                        a -> (a.text().isBlank() ? a.text() : Tally.fold(a.text())).equals(wanted))
                ? 1
                : 0;
      }
      if (way.equals(PROPOSALS) && !slot.best().isBlank()) {
        boolean right = step.kind() == Alignment.Kind.MATCH;
        for (String slice : slices(line)) {
          calibrations
              .computeIfAbsent(slice, s -> new Calibration(BINS))
              .add(Math.min(1, slot.p()), right);
        }
      }
    }
    return among;
  }

  private void countTrueBoxes(String way, Reader reader, GrayImage picture, List<TruthLine> boxed) {
    List<FoundLine> lines = boxed.stream().map(line -> trueLine(line.box().orElseThrow())).toList();
    List<LineLattice> lattices = reader.readLines(picture, lines);
    for (int i = 0; i < boxed.size(); i++) {
      countLine(way, boxed.get(i), Optional.of(Said.of(lattices.get(i))));
    }
  }

  /** A true box as a line: its polygon is clockwise from the top left, as a ribbon is. */
  private static FoundLine trueLine(Polygon box) {
    List<Point> points = box.points();
    int half = points.size() / 2;
    double height = 0;
    for (int i = 0; i < half; i++) {
      Point top = points.get(i);
      Point foot = points.get(points.size() - 1 - i);
      height += Math.hypot(top.x() - foot.x(), top.y() - foot.y()) / half;
    }
    return new FoundLine(box, height, 1);
  }

  /** Only a face with one photograph has all boxes, true and found, in the pixels of one. */
  private void countFound(String way, Scored face, List<Polygon> found) {
    List<TruthLine> boxed =
        face.photographs().size() == 1
            ? face.truth().stream().filter(line -> line.box().isPresent()).toList()
            : List.of();
    if (boxed.isEmpty()) {
      return;
    }
    Finding finding = findings.computeIfAbsent(way, w -> new Finding());
    boolean[] trueLine = new boolean[found.size()];
    for (TruthLine line : boxed) {
      boolean hit = false;
      for (int i = 0; i < found.size(); i++) {
        if (overlap(line.box().orElseThrow(), found.get(i)) >= FOUND_OVERLAP) {
          hit = true;
          trueLine[i] = true;
        }
      }
      for (String slice : slices(line)) {
        int[] counts = finding.recall.computeIfAbsent(slice, s -> new int[2]);
        counts[0]++;
        counts[1] += hit ? 1 : 0;
      }
    }
    finding.found += found.size();
    for (boolean isTrue : trueLine) {
      finding.trueOnes += isTrue ? 1 : 0;
    }
  }

  /** Intersection over union of two outlines, 0 to 1. */
  static double overlap(Polygon one, Polygon other) {
    Area both = area(one);
    both.intersect(area(other));
    double shared = size(both);
    double union = size(area(one)) + size(area(other)) - shared;
    return union <= 0 ? 0 : shared / union;
  }

  private static Area area(Polygon polygon) {
    Path2D path = new Path2D.Double();
    List<Point> points = polygon.points();
    path.moveTo(points.get(0).x(), points.get(0).y());
    points.subList(1, points.size()).forEach(p -> path.lineTo(p.x(), p.y()));
    path.closePath();
    return new Area(path);
  }

  private static double size(Area area) {
    double twice = 0;
    double[] at = new double[6];
    double startX = 0;
    double startY = 0;
    double x = 0;
    double y = 0;
    for (PathIterator i = area.getPathIterator(null); !i.isDone(); i.next()) {
      int kind = i.currentSegment(at);
      if (kind == PathIterator.SEG_MOVETO) {
        startX = x = at[0];
        startY = y = at[1];
        continue;
      }
      double toX = kind == PathIterator.SEG_CLOSE ? startX : at[0];
      double toY = kind == PathIterator.SEG_CLOSE ? startY : at[1];
      twice += x * toY - toX * y;
      x = toX;
      y = toY;
    }
    return Math.abs(twice) / 2;
  }

  private static List<String> slices(TruthLine line) {
    List<String> slices = new ArrayList<>(List.of("all"));
    for (String slice : List.of(line.legibility(), line.material(), line.light())) {
      if (!slice.isEmpty()) {
        slices.add(slice);
      }
    }
    return slices;
  }

  private Tally tally(String way, String slice) {
    return tallies
        .computeIfAbsent(way, w -> new TreeMap<>(SLICES))
        .computeIfAbsent(slice, s -> new Tally());
  }

  private List<Row> rows() {
    List<Row> rows = new ArrayList<>();
    tallies.forEach(
        (way, slices) ->
            slices.forEach(
                (slice, tally) ->
                    rows.add(
                        new Row(
                            way,
                            slice,
                            tally.lines(),
                            tally.linesRead(),
                            tally.letters().rate(),
                            tally.caseBlind().rate(),
                            tally.words().rate(),
                            tally.strayRate(),
                            tally.amongThree() < 0
                                ? Optional.empty()
                                : Optional.of(tally.amongThree())))));
    return rows;
  }
}
