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
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.FaceId;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.finding.PpOcrLineFinder;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.reading.FaceView;
import rakelight.reading.Heard;
import rakelight.reading.LineLattice;
import rakelight.reading.MachineReader;
import rakelight.reading.Odds;
import rakelight.reading.PpOcrRecogniser;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.reading.ProposedLine;
import rakelight.reading.Proposer;
import rakelight.reading.ReadLine;
import rakelight.reading.ReadPicture;
import rakelight.reading.TesseractRecogniser;
import rakelight.relief.Relief;
import rakelight.relief.ReliefImage;
import rakelight.relief.SquaredFace;

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
  public static final int BINS = Reliability.BINS;

  /** Lines of faces with several photographs make slices of their own. */
  private static final String SEVERAL_LIGHTS = "several lights";

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

  private static final String WITH_LANGUAGE = "proposals, with language's lean";
  private static final String ONE_PHOTOGRAPH = "one photograph, mean";
  private static final String BEST_PHOTOGRAPH = "one photograph, the best in hindsight";
  private static final String SUREST_PHOTOGRAPH = "one photograph, that with most letters seen";
  private static final String SUREST_VIEW = "the surest view of each line";
  private static final String PROPOSALS_TRUE_BOXES = "proposals' recognisers, true boxes";
  private static final String ALONE_TRUE_BOXES = " alone, true boxes";
  private static final String ON_RELIEF = "proposals' lines on relief image %s";
  private static final String WITH_RELIEF = "proposals' lines, relief image %s merged in";
  private static final String PPOCR = "PP-OCR v4 alone";
  private static final String PPOCR_BEST = "PP-OCR v4 alone, the best photograph in hindsight";
  private static final String TESSERACT = "plain Tesseract, whole photograph";

  private final Archive archive;
  private final PhotoStore photos;
  private final Map<String, Map<String, Tally>> tallies = new LinkedHashMap<>();
  private final Map<String, Calibration> calibrations = new TreeMap<>(SLICES);
  private final Map<String, Finding> findings = new LinkedHashMap<>();
  private final Reliability reliability = new Reliability(Odds.fitted());
  private final Confusions confusions = new Confusions();
  private ReadInOrder order = ReadInOrder.NONE;
  private final List<List<String>> lettersByVoice = new ArrayList<>();

  /** What the proposals are scored beside. */
  public enum Beside {
    /** Nothing: no photograph is read again; a second for some hundred faces. */
    NOTHING,
    /** The rivals, single photographs and true boxes; seconds for each photograph. */
    RIVALS,
    /** These and the proposed lines on every relief image; some seconds more for each. */
    RIVALS_AND_RELIEFS
  }

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
   * @param letters of these lines, spaces counted
   * @param linesRead those for which anything was read
   * @param letterError errors per letter as given
   * @param letterErrorCaseBlind errors per letter, blind to case and to typeface
   * @param spread between which rates that may lie, other faces given
   * @param fairLetterError case-blind errors per letter, where letters of which only marks remain
   *     may be read rightly or passed over at no cost
   * @param letterErrorWithoutSigns case-blind, points, dashes and other signs left out of both
   * @param wordErrorCaseBlind errors per word, likewise
   * @param strayRate letters read where no line is, over letters of the truth
   * @param amongThree share of letters among the first three alternatives, if asked
   */
  public record Row(
      String way,
      String slice,
      int lines,
      int letters,
      int linesRead,
      double letterError,
      double letterErrorCaseBlind,
      Spread spread,
      double fairLetterError,
      double letterErrorWithoutSigns,
      double wordErrorCaseBlind,
      double strayRate,
      Optional<Double> amongThree) {}

  /**
   * What merging all photographs of a face leaves of the errors of the best one.
   *
   * @param slice lines of faces with several photographs
   * @param letters of these lines, spaces counted
   * @param ratio case-blind letter errors of proposals over those of the photograph of each face
   *     that has the fewest, chosen with the truth in hand
   * @param spread between which ratios that may lie, other faces given
   */
  public record AgainstBest(String slice, int letters, double ratio, Spread spread) {}

  /**
   * Everything measured in one run.
   *
   * @param faces scored
   * @param missing files of the truth that the archive doesn't hold, or holds without a proposal
   * @param lines found and missed by each way that finds lines itself, where the truth has boxes
   * @param againstBest empty without faces with several photographs, or errors of the best
   * @param calibrationError expected calibration error of proposed letters by slice, over {@link
   *     #BINS} bins
   * @param reliability of letters, of words, and of whether there is a letter at all
   * @param order in which the proposals have their lines
   * @param signs which kinds of signs the proposals read, letters among them
   * @param confusions which letters of the proposals were taken for which, by their odds
   * @param agreement Krippendorff's alpha of the recognisers over the letters inside true boxes; 1
   *     if they say the same wherever they are wrong, too. Empty where the truth has no boxes
   */
  public record Result(
      int faces,
      List<String> missing,
      List<Row> rows,
      List<LinesFound> lines,
      List<AgainstBest> againstBest,
      Map<String, Double> calibrationError,
      Map<String, Calibration> reliability,
      ReadInOrder order,
      List<SignsRead.Kind> signs,
      Confusions confusions,
      Optional<Double> agreement) {}

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

  private record Scored(
      int number, List<TruthLine> truth, List<Photograph> photographs, Proposal proposal) {
    boolean severalLights() {
      return photographs.size() > 1;
    }
  }

  /** Told of every line of the truth that was read. */
  @FunctionalInterface
  public interface Lines {
    /**
     * @param face counted from 0
     */
    void line(int face, TruthLine truth, Heard heard);
  }

  /** Reads the lines of a proposal anew. */
  @FunctionalInterface
  public interface Hearing {
    List<Heard> of(Proposal proposal) throws IOException, BadInputException;
  }

  /**
   * Lays the proposals' lines beside the truth, without any rival. A face with a photograph that
   * can't be decoded is passed over.
   */
  public void eachLine(List<TruthLine> truth, Hearing hearing, Lines lines) throws IOException {
    List<Scored> faces = faces(truth, new ArrayList<>());
    for (int i = 0; i < faces.size(); i++) {
      Scored face = faces.get(i);
      List<Heard> heard;
      try {
        heard = hearing.of(face.proposal());
      } catch (BadInputException e) {
        continue; // reported when proposals were made
      }
      for (LineMatching.Pair pair : matched(face.truth(), said(face.proposal()))) {
        if (pair.truthIndex() >= 0
            && pair.readIndex() >= 0
            && heard.get(pair.readIndex()).photographs() > 0) {
          lines.line(i, face.truth().get(pair.truthIndex()), heard.get(pair.readIndex()));
        }
      }
    }
  }

  private static List<Said> said(Proposal proposal) {
    return proposal.lines().stream().map(line -> Said.of(line.lattice())).toList();
  }

  private static List<LineMatching.Pair> matched(List<TruthLine> truth, List<Said> said) {
    return LineMatching.match(
        truth.stream().map(line -> Tally.fold(line.text())).toList(),
        said.stream().map(line -> Tally.fold(line.text())).toList());
  }

  private record Said(String text, Optional<LineLattice> lattice) {
    static Said of(LineLattice lattice) {
      return new Said(lattice.best(), Optional.of(lattice));
    }

    double lettersSeen() {
      return lattice.map(LineLattice::lettersSeen).orElse(0.0);
    }
  }

  /** Counts what was proposed, and what the rivals read; minutes on a large truth with these. */
  public Result run(List<TruthLine> truth, Beside beside) throws IOException {
    List<String> missing = new ArrayList<>();
    List<Scored> faces = faces(truth, missing);
    faces.forEach(this::scoreProposal);
    if (beside != Beside.NOTHING) {
      scoreRivals(faces, beside == Beside.RIVALS_AND_RELIEFS);
    }
    Map<String, Double> calibrationError = new LinkedHashMap<>();
    calibrations.forEach((slice, said) -> calibrationError.put(slice, said.expectedError()));
    return new Result(
        faces.size(),
        missing,
        rows(),
        findings.entrySet().stream().map(e -> e.getValue().result(e.getKey())).toList(),
        againstBest(),
        calibrationError,
        reliability.byKind(),
        order,
        tally(PROPOSALS, "all").signs().kinds(),
        confusions,
        lettersByVoice.isEmpty()
            ? Optional.empty()
            : Optional.of(ReaderAgreement.alpha(lettersByVoice)));
  }

  private void scoreRivals(List<Scored> faces, boolean reliefs) throws IOException {
    try (MachineReader own = MachineReader.standard();
        MachineReader ppocr =
            new MachineReader(
                new PpOcrLineFinder(), List.of(new MachineReader.Voice(new PpOcrRecogniser(), 1)));
        TesseractRecogniser tesseract = new TesseractRecogniser()) {
      Proposer proposer = new Proposer(archive, own);
      for (Scored face : faces) {
        scoreRivals(face, own, ppocr, tesseract, reliefs);
        if (face.severalLights()) {
          scoreLights(face, proposer);
        }
      }
    }
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
            faces.add(new Scored(faces.size(), mostLegible(files, byFile), shots, proposal.get()));
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

  private void scoreProposal(Scored face) {
    count(PROPOSALS, face, said(face.proposal()));
    order = order.plus(ReadInOrder.of(matched(face.truth(), said(face.proposal()))));
    count(
        WITH_LANGUAGE,
        face,
        face.proposal().lines().stream()
            .map(line -> new Said(line.lattice().leaning(), Optional.empty()))
            .toList());
    countFound(PROPOSALS, face, face.proposal().lines().stream().map(ProposedLine::box).toList());
  }

  private void scoreRivals(
      Scored face,
      MachineReader own,
      MachineReader ppocr,
      TesseractRecogniser tesseract,
      boolean reliefs)
      throws IOException {
    List<Said> ppocrSurest = List.of();
    List<Said> ppocrBest = List.of();
    List<Said> tesseractBest = List.of();
    double mostSeen = -1;
    int fewestErrors = Integer.MAX_VALUE;
    int mostLetters = -1;
    for (Photograph photograph : face.photographs()) {
      GrayImage picture;
      try {
        picture = Proposer.pixels(archive, photograph);
      } catch (BadInputException e) {
        continue; // reported when proposals were made
      }
      ReadPicture read = ppocr.read(picture);
      countFound(PPOCR, face, read.lines().stream().map(line -> line.line().ribbon()).toList());
      List<Said> said = read.lines().stream().map(ReadLine::lattice).map(Said::of).toList();
      if (read.lettersSeen() > mostSeen) {
        mostSeen = read.lettersSeen();
        ppocrSurest = said;
      }
      int errors = errors(face.truth(), said);
      if (errors < fewestErrors) {
        fewestErrors = errors;
        ppocrBest = said;
      }
      List<String> page = tesseract.readPage(picture);
      int letters = page.stream().mapToInt(String::length).sum();
      if (letters > mostLetters) {
        mostLetters = letters;
        tesseractBest = page.stream().map(line -> new Said(line, Optional.empty())).toList();
      }
      if (reliefs) {
        countReliefs(face, own, picture);
      }
      List<TruthLine> boxed =
          face.truth().stream()
              .filter(line -> line.file().equals(photograph.originalName()))
              .filter(line -> line.box().isPresent())
              .toList();
      if (!boxed.isEmpty()) {
        countTrueBoxes(face, own, picture, boxed);
      }
    }
    count(PPOCR, face, ppocrSurest);
    if (face.severalLights()) {
      count(PPOCR_BEST, face, ppocrBest);
    }
    count(TESSERACT, face, tesseractBest);
  }

  /** What single photographs of a face give, where it has several. */
  private void scoreLights(Scored face, Proposer proposer) throws IOException {
    Map<Integer, Said> surestView = new TreeMap<>();
    List<Said> surest = List.of();
    List<Said> best = List.of();
    double mostSeen = -1;
    int fewestErrors = Integer.MAX_VALUE;
    for (Photograph photograph : face.photographs()) {
      ReadPicture read;
      try {
        read = proposer.read(photograph);
      } catch (BadInputException e) {
        continue; // reported when proposals were made
      }
      List<Said> said = read.lines().stream().map(ReadLine::lattice).map(Said::of).toList();
      count(ONE_PHOTOGRAPH, face, said);
      int errors = errors(face.truth(), said);
      for (LineMatching.Pair pair : matched(face.truth(), said)) {
        if (pair.truthIndex() >= 0 && pair.readIndex() >= 0) {
          surestView.merge(pair.truthIndex(), said.get(pair.readIndex()), Score::surer);
        }
      }
      if (read.lettersSeen() > mostSeen) {
        mostSeen = read.lettersSeen();
        surest = said;
      }
      if (errors < fewestErrors) {
        fewestErrors = errors;
        best = said;
      }
    }
    count(BEST_PHOTOGRAPH, face, best);
    count(SUREST_PHOTOGRAPH, face, surest);
    for (int i = 0; i < face.truth().size(); i++) {
      countLine(SUREST_VIEW, face, face.truth().get(i), Optional.ofNullable(surestView.get(i)));
    }
  }

  /** Case-blind letter errors over all lines of the truth. */
  private static int errors(List<TruthLine> truth, List<Said> said) {
    int errors = 0;
    for (LineMatching.Pair pair : matched(truth, said)) {
      if (pair.truthIndex() >= 0) {
        String got = pair.readIndex() < 0 ? "" : said.get(pair.readIndex()).text();
        errors +=
            ErrorRate.ofLetters(Tally.fold(truth.get(pair.truthIndex()).text()), Tally.fold(got))
                .errors();
      }
    }
    return errors;
  }

  private static Said surer(Said a, Said b) {
    return b.lettersSeen() > a.lettersSeen() ? b : a;
  }

  private void count(String way, Scored face, List<Said> said) {
    for (LineMatching.Pair pair : matched(face.truth(), said)) {
      if (pair.truthIndex() < 0) {
        tally(way, "all").addStray(said.get(pair.readIndex()).text());
        continue;
      }
      Optional<Said> read =
          pair.readIndex() < 0 ? Optional.empty() : Optional.of(said.get(pair.readIndex()));
      countLine(way, face, face.truth().get(pair.truthIndex()), read);
    }
  }

  private void countLine(String way, Scored face, TruthLine line, Optional<Said> read) {
    Optional<LineLattice> lattice = read.flatMap(Said::lattice);
    List<String> slices = slices(face, line);
    List<Judged> judged = lattice.map(l -> Judged.of(line.text(), l)).orElse(List.of());
    int wanted = Tally.foldedLetters(line.text()).size();
    int amongThree =
        (int) judged.stream().filter(j -> !j.truth().isEmpty() && j.amongFirst(3)).count();
    for (String slice : slices) {
      Tally tally = tally(way, slice);
      tally.add(face.number(), line, read.map(Said::text).orElse(""));
      if (!way.equals(TESSERACT) && !way.equals(WITH_LANGUAGE)) {
        tally.addAmongThree(wanted, amongThree);
      }
    }
    if (way.equals(PROPOSALS)) {
      lattice.ifPresent(l -> reliability.add(line.text(), l));
      for (Judged one : judged) {
        confusions.add(line.legibility(), one);
        if (one.read()) {
          for (String slice : slices) {
            calibrations
                .computeIfAbsent(slice, s -> new Calibration(BINS))
                .add(Math.min(1, one.slot().p()), one.right());
          }
        }
      }
    }
  }

  /** The letters inside the true boxes: all recognisers together, and each alone. */
  private void countTrueBoxes(
      Scored face, MachineReader own, GrayImage picture, List<TruthLine> boxed) {
    List<LaidLine> lines = trueLines(boxed).stream().map(LaidLine::own).toList();
    List<List<LineLattice>> byVoice = own.readByVoice(picture, lines);
    countLines(PROPOSALS_TRUE_BOXES, face, boxed, own.merged(byVoice));
    for (int v = 0; v < byVoice.size(); v++) {
      countLines(
          own.voices().get(v).recogniser().name() + ALONE_TRUE_BOXES, face, boxed, byVoice.get(v));
    }
    for (int i = 0; i < boxed.size(); i++) {
      List<String> letters = Tally.foldedLetters(boxed.get(i).text());
      List<List<String>> readOf = new ArrayList<>();
      letters.forEach(letter -> readOf.add(new ArrayList<>()));
      for (List<LineLattice> voice : byVoice) {
        List<String> read = Tally.foldedLetters(voice.get(i).best());
        for (Alignment.Step step : Alignment.of(letters, read).steps()) {
          if (step.referenceIndex() >= 0) {
            readOf
                .get(step.referenceIndex())
                .add(step.hypothesisIndex() < 0 ? "" : read.get(step.hypothesisIndex()));
          }
        }
      }
      lettersByVoice.addAll(readOf);
    }
  }

  /** The lines of a proposal read on the pictures made of its face, by themselves and added. */
  private void countReliefs(Scored face, MachineReader own, GrayImage picture) {
    List<LaidLine> lines =
        face.proposal().lines().stream()
            .map(line -> LaidLine.own(new FoundLine(line.box(), line.heightPx(), line.score())))
            .toList();
    if (face.severalLights() || lines.isEmpty()) {
      return;
    }
    FaceView leading = face.proposal().views().get(0);
    Polygon outline = leading.outline();
    SquaredFace squared = SquaredFace.of(picture, outline, leading.proportion());
    Homography there = squared.toPhotograph().inverse();
    List<LaidLine> onSquared = lines.stream().map(line -> line.then(there)).toList();
    double capital =
        onSquared.stream()
            .mapToDouble(LaidLine::heightPx)
            .sorted()
            .skip(lines.size() / 2)
            .findFirst()
            .orElseThrow();
    List<Polygon> places = onSquared.stream().map(LaidLine::ribbon).toList();
    List<List<LineLattice>> onPhotograph = own.readByVoice(picture, lines);
    for (ReliefImage relief : Relief.of(squared.image(), capital, places).images()) {
      List<List<LineLattice>> byVoice = own.readByVoice(relief.image(), onSquared);
      count(named(ON_RELIEF, relief), face, said(own, byVoice));
      List<List<LineLattice>> both = new ArrayList<>(onPhotograph);
      both.addAll(byVoice);
      count(named(WITH_RELIEF, relief), face, said(own, both));
    }
  }

  private static List<Said> said(MachineReader machine, List<List<LineLattice>> byVoice) {
    return machine.merged(byVoice).stream()
        .map(lattice -> Said.of(machine.odds().corrected(lattice, 1)))
        .toList();
  }

  private static String named(String way, ReliefImage relief) {
    return String.format(Locale.ROOT, way, relief.name());
  }

  private void countLines(
      String way, Scored face, List<TruthLine> boxed, List<LineLattice> lattices) {
    for (int i = 0; i < boxed.size(); i++) {
      countLine(way, face, boxed.get(i), Optional.of(Said.of(lattices.get(i))));
    }
  }

  private static List<FoundLine> trueLines(List<TruthLine> boxed) {
    return boxed.stream().map(line -> trueLine(line.box().orElseThrow())).toList();
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
      for (String slice : slices(face, line)) {
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

  private static List<String> slices(Scored face, TruthLine line) {
    List<String> slices = new ArrayList<>(List.of("all"));
    for (String slice : List.of(line.legibility(), line.material(), line.light())) {
      if (!slice.isEmpty()) {
        slices.add(slice);
      }
    }
    if (face.severalLights()) {
      slices.add(SEVERAL_LIGHTS);
      slices.add(SEVERAL_LIGHTS + ", " + line.legibility());
    }
    return slices;
  }

  private List<AgainstBest> againstBest() {
    Map<String, Tally> best = tallies.getOrDefault(BEST_PHOTOGRAPH, Map.of());
    List<AgainstBest> compared = new ArrayList<>();
    best.forEach(
        (slice, photograph) -> {
          if (slice.startsWith(SEVERAL_LIGHTS) && photograph.caseBlind().errors() > 0) {
            Tally merged = tally(PROPOSALS, slice);
            compared.add(
                new AgainstBest(
                    slice,
                    photograph.caseBlind().referenceLength(),
                    merged.ratioTo(photograph),
                    merged.ratioSpread(photograph)));
          }
        });
    return compared;
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
                            tally.caseBlind().referenceLength(),
                            tally.linesRead(),
                            tally.letters().rate(),
                            tally.caseBlind().rate(),
                            tally.caseBlindSpread(),
                            tally.fair().rate(),
                            tally.lettersAlone().rate(),
                            tally.words().rate(),
                            tally.strayRate(),
                            tally.amongThree() < 0
                                ? Optional.empty()
                                : Optional.of(tally.amongThree())))));
    return rows;
  }
}
