package rakelight.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.text.Normalizer;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.desk.Desk;
import rakelight.finding.FoundLine;
import rakelight.finding.PpOcrLineFinder;
import rakelight.measure.Alignment;
import rakelight.measure.LineMatching;
import rakelight.measure.Truth;
import rakelight.measure.TruthLine;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.GrayImage;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.reading.MachineReader;
import rakelight.reading.PpOcrRecogniser;
import rakelight.reading.Proposer;
import rakelight.reading.TesseractRecogniser;

/**
 * What it costs a volunteer who knows the truth to settle an archive at the desk, in keystrokes,
 * beside typing everything and beside correcting the text of PP-OCR v4 and of plain Tesseract.
 *
 * <p>The volunteer uses the desk's interface as the reading page does. He looks at every line the
 * page asks about. Where it asks about one word, he looks at that word: puts it right and says so,
 * or only says so. Where it asks about more, he looks along the whole line, puts right whatever is
 * wrong, decides the words in which a letter is doubtful and takes the line. Whether lines are
 * missing he sees too. Everything else he takes as shown: what is wrong there stays wrong.
 *
 * <p>Keystrokes are counted in two ways.
 *
 * <ul>
 *   <li><b>Typing alone</b>: the edit distance from the truth, spaces counted, whatever the order
 *       of the lines. A line to be deleted costs 1, one to be added or typed whole its letters and
 *       1. Finding what is wrong, going there and saying that the rest is right cost nothing.
 *   <li><b>All keys</b>, at the desk: what the page asks. A letter 1, and 1 more to go to it where
 *       the page doesn't lead there; letters missed at one place 2 and 1 each, at a line's end 1
 *       more; a line that isn't there 3; one that was missed or is typed whole 4 and its letters; a
 *       word that is right 1; a line that is right 1, and with it the last of the words it asked
 *       about; all the rest of a stone 1; signing 1. Correcting a text: the typing, 1 to go to each
 *       separate place that is wrong (letters wrong side by side are one place, a line to be
 *       deleted or added is one), and 1 for each line to say that it is right. Signing isn't
 *       charged.
 * </ul>
 *
 * <p>Correcting costs at most what typing the face costs; of several lights of a face a rival is
 * given the one that costs it least. Typing everything costs every letter and space, and 1 a line.
 *
 * <p>With {@code effort.unsure}, a probability, he also looks at every place where a line may be
 * with that probability or more: {@value #GLANCE} keys each (one to go there, two for the time that
 * a look along it takes). Where letters are left of a line that isn't proposed he takes it, for 1
 * key more, and decides its letters as anywhere; others he passes over. With {@code
 * effort.overlooks=true} he doesn't notice by himself that a line is missing, so that only what he
 * is shown is read; else he adds every line that is. {@code effort.rivals=false} leaves the others'
 * texts out.
 *
 * <p>Properties {@code effort.archive} and {@code effort.truth} name the archive and the table of
 * truth; a path that isn't absolute begins at the root of the repository. It signs readings: use an
 * archive made for it.
 */
@EnabledIfSystemProperty(named = "effort.archive", matches = ".+")
class EffortBenchmark {
  private static final int WORD = 1;
  private static final int LINE = 1;
  private static final int LETTER = 1;
  private static final int GO_THERE = 1;
  private static final int MISSED_BEGIN = 2;
  private static final int NO_SUCH_LINE = 3;
  private static final int TYPE_LINE = 4;
  private static final int ALL_THE_REST = 1;
  private static final int SIGN = 1;
  private static final int GLANCE = 3;
  private static final int TAKE = 1;

  /** A place is on a line if so much of its middle lies within the letters' band. */
  private static final double ON_A_LINE = 0.5;

  private static final int POINTS = 40;

  private final double leastUnsure =
      Double.parseDouble(System.getProperty("effort.unsure", "2")); // Nothing is so likely.
  private final boolean overlooks = Boolean.getBoolean("effort.overlooks");
  private final boolean withRivals =
      Boolean.parseBoolean(System.getProperty("effort.rivals", "true"));

  private final HttpClient http = HttpClient.newHttpClient();
  private String root = "";
  private String cookie = "";
  private String token = "";

  /** Keystrokes, counted in both ways. */
  private record Effort(int typing, int all) {
    static final Effort NONE = new Effort(0, 0);

    Effort plus(int moreTyping, int moreKeys) {
      return new Effort(typing + moreTyping, all + moreKeys);
    }

    Effort plus(Effort more) {
      return plus(more.typing, more.all);
    }

    Effort orLess(Effort other) {
      return new Effort(Math.min(typing, other.typing), Math.min(all, other.all));
    }
  }

  private int letters;
  private Effort effort = Effort.NONE;
  private int decisions;
  private int wrong;
  private int fieldsByThemselves;
  private int fieldsWithTheirLine;
  private int fieldsNotLookedAt;
  private int fieldsWrong;
  private int stones;
  private int linesMissed;
  private int lettersMissed;
  private int placesShown;
  private int placesWithALine;
  private int linesTaken;
  private int lettersTaken;
  private int lettersTakenAsRead;
  private int keysOfUnsure;
  private int lettersOverlooked;
  private final Map<FaceId, List<TruthLine>> bands = new HashMap<>();

  @Test
  void whatAVolunteerTypes() throws Exception {
    Path folder = fromRoot("effort.archive");
    Path table = fromRoot("effort.truth");
    Map<FaceId, List<String>> truth = new LinkedHashMap<>();
    Map<FaceId, List<Photograph>> shots = new LinkedHashMap<>();
    try (Archive archive = Archive.open(folder, Projections.all())) {
      gather(archive, Truth.read(table), truth, shots);
      shots.forEach((face, of) -> bands.put(face, bands(table, of)));
      if (truth.isEmpty()) {
        throw new IllegalArgumentException(
            "No photograph that " + table + " names is on a face of " + folder + ".");
      }
      try (Desk desk =
          Desk.start(archive, InetAddress.getLoopbackAddress(), 0, Clock.systemUTC())) {
        root = "http://127.0.0.1:" + desk.port();
        signIn();
        for (Map.Entry<FaceId, List<String>> face : truth.entrySet()) {
          settle(face.getKey(), face.getValue());
        }
      }
      report(typing(truth), withRivals ? rivals(archive, truth, shots) : NO_RIVALS);
    }
  }

  /** A path given as a property; Maven runs tests in the folder of their module. */
  private static Path fromRoot(String property) {
    String given = System.getProperty(property);
    if (given == null) {
      throw new IllegalArgumentException("Say -D" + property + "=PATH.");
    }
    return Path.of("").toAbsolutePath().resolveSibling(given);
  }

  /** The truth of each face: of each line that of the photograph that shows most of it. */
  private static void gather(
      Archive archive,
      List<TruthLine> lines,
      Map<FaceId, List<String>> truth,
      Map<FaceId, List<Photograph>> shots) {
    Map<String, Photograph> byName = new HashMap<>();
    for (Photograph photograph : new PhotoStore(archive).photographs()) {
      byName.put(photograph.originalName(), photograph);
    }
    Map<FaceId, TreeMap<Integer, String>> best = new LinkedHashMap<>();
    for (TruthLine line : lines) {
      Photograph photograph = byName.get(line.file());
      if (photograph == null || photograph.face().isEmpty()) {
        System.err.println(line.file() + ": not on a face of this archive, left out.");
        continue;
      }
      FaceId face = photograph.face().get();
      best.computeIfAbsent(face, f -> new TreeMap<>())
          .merge(line.line(), line.text(), (a, b) -> b.length() > a.length() ? b : a);
      List<Photograph> of = shots.computeIfAbsent(face, f -> new ArrayList<>());
      if (!of.contains(photograph)) {
        of.add(photograph);
      }
    }
    best.forEach(
        (face, of) ->
            truth.put(face, of.values().stream().filter(text -> !text.isBlank()).toList()));
  }

  /** Where each line with letters stands on any of some photographs. */
  private static List<TruthLine> bands(Path table, List<Photograph> shots) {
    List<String> names = shots.stream().map(Photograph::originalName).toList();
    try {
      return Truth.read(table).stream()
          .filter(line -> names.contains(line.file()) && line.box().isPresent())
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A line of the draft that was taken where one may be, and which line it is in truth. */
  private record TakenLine(int line, int truthIndex) {}

  /** What was found by looking where lines may be. */
  private record LookedAt(JsonNode now, List<TakenLine> taken) {}

  /** Looks at every place that is likely enough, from the last to the first. */
  private LookedAt lookedAt(String address, JsonNode face, List<String> truth, FaceId id)
      throws IOException, InterruptedException {
    JsonNode now = face;
    List<LineMatching.Pair> pairs = LineMatching.match(truth, texts(now));
    Set<Integer> missed = new HashSet<>();
    for (LineMatching.Pair pair : pairs) {
      if (pair.truthIndex() >= 0 && pair.readIndex() < 0) {
        missed.add(pair.truthIndex());
        linesMissed++;
        lettersMissed += lettersOf(truth.get(pair.truthIndex()));
      }
    }
    List<TakenLine> taken = new ArrayList<>();
    for (int i = now.path("unsure").size() - 1; i >= 0; i--) {
      JsonNode place = now.path("unsure").get(i);
      if (place.path("p").asDouble() < leastUnsure) {
        continue;
      }
      placesShown++;
      keysOfUnsure += GLANCE;
      effort = effort.plus(0, GLANCE);
      Optional<String> on = textAt(face, place, id);
      placesWithALine += on.isPresent() ? 1 : 0;
      int index = on.map(truth::indexOf).orElse(-1);
      if (!missed.remove(index)) {
        continue;
      }
      int line = place.path("before").asInt();
      String read = place.path("text").asText();
      now = decide(address, now, object("take-line", 0).put("place", i + 1));
      effort = effort.plus(1, TAKE);
      keysOfUnsure += TAKE;
      taken.replaceAll(
          one -> one.line() >= line ? new TakenLine(one.line() + 1, one.truthIndex()) : one);
      taken.add(new TakenLine(line, index));
      linesTaken++;
      String wanted = truth.get(index).replace(" ", "");
      lettersTaken += wanted.length();
      String plain = Normalizer.normalize(read, Normalizer.Form.NFD).replaceAll("[\\p{M} ]", "");
      lettersTakenAsRead += Math.max(0, wanted.length() - distance(wanted, plain));
    }
    return new LookedAt(now, taken);
  }

  private static int lettersOf(String text) {
    return text.replace(" ", "").length();
  }

  /** What can be seen of the line on which a place stands; empty if on none. */
  private Optional<String> textAt(JsonNode face, JsonNode place, FaceId id) {
    String leading = "";
    for (JsonNode photograph : face.path("photographs")) {
      if (photograph.path("leading").asBoolean()) {
        leading = photograph.path("file").asText();
      }
    }
    List<Point> corners = new ArrayList<>();
    place
        .path("onPhotograph")
        .forEach(p -> corners.add(new Point(p.get(0).asDouble(), p.get(1).asDouble())));
    FoundLine found = new FoundLine(new Polygon(corners), 1, 1);
    for (TruthLine line : bands.getOrDefault(id, List.of())) {
      if (line.file().equals(leading)
          && share(found.middle(), line.box().orElseThrow()) >= ON_A_LINE) {
        return Optional.of(line.text());
      }
    }
    return Optional.empty();
  }

  /** How much of the way along some points lies within a band. */
  private static double share(List<Point> middle, Polygon band) {
    Point first = middle.get(0);
    Point last = middle.get(middle.size() - 1);
    int inside = 0;
    for (int i = 0; i < POINTS; i++) {
      double at = (i + 0.5) / POINTS * (middle.size() - 1);
      int from = (int) at;
      Point p =
          middle.size() > 1 ? middle.get(from).towards(middle.get(from + 1), at - from) : first;
      inside += band.contains(p) ? 1 : 0;
    }
    return first.equals(last) ? 0 : (double) inside / POINTS;
  }

  /** Which line of the truth each line of a draft is, as far as any. */
  private static List<LineMatching.Pair> matched(
      List<String> truth, List<String> read, List<TakenLine> taken) {
    List<Integer> truths = new ArrayList<>();
    List<Integer> reads = new ArrayList<>();
    for (int i = 0; i < truth.size(); i++) {
      int index = i;
      if (taken.stream().noneMatch(one -> one.truthIndex() == index)) {
        truths.add(i);
      }
    }
    for (int i = 0; i < read.size(); i++) {
      int line = i + 1;
      if (taken.stream().noneMatch(one -> one.line() == line)) {
        reads.add(i);
      }
    }
    List<LineMatching.Pair> pairs = new ArrayList<>();
    taken.forEach(one -> pairs.add(new LineMatching.Pair(one.truthIndex(), one.line() - 1)));
    for (LineMatching.Pair pair :
        LineMatching.match(
            truths.stream().map(truth::get).toList(), reads.stream().map(read::get).toList())) {
      pairs.add(
          new LineMatching.Pair(
              pair.truthIndex() < 0 ? -1 : truths.get(pair.truthIndex()),
              pair.readIndex() < 0 ? -1 : reads.get(pair.readIndex())));
    }
    return pairs;
  }

  private void settle(FaceId face, List<String> truth) throws IOException, InterruptedException {
    String address = "/api/faces/" + face;
    stones++;
    LookedAt looked = lookedAt(address, get(address), truth, face);
    JsonNode now = looked.now();
    List<LineMatching.Pair> pairs = matched(truth, texts(now), looked.taken());
    int[] truthOf = new int[now.path("lines").size()];
    for (LineMatching.Pair pair : pairs) {
      if (pair.readIndex() >= 0) {
        truthOf[pair.readIndex()] = pair.truthIndex();
      }
    }
    List<String> wanted = new ArrayList<>();
    for (int line = truthOf.length; line >= 1; line--) {
      if (truthOf[line - 1] < 0) {
        now = decide(address, now, object("remove-line", line));
        effort = effort.plus(1, NO_SUCH_LINE);
      } else {
        wanted.add(0, truth.get(truthOf[line - 1]));
      }
    }
    for (LineMatching.Pair pair : pairs) {
      if (pair.truthIndex() >= 0 && pair.readIndex() < 0) {
        String text = truth.get(pair.truthIndex());
        if (overlooks) {
          lettersOverlooked += lettersOf(text);
          continue;
        }
        wanted.add(text);
        now = decide(address, now, object("add-line", wanted.size()).put("text", leiden(text)));
        effort = effort.plus(1 + text.length(), TYPE_LINE + text.length());
      }
    }
    for (int line = 1; line <= wanted.size(); line++) {
      now = settleLine(address, now, line, wanted.get(line - 1));
    }
    for (int line = 1; line <= wanted.size(); line++) {
      countFields(now.path("lines").get(line - 1), wanted.get(line - 1));
    }
    boolean rest = false;
    for (int line = 1; line <= wanted.size(); line++) {
      if (!now.path("lines").get(line - 1).path("settled").asBoolean()) {
        now = decide(address, now, object("accept", line));
        rest = true;
      }
    }
    effort = effort.plus(0, rest ? ALL_THE_REST : 0);
    List<String> after = texts(now);
    for (int line = 0; line < wanted.size(); line++) {
      letters += wanted.get(line).replace(" ", "").length();
      wrong += distance(wanted.get(line).replace(" ", ""), after.get(line).replace(" ", ""));
    }
    if (!wanted.isEmpty() && now.path("signable").asBoolean()) {
      ObjectNode sign = Json.mapper().createObjectNode();
      sign.put("version", now.path("version").asText())
          .putObject("basis")
          .put("kind", "photographs");
      post(address + "/sign", sign);
      effort = effort.plus(0, SIGN);
    }
  }

  private JsonNode settleLine(String address, JsonNode face, int line, String truth)
      throws IOException, InterruptedException {
    JsonNode now = face;
    JsonNode before = letters(now, line);
    boolean along = words(before).stream().filter(word -> asksFor(before, word)).count() > 1;
    List<Step> steps = steps(now.path("lines").get(line - 1), along, truth);
    int asking = (int) words(before).stream().filter(word -> asks(before, word, along)).count();
    int closing = along ? Math.max(asking, LINE) : asking;
    int cost = steps.stream().mapToInt(Step::keys).sum() + closing;
    if (steps.stream().anyMatch(step -> step.change().isEmpty())
        || cost > TYPE_LINE + truth.length()) {
      effort = effort.plus(1 + truth.length(), TYPE_LINE + truth.length());
      return decide(address, now, object("text", line).put("text", leiden(truth)));
    }
    for (Step step : steps) {
      ObjectNode change = step.change().orElseThrow();
      if (change.path("do").asText().equals("join-words")
          && change.path("at").asInt() > letters(now, line).size()) {
        continue; // The space went with the last letter.
      }
      now = decide(address, now, change.put("line", line));
      effort = effort.plus(1, step.keys());
    }
    boolean lit = false;
    for (Word word : words(letters(now, line))) {
      JsonNode row = letters(now, line);
      if (asks(row, word, along)) {
        lit = true;
        now =
            decide(
                address, now, object("seen", line).put("from", word.from()).put("to", word.to()));
        effort = effort.plus(0, WORD);
      }
    }
    if (along && !now.path("lines").get(line - 1).path("settled").asBoolean()) {
      now = decide(address, now, object("seen-line", line));
      effort = effort.plus(0, lit ? 0 : LINE);
    }
    return now;
  }

  private static JsonNode letters(JsonNode face, int line) {
    return face.path("lines").get(line - 1).path("letters");
  }

  /** A word of a line: its first and last letter, from 1. */
  private record Word(int from, int to) {}

  private static List<Word> words(JsonNode row) {
    List<Word> words = new ArrayList<>();
    int from = 1;
    for (int at = 2; at <= row.size() + 1; at++) {
      if (at > row.size() || row.get(at - 1).path("spaceBefore").asBoolean()) {
        words.add(new Word(from, at - 1));
        from = at;
      }
    }
    return words;
  }

  /** Whether the page asks about a word: one of its letters is doubtful or of a name or a date. */
  private static boolean asksFor(JsonNode row, Word word) {
    for (int at = word.from(); at <= word.to(); at++) {
      JsonNode letter = row.get(at - 1);
      if (isDoubtful(letter)
          || (letter.path("field").asBoolean() && !letter.path("decided").asBoolean())) {
        return true;
      }
    }
    return false;
  }

  /** Whether a word must be decided by itself, also where the whole line is looked at. */
  private static boolean asks(JsonNode row, Word word, boolean along) {
    return along ? isDoubtful(row, word) : asksFor(row, word);
  }

  private static boolean isDoubtful(JsonNode row, Word word) {
    for (int at = word.from(); at <= word.to(); at++) {
      if (isDoubtful(row.get(at - 1))) {
        return true;
      }
    }
    return false;
  }

  /** Whether the page leads to a letter and doesn't take it with its line. */
  private static boolean isDoubtful(JsonNode letter) {
    return !letter.path("decided").asBoolean()
        && (!letter.path("standing").asText().equals("clear")
            || letter.path("gain").asDouble() > 0);
  }

  /**
   * A change to a line.
   *
   * @param change empty where only typing the line whole will do
   */
  private record Step(Optional<ObjectNode> change, int keys) {
    static Step of(ObjectNode change, int keys) {
      return new Step(Optional.of(change), keys);
    }

    static Step wholeLine() {
      return new Step(Optional.empty(), 0);
    }
  }

  /**
   * What puts right what the volunteer looks at, from the end of the line to its beginning.
   *
   * @param along whether he looks at all of it, or only at the words the page asks about
   */
  private static List<Step> steps(JsonNode line, boolean along, String truth) {
    List<String> units = new ArrayList<>();
    List<Integer> places = new ArrayList<>();
    List<Boolean> looked = new ArrayList<>();
    JsonNode letters = line.path("letters");
    boolean[] asked = new boolean[letters.size()];
    for (Word word : words(letters)) {
      Arrays.fill(asked, word.from() - 1, word.to(), along || asksFor(letters, word));
    }
    for (int i = 0; i < letters.size(); i++) {
      if (letters.get(i).path("spaceBefore").asBoolean() && i > 0) {
        units.add(" ");
        places.add(i + 1);
        looked.add(asked[i] || asked[i - 1]);
      }
      units.add(letters.get(i).path("text").asText(""));
      places.add(i + 1);
      looked.add(asked[i]);
    }
    List<String> wanted = truth.codePoints().mapToObj(Character::toString).toList();
    List<Alignment.Step> way = Alignment.of(wanted, units).steps();
    List<Step> steps = new ArrayList<>();
    int next = letters.size() + 1;
    int insertedAt = 0;
    boolean spaceOwed = false;
    boolean nextLooked = letters.size() > 0 && asked[letters.size() - 1];
    for (int i = way.size() - 1; i >= 0; i--) {
      Alignment.Step step = way.get(i);
      String truthSign = step.referenceIndex() < 0 ? "" : wanted.get(step.referenceIndex());
      boolean here = step.hypothesisIndex() >= 0;
      boolean look = here ? looked.get(step.hypothesisIndex()) : nextLooked;
      int at = here ? places.get(step.hypothesisIndex()) : next;
      int go = at <= letters.size() && isDoubtful(letters.get(at - 1)) ? 0 : GO_THERE;
      if (look) {
        switch (step.kind()) {
          case MATCH -> {}
          case SUBSTITUTION ->
              steps.add(
                  truthSign.equals(" ") || units.get(step.hypothesisIndex()).equals(" ")
                      ? Step.wholeLine()
                      : Step.of(
                          object("letter", 0)
                              .put("at", at)
                              .put("standing", "clear")
                              .put("text", truthSign),
                          LETTER + go));
          case INSERTION ->
              steps.add(
                  Step.of(
                      object(
                              units.get(step.hypothesisIndex()).equals(" ")
                                  ? "join-words"
                                  : "remove",
                              0)
                          .put("at", at),
                      LETTER + go));
          case DELETION -> {
            boolean more = at == insertedAt;
            if (!truthSign.equals(" ")) {
              int atTheEnd = at > letters.size() ? LETTER : 0;
              steps.add(
                  Step.of(
                      object("insert", 0)
                          .put("at", at)
                          .put("standing", "clear")
                          .put("text", truthSign),
                      more ? LETTER : MISSED_BEGIN + LETTER + atTheEnd + go));
              insertedAt = at;
              if (spaceOwed) {
                steps.add(Step.of(object("split-word", 0).put("at", at + 1), LETTER));
                spaceOwed = false;
              }
            } else if (at == 1) {
              // Before the first letter no space can stand until something stands before it.
              spaceOwed = true;
            } else if (more || at <= letters.size()) {
              steps.add(
                  Step.of(object("split-word", 0).put("at", at), more ? LETTER : LETTER + go));
            } else {
              steps.add(Step.wholeLine());
            }
          }
        }
      }
      insertedAt = step.kind() == Alignment.Kind.DELETION ? insertedAt : 0;
      if (here && !units.get(step.hypothesisIndex()).equals(" ")) {
        next = at;
        nextLooked = look;
      }
    }
    return steps;
  }

  private void countFields(JsonNode line, String truth) {
    List<String> units = new ArrayList<>();
    List<Boolean> field = new ArrayList<>();
    for (JsonNode letter : line.path("letters")) {
      units.add(letter.path("text").asText(""));
      field.add(letter.path("field").asBoolean());
      if (letter.path("field").asBoolean()) {
        boolean decided = letter.path("decided").asBoolean();
        boolean withLine = letter.path("withLine").asBoolean();
        fieldsNotLookedAt += decided ? 0 : 1;
        fieldsWithTheirLine += withLine ? 1 : 0;
        fieldsByThemselves += decided && !withLine ? 1 : 0;
      }
    }
    List<String> wanted =
        truth.replace(" ", "").codePoints().mapToObj(Character::toString).toList();
    for (Alignment.Step step : Alignment.of(wanted, units).steps()) {
      if (step.kind() != Alignment.Kind.MATCH
          && step.hypothesisIndex() >= 0
          && field.get(step.hypothesisIndex())) {
        fieldsWrong++;
      }
    }
  }

  private static Effort typing(Map<FaceId, List<String>> truth) {
    int typed = truth.values().stream().mapToInt(EffortBenchmark::typed).sum();
    return new Effort(typed, typed);
  }

  private static int typed(List<String> lines) {
    return lines.stream().mapToInt(line -> line.length() + 1).sum();
  }

  /** What correcting each rival's text costs. */
  private record Rivals(Effort ppocr, Effort tesseract) {}

  private static final Rivals NO_RIVALS = new Rivals(Effort.NONE, Effort.NONE);

  private void report(Effort typing, Rivals rivals) {
    System.out.println(
        "| way | typing alone, per 100 letters | all keys | decisions | letters wrong at the end"
            + " |");
    System.out.println("|---|---|---|---|---|");
    System.out.println(
        row("the desk", effort)
            + String.format(Locale.ROOT, "%.1f | %.1f |", per(decisions), per(wrong)));
    System.out.println(row("typing everything", typing) + "| 0 |");
    System.out.println(row("correcting PP-OCR v4's text", rivals.ppocr()) + "| 0 |");
    System.out.println(row("correcting plain Tesseract's text", rivals.tesseract()) + "| 0 |");
    System.out.printf(
        Locale.ROOT,
        "%n%d letters, %d of them in names and dates: %d decided by themselves or with their word,"
            + " %d with their line, %d not looked at; %d wrong at the end.%n",
        letters,
        fieldsByThemselves + fieldsWithTheirLine + fieldsNotLookedAt,
        fieldsByThemselves,
        fieldsWithTheirLine,
        fieldsNotLookedAt,
        fieldsWrong);
    reportUnsure();
  }

  private void reportUnsure() {
    System.out.printf(
        Locale.ROOT,
        "%n%d stones, %d lines not proposed with %d letters. From %.2f on %d places were looked at,"
            + " %d of them on a line and %d on none (%.2f a stone); %d lines taken with %d letters,"
            + " %d of which stood there as read; %d keys for looking and taking. %d letters"
            + " overlooked; %d keys in all, %d letters read.%n",
        stones,
        linesMissed,
        lettersMissed,
        leastUnsure,
        placesShown,
        placesWithALine,
        placesShown - placesWithALine,
        (placesShown - placesWithALine) / (double) Math.max(1, stones),
        linesTaken,
        lettersTaken,
        lettersTakenAsRead,
        keysOfUnsure,
        lettersOverlooked,
        effort.all(),
        letters - wrong);
  }

  private String row(String way, Effort effort) {
    return String.format(
        Locale.ROOT, "| %s | %.1f | %.1f | ", way, per(effort.typing()), per(effort.all()));
  }

  private double per(int count) {
    return 100.0 * count / Math.max(1, letters);
  }

  private static Rivals rivals(
      Archive archive, Map<FaceId, List<String>> truth, Map<FaceId, List<Photograph>> shots)
      throws Exception {
    Effort ppocrs = Effort.NONE;
    Effort tesseracts = Effort.NONE;
    try (MachineReader ppocr =
            new MachineReader(
                new PpOcrLineFinder(), List.of(new MachineReader.Voice(new PpOcrRecogniser(), 1)));
        TesseractRecogniser tesseract = new TesseractRecogniser()) {
      for (Map.Entry<FaceId, List<String>> face : truth.entrySet()) {
        Effort most = new Effort(typed(face.getValue()), typed(face.getValue()));
        Effort ppocrBest = most;
        Effort tesseractBest = most;
        for (Photograph photograph : shots.getOrDefault(face.getKey(), List.of())) {
          GrayImage picture = Proposer.pixels(archive, photograph);
          List<String> read =
              ppocr.read(picture).lines().stream().map(line -> line.lattice().best()).toList();
          ppocrBest = ppocrBest.orLess(correcting(face.getValue(), read));
          tesseractBest =
              tesseractBest.orLess(correcting(face.getValue(), tesseract.readPage(picture)));
        }
        ppocrs = ppocrs.plus(ppocrBest);
        tesseracts = tesseracts.plus(tesseractBest);
      }
    }
    return new Rivals(ppocrs, tesseracts);
  }

  private static Effort correcting(List<String> truth, List<String> read) {
    Effort effort = Effort.NONE;
    for (LineMatching.Pair pair : LineMatching.match(truth, read)) {
      if (pair.truthIndex() < 0) {
        effort = effort.plus(1, 1 + GO_THERE);
        continue;
      }
      String wanted = truth.get(pair.truthIndex());
      if (pair.readIndex() < 0) {
        effort = effort.plus(wanted.length() + 1, wanted.length() + 1 + GO_THERE + LINE);
        continue;
      }
      int typed = 0;
      int places = 0;
      boolean right = true;
      for (Alignment.Step step : alignment(wanted, read.get(pair.readIndex())).steps()) {
        boolean match = step.kind() == Alignment.Kind.MATCH;
        typed += match ? 0 : 1;
        places += right && !match ? 1 : 0;
        right = match;
      }
      effort = effort.plus(typed, typed + GO_THERE * places + LINE);
    }
    return effort;
  }

  private static Alignment alignment(String wanted, String read) {
    return Alignment.of(wanted.codePoints().boxed().toList(), read.codePoints().boxed().toList());
  }

  private static int distance(String wanted, String read) {
    return alignment(wanted, read).errors().errors();
  }

  private static List<String> texts(JsonNode face) {
    List<String> texts = new ArrayList<>();
    for (JsonNode line : face.path("lines")) {
      StringBuilder text = new StringBuilder();
      for (JsonNode letter : line.path("letters")) {
        text.append(letter.path("spaceBefore").asBoolean() && !text.isEmpty() ? " " : "")
            .append(letter.path("text").asText(""));
      }
      texts.add(text.toString());
    }
    return texts;
  }

  /** Signs that mean something in Leiden are written so that they stand for themselves. */
  private static String leiden(String text) {
    return text.replaceAll("([\\\\\\[\\](){}<>+|?*⟦⟧⟨⟩–])", "\\\\$1");
  }

  private static ObjectNode object(String what, int line) {
    ObjectNode object = Json.mapper().createObjectNode().put("do", what);
    return line > 0 ? object.put("line", line) : object;
  }

  private JsonNode decide(String address, JsonNode face, ObjectNode change)
      throws IOException, InterruptedException {
    decisions++;
    return post(address + "/decide", change.put("version", face.path("version").asText()));
  }

  private void signIn() throws IOException, InterruptedException {
    HttpResponse<String> page = send(HttpRequest.newBuilder(URI.create(root + "/sign-in")));
    cookie = page.headers().firstValue("Set-Cookie").orElseThrow().split(";", 2)[0];
    String form = page.body().replaceAll("(?s).*name=\"token\" value=\"([^\"]*)\".*", "$1");
    HttpResponse<String> in =
        send(
            HttpRequest.newBuilder(URI.create(root + "/sign-in"))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(
                    HttpRequest.BodyPublishers.ofString(
                        "token=" + form + "&name=A+simulated+volunteer")));
    cookie = in.headers().firstValue("Set-Cookie").orElseThrow().split(";", 2)[0];
    token = get("/api/whoami").path("token").asText();
  }

  private JsonNode get(String path) throws IOException, InterruptedException {
    return answer(send(HttpRequest.newBuilder(URI.create(root + path))));
  }

  private JsonNode post(String path, ObjectNode body) throws IOException, InterruptedException {
    return answer(
        send(
            HttpRequest.newBuilder(URI.create(root + path))
                .header("Content-Type", "application/json")
                .header("X-Desk-Token", token)
                .POST(HttpRequest.BodyPublishers.ofString(Json.text(body)))));
  }

  private HttpResponse<String> send(HttpRequest.Builder request)
      throws IOException, InterruptedException {
    if (!cookie.isEmpty()) {
      request.header("Cookie", cookie);
    }
    return http.send(request.build(), HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
  }

  private static JsonNode answer(HttpResponse<String> response) {
    JsonNode body = Json.read(response.body(), JsonNode.class);
    if (response.statusCode() != 200) {
      throw new IllegalStateException(response.uri() + ": " + body.path("message").asText());
    }
    return body;
  }
}
