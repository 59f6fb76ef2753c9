package rakelight.reading;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import rakelight.archive.Sha256;
import rakelight.finding.CarvedLineFinder;
import rakelight.finding.Found;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.finding.LineFinder;
import rakelight.finding.LineStrip;
import rakelight.photo.Frame;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Point;
import rakelight.picture.QuarterTurn;

/**
 * Reads a picture: finds its lines, cuts them out, lets every recogniser read them, merges what
 * they say. Knows no archive; may be used by several threads at once.
 *
 * <pre>{@code
 * try (Reader reader = Reader.standard()) {
 *   ReadPicture read = reader.read(Picture.upright(bytes, 1));
 *   read.lines().forEach(line -> System.out.println(line.lattice().best()));
 * }
 * }</pre>
 */
public final class MachineReader implements AutoCloseable {
  /** The height of the strips that recognisers are given, in pixels. */
  private static final int STRIP_HEIGHT_PX = 48;

  /** Height of a strip in heights of capitals. Tried: 1.3 to 2. */
  private static final double STRIP_CAP_HEIGHTS = 1.5;

  /** Lines whose letters are surer than this on average are kept; others are grain. */
  private static final double SMALLEST_SURENESS = 0.3;

  /** Others aren't asked where the leading recogniser's letters are less sure on average. */
  private static final double SURENESS_WORTH_ASKING = 0.2;

  /**
   * Lines of so few letters need to be surer: kerbs and steps give such. On 64 rendered stones all
   * short lines were surer, but for pieces of hardly readable ones.
   */
  private static final int FEW_LETTERS = 3;

  private static final double SMALLEST_SURENESS_OF_FEW = 0.6;

  /** So many lines tell whether a stone stands on its head; six or all told no better. */
  private static final int LINES_TURNED = 3;

  private final NativeScope scope = new NativeScope();

  /** The long side of the picture that the second look sees. */
  private static final int SECOND_LOOK_PX = 640;

  /** So many places at most where a line may be are read: more is no stone with lines left. */
  private static final int MOST_PASSED_OVER = 24;

  private final List<LineFinder> finders;
  private final Optional<LineFinder> secondLook;
  private final List<Voice> voices;
  private final Odds odds;

  /**
   * A recogniser and how much it counts when readings are merged.
   *
   * @param weight above 0; only ratios matter
   */
  public record Voice(Recogniser recogniser, double weight) {}

  /**
   * Takes finder and recognisers: closing the reader closes them.
   *
   * @param voices the first leads when readings are laid against each other
   */
  public MachineReader(LineFinder finder, List<Voice> voices) {
    this(List.of(finder), Optional.empty(), voices, Odds.PLAIN);
  }

  /**
   * @param finders the one that looks at every picture first
   * @param secondLook borrowed: usually it shares the first finder's network
   */
  MachineReader(
      List<LineFinder> finders, Optional<LineFinder> secondLook, List<Voice> voices, Odds odds) {
    this.finders = List.copyOf(finders);
    this.secondLook = secondLook;
    this.finders.forEach(scope::own);
    this.voices = List.copyOf(voices);
    this.odds = odds;
    this.voices.forEach(voice -> scope.own(voice.recogniser()));
    if (this.voices.isEmpty()) {
      throw new IllegalArgumentException("A reader needs at least one recogniser");
    }
  }

  /** The reader that proposals are made with. */
  public static MachineReader standard() {
    return standard(Odds.fitted());
  }

  /** The same reader with other odds. */
  public static MachineReader standard(Odds odds) {
    CarvedLineFinder finder = new CarvedLineFinder();
    return new MachineReader(
        List.of(finder, CarvedLineFinder.first()),
        Optional.of(finder.at(SECOND_LOOK_PX)),
        standardVoices(odds),
        odds);
  }

  private static List<Voice> standardVoices(Odds odds) {
    return Stream.of(new CarvedLetters(), new PpOcrRecogniser())
        .map(recogniser -> new Voice(recogniser, odds.weighing().weight(recogniser.name())))
        .toList();
  }

  /** The finders, the one that looks at every picture first. */
  public List<LineFinder> finders() {
    return finders;
  }

  /** The recognisers with their weights, the leading one first. */
  public List<Voice> voices() {
    return voices;
  }

  /** How what it reads becomes odds. */
  public Odds odds() {
    return odds;
  }

  /** What a reading depends on besides the picture, for the key of its derivation. */
  public ReaderSettings settings() {
    List<ModelUsed> models = new ArrayList<>();
    Stream.concat(finders.stream(), secondLook.stream())
        .forEach(finder -> models.add(new ModelUsed(finder.name(), new Sha256(finder.digest()))));
    voices.stream()
        .map(Voice::recogniser)
        .forEach(voice -> models.add(new ModelUsed(voice.name(), new Sha256(voice.digest()))));
    return new ReaderSettings(
        models,
        voices.stream().map(Voice::weight).toList(),
        odds.weighing().unseenLetter(),
        odds.weighing().unseenSpace(),
        STRIP_CAP_HEIGHTS,
        SMALLEST_SURENESS,
        SMALLEST_SURENESS_OF_FEW);
  }

  /**
   * Finds and reads all lines of a picture that is upright by what its file says. Where nothing is
   * found or it is read badly, the other finders look too, and what reads best is kept; where
   * letters are very small or nothing was found, parts are looked at by themselves ({@link
   * NearLook}). Then second looks are pooled with it ({@link SecondLook}). Where the lines run
   * down, up or backwards, or seem to stand on their heads, the picture is turned and read again,
   * and what reads best is kept, in pixels of the picture as it was given. A picture without lines
   * is looked at all four ways, which costs three more findings. Last, lines in pieces are joined
   * and those that run through columns cut ({@link WholeLines}).
   */
  public ReadPicture read(GrayImage upright) {
    Found found = finders.get(0).find(upright);
    ReadPicture whole =
        new WholeLines(lines -> readLines(upright, laid(lines))).of(asFound(upright, found));
    return withPlaces(whole, placesRead(upright, whole, found.fainter()));
  }

  /** The picture with places where a line may be: those that are lines among these. */
  private static ReadPicture withPlaces(ReadPicture read, List<ReadLine> places) {
    List<LineOdds.Level> known = read.lines().stream().map(l -> level(read, l.line())).toList();
    Predicate<ReadLine> isLine =
        place -> LineOdds.isLine(level(read, place.line()), place.lattice(), known);
    return read.withLines(
            Stream.concat(read.lines().stream(), places.stream().filter(isLine)).toList())
        .inReadingOrder()
        .withPassedOver(places.stream().filter(isLine.negate()).toList());
  }

  /** The lines as they were found, some of them in pieces or more than one. */
  private ReadPicture asFound(GrayImage upright, Found found) {
    ReadPicture best = read(upright, found);
    LineFinder kept = finders.get(0);
    for (LineFinder finder : finders.subList(1, finders.size())) {
      if (best.lines().isEmpty() || !best.readWell()) {
        ReadPicture other = readAsItLies(upright, finder);
        if (other.betterThan(best)) {
          best = other;
          kept = finder;
        }
      }
    }
    for (Frame part : NearLook.parts(upright, best, CarvedLineFinder.LONG_SIDE_PX)) {
      ReadPicture near = readByItself(upright, part);
      best = near.betterThan(best) ? near : best;
    }
    if (secondLook.isPresent()) {
      best = lookedAtAgain(upright, best, secondLook.get().find(upright), found.faint());
    }
    for (int quarters : best.turnsToTry(lines -> onTheirHeads(upright, lines))) {
      QuarterTurn turn = QuarterTurn.of(upright, quarters);
      ReadPicture turned = readAsItLies(turn.turned(upright), kept);
      if (turned.betterThan(best)) {
        best = turned.map(turn::back);
      }
    }
    return best;
  }

  /**
   * Whether more is seen in the surest lines when they are turned end for end. On 63 stones by
   * three renderers, given both ways up, the leading recogniser saw in lines so turned up to .90 of
   * what was read as they were where they stood upright, at least 1.24 of it where they stood on
   * their heads.
   */
  private boolean onTheirHeads(GrayImage upright, List<ReadLine> lines) {
    List<ReadLine> surest =
        lines.stream()
            .sorted(Comparator.comparingDouble(line -> -line.lattice().lettersSeen()))
            .limit(LINES_TURNED)
            .toList();
    List<GrayImage> turned =
        strips(upright, laid(surest.stream().map(ReadLine::line).toList())).stream()
            .map(strip -> QuarterTurn.of(strip, 2).turned(strip))
            .toList();
    return seen(voices.get(0).recogniser().read(turned).stream())
        > seen(surest.stream().map(ReadLine::lattice));
  }

  private static double seen(Stream<LineLattice> lattices) {
    return lattices.mapToDouble(LineLattice::lettersSeen).sum();
  }

  /** Where a line may be that isn't among those of a picture, read. */
  private List<ReadLine> placesRead(GrayImage upright, ReadPicture read, List<FoundLine> places) {
    List<LineOdds.Level> lines = read.lines().stream().map(l -> level(read, l.line())).toList();
    List<FoundLine> left =
        places.stream()
            .filter(place -> SecondLook.isLeft(read, place))
            .filter(place -> LineOdds.worthReading(level(read, place), lines))
            .sorted(Comparator.comparingDouble(FoundLine::score).reversed())
            .limit(MOST_PASSED_OVER)
            .toList();
    List<LineLattice> lattices = merged(glanceByVoice(upright, laid(left)));
    List<ReadLine> passedOver = new ArrayList<>();
    for (int i = 0; i < left.size(); i++) {
      passedOver.add(new ReadLine(left.get(i), lattices.get(i)));
    }
    return passedOver;
  }

  private static LineOdds.Level level(ReadPicture read, FoundLine line) {
    return new LineOdds.Level(line.ribbon().map(read::level), line.heightPx());
  }

  private ReadPicture lookedAtAgain(
      GrayImage upright, ReadPicture first, Found second, List<FoundLine> faint) {
    List<List<ReadLine>> others =
        Stream.of(second.lines(), faint)
            .map(lines -> SecondLook.worthReading(first, lines))
            .map(lines -> believedLines(lines, merged(glanceByVoice(upright, laid(lines)))))
            .toList();
    return SecondLook.pooled(first, others);
  }

  private ReadPicture readByItself(GrayImage upright, Frame part) {
    GrayImage cut = upright.part(part.left(), part.top(), part.widthPx(), part.heightPx());
    return readAsItLies(cut, finders.get(0))
        .map(p -> new Point(p.x() + part.left(), p.y() + part.top()));
  }

  private ReadPicture readAsItLies(GrayImage upright, LineFinder finder) {
    return read(upright, finder.find(upright));
  }

  private ReadPicture read(GrayImage upright, Found found) {
    return new ReadPicture(
        found.face(),
        found.proportion(),
        believedLines(found.lines(), readLines(upright, laid(found.lines()))),
        found.emblems(),
        found.otherStones());
  }

  /** Those of the lines that are letters rather than grain, with what was read of each. */
  private static List<ReadLine> believedLines(List<FoundLine> found, List<LineLattice> lattices) {
    List<ReadLine> lines = new ArrayList<>();
    for (int i = 0; i < lattices.size(); i++) {
      LineLattice lattice = lattices.get(i);
      if (believed(lattice)) {
        lines.add(new ReadLine(found.get(i), lattice));
      }
    }
    return lines;
  }

  private static List<LaidLine> laid(List<FoundLine> lines) {
    return lines.stream().map(LaidLine::own).toList();
  }

  /** Whether this is a line of letters rather than grain. */
  static boolean believed(LineLattice lattice) {
    double least = lattice.letters() <= FEW_LETTERS ? SMALLEST_SURENESS_OF_FEW : SMALLEST_SURENESS;
    return lattice.letters() > 0 && lattice.sureness() >= least;
  }

  /** Reads lines whose places are known; one lattice per line, in the same order. */
  public List<LineLattice> readLines(GrayImage upright, List<LaidLine> lines) {
    return merged(readByVoice(upright, lines));
  }

  /** What each recogniser says of lines whose places are known: per voice one lattice per line. */
  public List<List<LineLattice>> readByVoice(GrayImage upright, List<LaidLine> lines) {
    List<GrayImage> strips = strips(upright, lines);
    return voices.stream().map(voice -> voice.recogniser().read(strips)).toList();
  }

  /**
   * The same of places where there may be no letters, most of them grain: the leading recogniser is
   * asked first, the others only where it sees some, and say nothing elsewhere.
   */
  private List<List<LineLattice>> glanceByVoice(GrayImage upright, List<LaidLine> lines) {
    List<GrayImage> strips = strips(upright, lines);
    List<LineLattice> leading = voices.get(0).recogniser().read(strips);
    List<Integer> seen =
        IntStream.range(0, strips.size())
            .filter(i -> leading.get(i).letters() > 0)
            .filter(i -> leading.get(i).sureness() >= SURENESS_WORTH_ASKING)
            .boxed()
            .toList();
    List<List<LineLattice>> byVoice = new ArrayList<>(List.of(leading));
    for (Voice voice : voices.subList(1, voices.size())) {
      List<LineLattice> said = voice.recogniser().read(seen.stream().map(strips::get).toList());
      List<LineLattice> all =
          new ArrayList<>(Collections.nCopies(strips.size(), new LineLattice(List.of())));
      for (int i = 0; i < seen.size(); i++) {
        all.set(seen.get(i), said.get(i));
      }
      byVoice.add(all);
    }
    return byVoice;
  }

  private static List<GrayImage> strips(GrayImage upright, List<LaidLine> lines) {
    return LineStrip.cut(upright, lines, STRIP_HEIGHT_PX, STRIP_CAP_HEIGHTS);
  }

  /**
   * What recognisers said of some lines, merged; one lattice per line.
   *
   * @param byVoice as {@link #readByVoice} gives it, also of several pictures of the same lines,
   *     one after the other
   */
  public List<LineLattice> merged(List<List<LineLattice>> byVoice) {
    List<LineLattice> merged = new ArrayList<>();
    for (int i = 0; i < byVoice.get(0).size(); i++) {
      List<LatticeMerger.Voice> said = new ArrayList<>();
      for (int v = 0; v < byVoice.size(); v++) {
        double weight = voices.get(v % voices.size()).weight();
        said.add(new LatticeMerger.Voice(byVoice.get(v).get(i), weight));
      }
      merged.add(LatticeMerger.merged(said, odds.weighing()));
    }
    return merged;
  }

  @Override
  public void close() {
    scope.close();
  }
}
