package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import picocli.CommandLine.Model.OptionSpec;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.cli.ShownCommands.Shown;
import rakelight.photo.OddShots;
import rakelight.photo.PhotoStore;
import rakelight.reading.GivenProposal;
import rakelight.samples.Samples;
import rakelight.samples.inscriptions.Inscriptions;

/**
 * Every command that README and docs show is run as it stands there, page after page in one scratch
 * folder; then docs/commands.md is compared with the program's commands, options and JSON. A
 * command of that page that can give JSON is run once more with {@code --json}.
 */
class ShownCommandsTest {
  private static final String README = "README.md";
  private static final String COMMANDS = "docs/commands.md";

  /** Pages whose commands take minutes or hours: they are understood, and not run. */
  private static final List<String> UNDERSTOOD = List.of("docs/measurements.md");

  /** What is shown and not run, with the reason. */
  private static final Map<String, String> NOT_RUN =
      Map.ofEntries(
          Map.entry("rakelight desk Archive", "runs until Ctrl-C; DeskPagesTest opens it"),
          Map.entry(
              "rakelight desk Archive --behind-tls read.fennlane.example",
              "runs until Ctrl-C; BehindTlsTest opens it"),
          Map.entry("rakelight start", "runs until it is closed; ApplicationPagesTest opens it"),
          Map.entry(
              "rakelight alike Archive IMG_0042.jpg --area 60,40,200,180 --most 5",
              "needs a second carving; CarvingsAlikeTest has two"),
          Map.entry(
              "rakelight hands Archive 12 --most 5",
              "needs letters found on two faces; LikenessPagesTest has them"),
          Map.entry("rakelight demo", "DemoTest runs it"),
          Map.entry("rakelight calibrate odds", "ten minutes of two cores"),
          Map.entry(
              "mvn -B -DskipTests package && java -jar pipeline/target/rakelight.jar demo",
              "the build; DemoTest runs the demonstration"),
          Map.entry("mvn -B -DskipTests -Papplication package", "the build"),
          Map.entry("mvn -B verify", "the build"),
          Map.entry("mvn -B -DskipTests -Pspark package", "the build"),
          Map.entry(
              "mvn -B -Pspark -pl pipeline/spark -am verify -Dtest=StagesJobTest"
                  + " -Dsurefire.failIfNoSpecifiedTests=false -Drakelight.photographs=60",
              "the build"),
          Map.entry("java -jar jing.jar tei-epidoc-9.8.rng season-xml/*.xml", "another's program"));

  /** Fields that hold an object of no fixed fields, with the reason. */
  private static final Map<String, String> FREE =
      Map.of(
          "check derived", "one for each stage",
          "withdrawn things", "one for each kind",
          "removals columns", "one for each field of the file",
          "witness columns", "one for each field of the file",
          "decisions payload", "by the kind of decision",
          "dates posterior", "one for each figure",
          "emblems details", "by what was looked at",
          "search widened", "one for each word",
          "site leftOut", "one for each kind and reason");

  /** What commands gave as JSON, by section of the page. */
  private static final Map<String, List<JsonNode>> GIVEN = new TreeMap<>();

  /**
   * Numbers of questions and sources on the pages, and what they are here: a number is the place of
   * a decision among all, which raised the one or recorded the other.
   */
  private static final Map<String, String> NUMBERS = new TreeMap<>();

  private static final List<Shown> SHOWN = new ArrayList<>();
  private static final List<String> WRONG = new ArrayList<>();
  private static final InputStream KEYBOARD = System.in;

  @TempDir static Path scratch;

  @BeforeAll
  static void runWhatIsShown() throws IOException {
    prepareSeason();
    for (String page : pages()) {
      if (page.equals(COMMANDS)) {
        prepareOddities();
      }
      for (Shown shown : ShownCommands.of(page)) {
        SHOWN.add(shown);
        if (!NOT_RUN.containsKey(shown.line())) {
          run(shown);
        }
      }
      if (page.equals(README)) {
        renumber();
      }
    }
  }

  /** README speaks of a marker of the samples; the other pages of what is 17 here. */
  private static void renumber() throws IOException {
    command("renumber", "Archive", "M15", "17", "--reader", "A. Name");
    command(
        "marker",
        "Archive",
        "move",
        "17",
        "--face",
        "E",
        "--into",
        "17",
        "--as",
        "front",
        "--reader",
        "A. Name");
  }

  /** The pages whose commands are run: README, which makes the archive, first; commands last. */
  private static List<String> pages() throws IOException {
    List<String> pages = new ArrayList<>(List.of(README));
    ShownCommands.pages().stream()
        .filter(page -> !UNDERSTOOD.contains(page) && !page.equals(COMMANDS))
        .forEach(pages::add);
    pages.add(COMMANDS);
    return pages;
  }

  @AfterAll
  static void giveTheKeyboardBack() {
    System.setIn(KEYBOARD);
  }

  @Test
  void everyCommandShownWorksAsItStandsThere() {
    assertThat(SHOWN).hasSizeGreaterThan(NOT_RUN.size());
    assertThat(WRONG).isEmpty();
  }

  @Test
  void whatIsShownAndNotRunStillStandsOnAPage() {
    assertThat(SHOWN).extracting(Shown::line).containsAll(NOT_RUN.keySet());
  }

  @Test
  void commandsOfLongMeasurementsAreUnderstood() throws IOException {
    List<String> wrong = new ArrayList<>();
    Pattern program = Pattern.compile("(?:rakelight|java -jar \\S*rakelight.jar) ([^;]+)");
    for (String page : UNDERSTOOD) {
      String code =
          ShownCommands.page(page)
              .lines()
              .filter(line -> line.startsWith("    "))
              .reduce("", (all, line) -> all + line + "\n");
      Matcher command = program.matcher(code.replaceAll("\n", ";"));
      int found = 0;
      while (command.find()) {
        found++;
        List<String> words = new Shown(page, "", command.group(1)).words();
        try {
          commands(new StringWriter(), new StringWriter()).parseArgs(words.toArray(String[]::new));
        } catch (CommandLine.ParameterException e) {
          wrong.add(page + ": " + command.group(1) + ": " + e.getMessage());
        }
      }
      assertThat(found).as(page).isPositive();
    }
    assertThat(wrong).isEmpty();
  }

  @Test
  void thePageHasASectionWithAnExampleForEveryCommandAndForNothingElse() throws IOException {
    Set<String> sections = ShownCommands.sections(COMMANDS).keySet();
    assertThat(sections).containsExactlyInAnyOrderElementsOf(specs().keySet());
    assertThat(SHOWN)
        .filteredOn(shown -> shown.page().equals(COMMANDS))
        .allMatch(shown -> shown.words().get(0).equals(shown.section()))
        .extracting(Shown::section)
        .as("a section without an example: a line '    rakelight ...' that can be run here")
        .containsAll(sections);
  }

  @Test
  void aSectionNamesTheOptionsOfItsCommandAndNoOthers() throws IOException {
    Pattern option = Pattern.compile("--[a-z][a-z-]*");
    List<String> wrong = new ArrayList<>();
    Map<String, String> sections = ShownCommands.sections(COMMANDS);
    specs()
        .forEach(
            (name, command) -> {
              String text = sections.getOrDefault(name, "");
              Set<String> real = new TreeSet<>();
              options(command, real);
              Set<String> told = new TreeSet<>();
              Matcher found = option.matcher(text);
              while (found.find()) {
                told.add(found.group());
              }
              real.stream()
                  .filter(one -> !told.contains(one))
                  .forEach(one -> wrong.add(name + ": the page says nothing of " + one));
              usage(text)
                  .forEach(
                      line -> {
                        Matcher used = option.matcher(line);
                        while (used.find()) {
                          if (!real.contains(used.group())) {
                            wrong.add(name + ": there is no " + used.group());
                          }
                        }
                      });
            });
    assertThat(wrong).isEmpty();
  }

  @Test
  void thePageTellsOfEveryFieldOfTheJsonAndOfNoOther() throws IOException {
    List<String> wrong = new ArrayList<>();
    Set<String> free = new HashSet<>();
    ShownCommands.sections(COMMANDS)
        .forEach(
            (name, text) -> {
              Set<String> told = new TreeSet<>(ShownCommands.fields(text));
              Set<String> real = new TreeSet<>();
              GIVEN
                  .getOrDefault(name, List.of())
                  .forEach(node -> fields(name, "", node, real, free));
              real.remove("schema");
              told.stream()
                  .filter(field -> !real.contains(field))
                  .forEach(field -> wrong.add(name + ": no output has " + field));
              real.stream()
                  .filter(field -> !told.contains(field))
                  .forEach(field -> wrong.add(name + ": the page says nothing of " + field));
            });
    assertThat(wrong).isEmpty();
    assertThat(free).isEqualTo(FREE.keySet());
  }

  /**
   * Two stones of the invented ground in a season's folder, in small pictures that take little
   * time, and the tables the pages speak of.
   */
  private static void prepareSeason() throws IOException {
    Files.createDirectories(scratch.resolve("season-read"));
    Path rendered = scratch.resolve("rendered");
    Path small = scratch.resolve("small");
    Samples.ground().writeTo(rendered, 500, Set.of("M04", "M15"), 2);
    Samples.ground().writeTo(small, 300, Set.of("M04"), 2);
    Path season = scratch.resolve("season");
    Map<String, String> names =
        Map.of(
            "M15-E.jpg", "east/IMG_0017.jpg",
            "M04-W-1.jpg", "12/IMG_0031.jpg",
            "M04-W-2.jpg", "12/IMG_0032.jpg",
            "M04-W-3.jpg", "IMG_0042.jpg",
            "M04-W-4.jpg", "IMG_0043.jpg",
            "M04-W-5.jpg", "IMG_0044.jpg");
    for (Map.Entry<String, String> name : names.entrySet()) {
      Path to = season.resolve(name.getValue());
      Files.createDirectories(to.getParent());
      Path from = name.getValue().startsWith("IMG") ? small : rendered;
      Files.move(from.resolve(name.getKey()), to);
    }
    write(
        "season/manifest.csv",
        "file,marker,face",
        "east/IMG_0017.jpg,M15,E",
        "12/IMG_0031.jpg,12,",
        "12/IMG_0032.jpg,12,");
    write(
        "season/readings.tsv",
        "marker\tface\tline\ttext",
        "M15\tE\t1\tHANNAH | wife of | Jasper Quillan | died March 14, 1851");
    for (String table : List.of("truth.tsv", "boxes.tsv")) {
      List<String> rows = new ArrayList<>();
      for (String row : Files.readAllLines(rendered.resolve(table))) {
        String file = row.substring(0, row.indexOf('\t'));
        String name = names.getOrDefault(file, file);
        if (!name.startsWith("IMG")) {
          // A letter too many in the truth, so that the best photograph of the stone errs, too.
          String told = row.substring(row.indexOf('\t')).replace("Tarrant", "Tarrants");
          rows.add(name.substring(name.indexOf('/') + 1) + told);
        }
      }
      Files.write(scratch.resolve(table), rows);
    }
    write(
        "readings.tsv",
        "marker\tface\tline\ttext",
        "17\tfront\t1\tHANNAH | wife of | Jasper Quillan | died March 14, 1851 | aged 41 years",
        "18\tfront\t1\tH. Q.",
        "28\tfront\t1\t[.] Q.",
        "20\tfront\t1\tCapt. JASPER QUILLAN Esqr. | died Thursday 27 Aug. 18[6]8",
        "21\tfront\t1\tALICE GARSIDE née SALLOW | born 1953",
        "22\tfront\t1\tHANNAH QUILLAN | died 14 March 1851 | JANE QUILLAN | died 16 March 1851",
        "23\tfront\t1\tLUKE ASHLOCK | died March 18, 1851 | minister of Tarrow chapel",
        "24\tfront\t1\tAMOS LIDGATE | PVT. 5 SKER. RIFLES | CIVIL WAR",
        "27\tfront\t1\tJOB DUNNOCK | died 3 May 1840 | Aet. 63 | Also RUTH his wife | died 1841",
        "25\tfront\t1\tJOHN GARSIDE | born in Kelby May 3, 1799 | died May 9, 1848 | aged 4[.] years",
        "31\tfront\t1\tUNKNOWN | died 1868",
        "29\tfront\t1\tEDITH FELL | died March 1851",
        "26\tfront\t1\tREUBEN TULL | born May 3, 1799 | died May 9, 1848 | aged 70 years");
    write(
        "known.tsv",
        "marker\tface\tline\ttext",
        "17\tfront\t1\tIN MEMORY OF | HANNAH | wife of | Jasper Quillan | +++");
    write("links.tsv", "from\ttype\tto\tnote", "18\tfootstone of\t17\tinitials");
    write(
        "register.csv",
        "name,born,died,buried,age,kin",
        "\"Quillan, Hannah\",1809,14 March 1851,17 March 1851,41,wife of Jasper",
        "\"Tull, Reuben\",1799,9 May 1848,,,");
    write(
        "list.csv",
        "Grave,Who,Words",
        "17,Hannah Quillan,HANNAH / wife of / Jasper Quillan / died March 16 1851 / aged 41 years",
        ",Quillan,",
        ",A child,",
        ",Bess Marlow,Bess Marlow / died 1877");
    write(
        "removals.csv",
        "name,Date of death,old-number,new-number,moved,stone",
        "\"Quillan, Hannah\",14 March 1851,1,17,May 1868,original",
        "\"Tull, Reuben\",9 May 1848,2,26,1847,uniform",
        "unknown,,2,99,1868,");
    ImageIO.write(
        new BufferedImage(60, 40, BufferedImage.TYPE_INT_RGB),
        "jpg",
        scratch.resolve("page-12.jpg").toFile());
    Inscriptions.write(scratch, 20, 1, List.of(10));
    write("answers.txt", "help", "quit");
    prepareTheirStone();
  }

  /**
   * What the examples have no field for: a refused file, a field card, a photograph set aside, an
   * original gone from a copy, a face read by two, a burial too young to be told.
   */
  private static void prepareOddities() throws IOException {
    write("odd/IMG_0050.jpg", "not a photograph");
    command("cards", "odd/card.pdf", "19");
    try (PDDocument card = Loader.loadPDF(scratch.resolve("odd/card.pdf").toFile())) {
      Path picture = scratch.resolve("odd/IMG_0051.jpg");
      ImageIO.write(new PDFRenderer(card).renderImageWithDPI(0, 100), "jpg", picture.toFile());
    }
    Files.delete(scratch.resolve("odd/card.pdf"));
    OddShots.cut(scratch.resolve("odd/IMG_0052.jpg"));
    OddShots.signed(scratch.resolve("odd/IMG_0053.jpg"));
    OddShots.unreadable(scratch.resolve("odd/IMG_0054.dng"), "10:00:00");
    OddShots.copy(scratch.resolve("odd/IMG_0054.jpg"), "Seven", "10:00:00");
    command("ingest", "Archive", "odd/");
    write(
        "described.csv",
        "marker,form,lettering,height,width,thickness,origin,maker,made-at,earlier,enclosure,remark",
        "M15,round top,V-cut,90,60,8,original,J. Pask,Kelby,a board,a rail,by the path");
    command("describe", "Archive", "--from", "described.csv", "--reader", "A. Name");
    given("describe", command("describe", "Archive", "--json"));
    command("init", "Dated", "--ground", "Once", "--datum", "54,-4", "--zone", "UTC");
    write("dated.tsv", "marker\tline\ttext", "1\t1\tELI HOLT", "1\t2\tdied 1826");
    command("confirm", "Dated", "--new-markers", "--from", "dated.tsv", "--reader", "A. Name");
    command("describe", "Dated", "1", "--is", "material=granite", "--reader", "A. Name");
    given("made", command("made", "Dated", "--region", "ohio", "--opened", "1900", "--json"));
    command("copies", "Archive", "--confirm", "--reader", "A. Name");
    command("assign", "Archive", "IMG_0044.jpg", "--unfit", "--reader", "A. Name");
    command("init", "Two", "--ground", "Twice Read", "--datum", "54,-4", "--zone", "UTC");
    command("readers", "Two", "require", "2", "--reader", "A. Name");
    for (String reader : List.of("A. Name", "B. Name")) {
      command("confirm", "Two", "--new-markers", "--from", "readings.tsv", "--reader", reader);
    }
    given("readers", command("readers", "Two", "agreement", "--json"));
    command("init", "Unread", "--ground", "Unread", "--datum", "54,-4", "--zone", "UTC");
    try (Archive unread = Archive.open(scratch.resolve("Unread"), Projections.all())) {
      FaceId face = new PhotoStore(unread).faceOf("1", "front", "A. Name").id();
      GivenProposal.of(unread, face, "HANNAH WREN", "?34 DIED");
    }
    given("proposals", command("proposals", "Unread", "--json"));
    given("search", command("search", "Unread", "hannah wren", "--proposals", "--json"));
    command("ground", "Two", "--burials-told-after", "180", "--reader", "A. Name");
    given("withheld", command("withheld", "Two", "--as-of", "2026-11-25", "--json"));
    command("restore", "Copy", "Rotten");
    try (Stream<Path> files = Files.walk(scratch.resolve("Rotten/originals"))) {
      Path original = files.filter(Files::isRegularFile).findFirst().orElseThrow();
      Files.move(original, scratch.resolve("gone.jpg"));
    }
    given("check", command("check", "Rotten", "--json"));
  }

  /** A stone from elsewhere, as the page on EpiDoc takes it in. */
  private static void prepareTheirStone() throws IOException {
    write(
        "their-stone.xml",
        "<TEI xmlns=\"http://www.tei-c.org/ns/1.0\"><teiHeader/><text><body>",
        "<div type=\"edition\"><ab><lb n=\"1\"/>PRUDENCE ZEAL</ab></div></body></text></TEI>");
  }

  private static void write(String name, String... lines) throws IOException {
    Path file = scratch.resolve(name);
    Files.createDirectories(file.getParent());
    Files.write(file, List.of(lines));
  }

  private static void run(Shown shown) throws IOException {
    if (!shown.line().startsWith("rakelight ")) {
      WRONG.add(shown + "\n  is no command of the program; NOT_RUN may say why it isn't run");
      return;
    }
    String answers =
        shown.answers().isEmpty()
            ? "a long passphrase\n"
            : Files.readString(scratch.resolve(shown.answers()));
    System.setIn(new ByteArrayInputStream(answers.getBytes(StandardCharsets.UTF_8)));
    List<String> words = shown.words();
    if (!words.contains("raise")) {
      words.replaceAll(word -> numbered(words.get(0), word));
    }
    words.replaceAll(ShownCommandsTest::placed);
    Ran ran = command(words.toArray(String[]::new));
    Matcher number = Pattern.compile("(question|source) (\\d+): .*").matcher(ran.out().strip());
    if (number.matches()) {
      NUMBERS.put(number.group(1), number.group(2));
    }
    if (ran.code() != 0) {
      WRONG.add(shown + "\n  ended with " + ran.code() + ": " + ran.err() + ran.out());
    }
    if (!shown.page().equals(COMMANDS)) {
      return;
    }
    if (words.contains("--json")) {
      given(shown.section(), ran);
    } else if (canGiveJson(shown)) {
      words.add("--json");
      given(shown.section(), command(words.toArray(String[]::new)));
    }
  }

  /** A word of a command with the number of the question or source that it has here. */
  private static String numbered(String command, String word) {
    return switch (command) {
      case "question" -> word.equals("17") ? NUMBERS.getOrDefault("question", word) : word;
      case "source" -> word.equals("5") ? NUMBERS.getOrDefault("source", word) : word;
      case "sought", "removals", "witness" ->
          word.replaceFirst("^5(?=$|\\.)", NUMBERS.getOrDefault("source", "5"));
      default -> word;
    };
  }

  /** A word that names a file of the scratch folder with its whole path. */
  private static String placed(String word) {
    Path file = scratch.resolve(word);
    return Files.isRegularFile(file) ? file.toString() : word;
  }

  private static void given(String section, Ran ran) {
    for (String line : ran.outLines()) {
      if (line.startsWith("{")) {
        GIVEN
            .computeIfAbsent(section, name -> new ArrayList<>())
            .add(Json.read(line, JsonNode.class));
      } else {
        WRONG.add(section + " --json gave, among JSON: " + line);
      }
    }
  }

  /** Whether the page says that this command, with the verb it has, can give JSON. */
  private static boolean canGiveJson(Shown shown) throws IOException {
    List<String> words = shown.words();
    String verb = words.size() > 2 ? words.get(2) : "";
    List<String> usage =
        usage(ShownCommands.sections(shown.page()).getOrDefault(shown.section(), ""));
    return usage.stream()
        .filter(line -> verb.matches("[a-z]+"))
        .filter(line -> line.matches(".* ARCHIVE \\[?" + verb + "\\b.*"))
        .findFirst()
        .or(() -> usage.stream().findFirst())
        .filter(line -> line.contains("--json"))
        .isPresent();
  }

  private static Ran command(String... words) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = commands(out, err).execute(words);
    return new Ran(code, out.toString(), err.toString());
  }

  /** The commands, for which the scratch folder is where they are called. */
  private static CommandLine commands(StringWriter out, StringWriter err) {
    return Rakelight.commands(new PrintWriter(out, true), new PrintWriter(err, true))
        .registerConverter(Path.class, word -> scratch.resolve(word));
  }

  private static Map<String, CommandLine> specs() {
    return new TreeMap<>(commands(new StringWriter(), new StringWriter()).getSubcommands());
  }

  private static void options(CommandLine command, Set<String> names) {
    for (OptionSpec option : command.getCommandSpec().options()) {
      if (!option.usageHelp() && !option.versionHelp()) {
        names.add(option.longestName());
      }
    }
    command.getSubcommands().values().forEach(sub -> options(sub, names));
  }

  /** The lines of a section that say how its command is called. */
  private static List<String> usage(String section) {
    return section.lines().skip(1).takeWhile(line -> line.startsWith("`")).toList();
  }

  private static void fields(
      String section, String above, JsonNode node, Set<String> into, Set<String> free) {
    if (node.isArray()) {
      node.forEach(item -> fields(section, above, item, into, free));
    } else if (FREE.containsKey(section + " " + above)) {
      free.add(section + " " + above);
    } else {
      node.fields()
          .forEachRemaining(
              field -> {
                String name = above.isEmpty() ? field.getKey() : above + "." + field.getKey();
                into.add(name);
                fields(section, name, field.getValue(), into, free);
              });
    }
  }
}
