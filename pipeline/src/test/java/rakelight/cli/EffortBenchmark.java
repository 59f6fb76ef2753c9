package rakelight.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.desk.Desk;
import rakelight.finding.GrayImage;
import rakelight.finding.PpOcrLineFinder;
import rakelight.measure.Alignment;
import rakelight.measure.LineMatching;
import rakelight.measure.Truth;
import rakelight.measure.TruthLine;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.PpOcrRecogniser;
import rakelight.reading.Proposer;
import rakelight.reading.ReadPicture;
import rakelight.reading.Reader;
import rakelight.reading.TesseractRecogniser;

/**
 * What it costs a volunteer who knows the truth to settle an archive at the desk, in keystrokes,
 * beside typing everything and beside correcting the text of PP-OCR v4 and of plain Tesseract.
 *
 * <p>The volunteer uses the desk's interface as the reading page does and is charged for the keys
 * the page asks: a word that is right, 1; a letter, 1, and 1 more to go to it where the page
 * doesn't lead there; a letter that was missed, 3; a line that isn't there, 3; one that was missed
 * or is typed whole, 4 and its letters; all the rest of a stone, 1; signing, 2. He looks only at
 * what the page asks about (doubtful letters, words that may be names or dates) and at whether
 * lines are missing, and takes everything else as shown: what is wrong there stays wrong.
 *
 * <p>Correcting a text costs its edit distance from the truth, spaces counted, whatever the order
 * of the lines; going to the place costs nothing; a line to be deleted 1, one to be added its
 * letters and 1, and at most what typing the face costs. Typing everything costs every letter and
 * space, and 1 a line.
 *
 * <p>Properties {@code effort.archive} and {@code effort.truth} name the archive and the table of
 * truth. It signs readings: use an archive made for it.
 */
class EffortBenchmark {
  private static final int WORD = 1;
  private static final int LETTER = 1;
  private static final int GO_THERE = 1;
  private static final int MISSED_LETTER = 3;
  private static final int NO_SUCH_LINE = 3;
  private static final int TYPE_LINE = 4;
  private static final int ALL_THE_REST = 1;
  private static final int SIGN = 2;

  private final HttpClient http = HttpClient.newHttpClient();
  private String root = "";
  private String cookie = "";
  private String token = "";

  private int letters;
  private int keys;
  private int decisions;
  private int wrong;
  private int fieldLetters;
  private int fieldWrong;
  private int wavedThrough;

  @Test
  void whatAVolunteerTypes() throws Exception {
    Path folder = Path.of(System.getProperty("effort.archive", "archive"));
    Path table = Path.of(System.getProperty("effort.truth", "truth.tsv"));
    Map<FaceId, List<String>> truth = new LinkedHashMap<>();
    Map<FaceId, List<Photograph>> shots = new LinkedHashMap<>();
    try (Archive archive = Archive.open(folder, Projections.all())) {
      gather(archive, Truth.read(table), truth, shots);
      try (Desk desk =
          Desk.start(archive, InetAddress.getLoopbackAddress(), 0, Clock.systemUTC())) {
        root = "http://127.0.0.1:" + desk.port();
        signIn();
        for (Map.Entry<FaceId, List<String>> face : truth.entrySet()) {
          settle(face.getKey(), face.getValue());
        }
        report(truth);
      }
      rivals(archive, truth, shots);
    }
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

  private void settle(FaceId face, List<String> truth) throws IOException, InterruptedException {
    String address = "/api/faces/" + face;
    JsonNode now = get(address);
    List<LineMatching.Pair> pairs = LineMatching.match(truth, texts(now));
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
        keys += NO_SUCH_LINE;
      } else {
        wanted.add(0, truth.get(truthOf[line - 1]));
      }
    }
    for (LineMatching.Pair pair : pairs) {
      if (pair.truthIndex() >= 0 && pair.readIndex() < 0) {
        String text = truth.get(pair.truthIndex());
        wanted.add(text);
        now = decide(address, now, object("add-line", wanted.size()).put("text", leiden(text)));
        keys += TYPE_LINE + text.length();
      }
    }
    for (int line = 1; line <= wanted.size(); line++) {
      now = settleLine(address, now, line, wanted.get(line - 1));
    }
    boolean rest = false;
    for (int line = 1; line <= wanted.size(); line++) {
      boolean open = false;
      for (JsonNode letter : now.path("lines").get(line - 1).path("letters")) {
        open |= !letter.path("decided").asBoolean();
        wavedThrough += asksFor(letter) ? 1 : 0;
      }
      if (open) {
        now = decide(address, now, object("accept", line));
        rest = true;
      }
    }
    keys += rest ? ALL_THE_REST : 0;
    List<String> after = texts(now);
    for (int line = 0; line < wanted.size(); line++) {
      letters += wanted.get(line).replace(" ", "").length();
      wrong += distance(wanted.get(line).replace(" ", ""), after.get(line).replace(" ", ""));
      countFields(now.path("lines").get(line), wanted.get(line));
    }
    if (!wanted.isEmpty() && now.path("signable").asBoolean()) {
      ObjectNode sign = Json.mapper().createObjectNode();
      sign.put("version", now.path("version").asText())
          .putObject("basis")
          .put("kind", "photographs");
      post(address + "/sign", sign);
      keys += SIGN;
    }
  }

  private JsonNode settleLine(String address, JsonNode face, int line, String truth)
      throws IOException, InterruptedException {
    JsonNode now = face;
    List<Step> steps = steps(now.path("lines").get(line - 1), doubts(now, line), truth);
    int cost = steps.stream().mapToInt(Step::keys).sum();
    if (steps.stream().anyMatch(step -> step.change().isEmpty())
        || cost > TYPE_LINE + truth.length()) {
      keys += TYPE_LINE + truth.length();
      return decide(address, now, object("text", line).put("text", leiden(truth)));
    }
    for (Step step : steps) {
      now = decide(address, now, step.change().orElseThrow().put("line", line));
      keys += step.keys();
    }
    for (int at = 1; at <= now.path("lines").get(line - 1).path("letters").size(); at++) {
      JsonNode row = now.path("lines").get(line - 1).path("letters");
      if (asksFor(row.get(at - 1))) {
        int from = at;
        while (from > 1 && !row.get(from - 1).path("spaceBefore").asBoolean()) {
          from--;
        }
        int to = at;
        while (to < row.size() && !row.get(to).path("spaceBefore").asBoolean()) {
          to++;
        }
        now = decide(address, now, object("seen", line).put("from", from).put("to", to));
        keys += WORD;
      }
    }
    return now;
  }

  /** Whether the page asks about a letter by itself or in its word. */
  private static boolean asksFor(JsonNode letter) {
    return !letter.path("decided").asBoolean()
        && (letter.path("field").asBoolean() || !letter.path("standing").asText().equals("clear"));
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

  /** What makes the words the page asks about right, from the end of the line to its beginning. */
  private static List<Step> steps(JsonNode line, List<Integer> doubts, String truth) {
    List<String> units = new ArrayList<>();
    List<Integer> places = new ArrayList<>();
    List<Boolean> looked = new ArrayList<>();
    JsonNode letters = line.path("letters");
    boolean[] asked = new boolean[letters.size()];
    for (int begin = 0; begin < letters.size(); ) {
      int end = begin + 1;
      boolean any = asksFor(letters.get(begin));
      while (end < letters.size() && !letters.get(end).path("spaceBefore").asBoolean()) {
        any |= asksFor(letters.get(end++));
      }
      for (; begin < end; begin++) {
        asked[begin] = any;
      }
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
    boolean nextLooked = letters.size() > 0 && asked[letters.size() - 1];
    for (int i = way.size() - 1; i >= 0; i--) {
      Alignment.Step step = way.get(i);
      String truthSign = step.referenceIndex() < 0 ? "" : wanted.get(step.referenceIndex());
      boolean here = step.hypothesisIndex() >= 0;
      boolean look = here ? looked.get(step.hypothesisIndex()) : nextLooked;
      int at = here ? places.get(step.hypothesisIndex()) : next;
      int go = doubts.contains(at) ? 0 : GO_THERE;
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
          case DELETION ->
              steps.add(
                  truthSign.equals(" ")
                      ? at > letters.size()
                          ? Step.wholeLine()
                          : Step.of(object("split-word", 0).put("at", at), LETTER + go)
                      : Step.of(
                          object("insert", 0)
                              .put("at", at)
                              .put("standing", "clear")
                              .put("text", truthSign),
                          MISSED_LETTER + go));
        }
      }
      if (here && !units.get(step.hypothesisIndex()).equals(" ")) {
        next = at;
        nextLooked = look;
      }
    }
    return steps;
  }

  private static List<Integer> doubts(JsonNode face, int line) {
    List<Integer> doubts = new ArrayList<>();
    for (JsonNode doubt : face.path("doubts")) {
      if (doubt.path("line").asInt() == line) {
        doubts.add(doubt.path("at").asInt());
      }
    }
    return doubts;
  }

  private void countFields(JsonNode line, String truth) {
    List<String> units = new ArrayList<>();
    List<Boolean> field = new ArrayList<>();
    for (JsonNode letter : line.path("letters")) {
      units.add(letter.path("text").asText(""));
      field.add(letter.path("field").asBoolean());
      fieldLetters += letter.path("field").asBoolean() ? 1 : 0;
    }
    List<String> wanted =
        truth.replace(" ", "").codePoints().mapToObj(Character::toString).toList();
    for (Alignment.Step step : Alignment.of(wanted, units).steps()) {
      if (step.kind() != Alignment.Kind.MATCH
          && step.hypothesisIndex() >= 0
          && field.get(step.hypothesisIndex())) {
        fieldWrong++;
      }
    }
  }

  private void report(Map<FaceId, List<String>> truth) {
    int typed = 0;
    for (List<String> lines : truth.values()) {
      for (String line : lines) {
        typed += line.length() + 1;
      }
    }
    System.out.printf(Locale.ROOT, "%d faces, %d letters.%n%n", truth.size(), letters);
    System.out.println(
        "| way | keystrokes per 100 letters | decisions | letters wrong at the end |");
    System.out.println("|---|---|---|---|");
    System.out.printf(
        Locale.ROOT, "| the desk | %.1f | %.1f | %.2f |%n", per(keys), per(decisions), per(wrong));
    System.out.printf(Locale.ROOT, "| typing everything | %.1f | | 0 |%n", per(typed));
    System.out.printf(
        Locale.ROOT,
        "Letters in names and dates: %d; wrong at the end: %d; taken with the rest of a line: %d.%n",
        fieldLetters,
        fieldWrong,
        wavedThrough);
  }

  private double per(int count) {
    return 100.0 * count / Math.max(1, letters);
  }

  private static void rivals(
      Archive archive, Map<FaceId, List<String>> truth, Map<FaceId, List<Photograph>> shots)
      throws Exception {
    int letters = 0;
    int ppocrKeys = 0;
    int tesseractKeys = 0;
    try (Reader ppocr =
            new Reader(new PpOcrLineFinder(), List.of(new Reader.Voice(new PpOcrRecogniser(), 1)));
        TesseractRecogniser tesseract = new TesseractRecogniser()) {
      for (Map.Entry<FaceId, List<String>> face : truth.entrySet()) {
        // Nobody corrects what is dearer to correct than to type.
        int typed = face.getValue().stream().mapToInt(line -> line.length() + 1).sum();
        int ppocrBest = typed;
        int tesseractBest = typed;
        // A rival is given the light that costs it least.
        for (Photograph photograph : shots.getOrDefault(face.getKey(), List.of())) {
          GrayImage picture = Proposer.pixels(archive, photograph);
          ReadPicture read = ppocr.read(picture);
          ppocrBest =
              Math.min(
                  ppocrBest,
                  correcting(
                      face.getValue(),
                      read.lines().stream().map(line -> line.lattice().best()).toList()));
          tesseractBest =
              Math.min(tesseractBest, correcting(face.getValue(), tesseract.readPage(picture)));
        }
        ppocrKeys += ppocrBest;
        tesseractKeys += tesseractBest;
        letters += String.join("", face.getValue()).replace(" ", "").length();
      }
    }
    System.out.printf(
        Locale.ROOT, "| correcting PP-OCR v4 | %.1f | | 0 |%n", 100.0 * ppocrKeys / letters);
    System.out.printf(
        Locale.ROOT, "| correcting Tesseract | %.1f | | 0 |%n", 100.0 * tesseractKeys / letters);
  }

  private static int correcting(List<String> truth, List<String> read) {
    int keys = 0;
    for (LineMatching.Pair pair : LineMatching.match(truth, read)) {
      if (pair.truthIndex() < 0) {
        keys += 1;
      } else {
        String wanted = truth.get(pair.truthIndex());
        keys +=
            pair.readIndex() < 0
                ? wanted.length() + 1
                : distance(wanted, read.get(pair.readIndex()));
      }
    }
    return keys;
  }

  private static int distance(String wanted, String read) {
    return Alignment.of(wanted.codePoints().boxed().toList(), read.codePoints().boxed().toList())
        .errors()
        .errors();
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
