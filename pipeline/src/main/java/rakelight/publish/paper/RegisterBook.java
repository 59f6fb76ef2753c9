package rakelight.publish.paper;

import java.io.IOException;
import java.io.OutputStream;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.ground.GroundPlan;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.Sign;
import rakelight.marker.Caution;
import rakelight.marker.ConditionNote;
import rakelight.marker.Description;
import rakelight.marker.EmblemNote;
import rakelight.marker.Marker;
import rakelight.person.Mention;
import rakelight.person.Person;
import rakelight.person.Question;
import rakelight.person.Roll;
import rakelight.person.Source;
import rakelight.person.Statement;
import rakelight.person.Statement.Kind;
import rakelight.photo.Face;
import rakelight.publish.Edition;
import rakelight.publish.ToldFace;
import rakelight.publish.ToldGround;
import rakelight.publish.ToldMarker;
import rakelight.publish.paper.Paper.Cut;
import rakelight.publish.paper.Paper.Part;

/**
 * The register of a ground as a book: how to read the marks of doubt, the plan, every inscription
 * by row, indices with page numbers, questions and sources. Made of an edition, so whoever may be
 * living, and what is withheld, isn't in it.
 */
public final class RegisterBook {
  private static final float TITLE = 30;
  private static final float SECTION = 18;
  private static final float HEADING = 13;
  private static final float SUBHEADING = 10;
  private static final float TEXT = 10;
  private static final float SMALL = 8;

  /** Room for a heading and the first lines under it. */
  private static final float BEGINNING_MM = 24;

  private static final float INDENT_MM = 6;
  private static final float SIGN_MM = 28;
  private static final int INDEX_COLUMNS = 2;

  /** An index of so many lines stands in one column beneath the one before. */
  private static final int FEW_LINES = 20;

  /** So many sheets of the plan go into a book at most; the scale follows. */
  private static final int MOST_SHEETS = 12;

  private static final int[] SCALES = {200, 250, 300, 400, 500, 750, 1000, 1500, 2000, 3000, 5000};

  private static final String[][] SIGNS = {
    {"ạ", "a letter that is damaged and can be read only where one knows what to expect"},
    {"(3 or 8)", "one of these; with per cent, how likely each is to the reader"},
    {"[abc]", "letters that are gone and were worked out; [abc?] where that is doubtful"},
    {"[...]", "letters that are gone, a dot for each; [- - -] where nobody knows how many"},
    {"+++", "traces of letters that nobody can read, a cross for each"},
    {"(abc)", "what an abbreviation on the stone stands for"},
    {"<abc>", "letters that the cutter left out; {abc} such as he cut once too often"},
    {"〚abc〛", "cut away on purpose, and still to be read"},
    {"`abc´", "added above the line"},
    {"(vac.)", "a space left blank; with a number, for about so many letters"},
    {"a̲", "seen by an earlier reader, no longer there"},
    {"M^r", "a letter cut small and high"},
    {"[withheld]", "not told in this edition, with the cause; no damage of the stone"}
  };

  private final Edition edition;
  private final LocalDate day;
  private final ToldGround around;
  private final Paper paper;
  private final Map<MarkerId, List<ToldFace>> faces = new LinkedHashMap<>();
  private final Map<String, String> contents = new LinkedHashMap<>();

  /** The page of each line of a face, the first line first. */
  private final Map<FaceId, List<String>> pages = new HashMap<>();

  private final Map<MarkerId, String> markerPages = new HashMap<>();

  private RegisterBook(Edition edition, LocalDate day, Paper paper) {
    this.edition = edition;
    this.day = day;
    this.around = edition.around();
    this.paper = paper;
    for (ToldFace face : edition.faces()) {
      faces.computeIfAbsent(face.says().marker().id(), m -> new ArrayList<>()).add(face);
    }
    faces
        .values()
        .forEach(
            own ->
                own.sort(
                    Comparator.comparing(
                        face -> !face.says().face().name().equalsIgnoreCase(Face.FRONT))));
  }

  /**
   * Writes a PDF.
   *
   * @param day of the edition
   * @return how many pages it has
   */
  public static int write(Edition edition, LocalDate day, OutputStream out) throws IOException {
    try (Paper paper = new Paper("The inscriptions of " + edition.ground())) {
      new RegisterBook(edition, day, paper).write();
      paper.save(out);
      return paper.pages();
    }
  }

  private void write() throws IOException {
    paper.number(true);
    title();
    PrintedPage listed = paper.leaf();
    Flow front = new Flow(paper, head(), page -> Paper.roman(page + 2));
    section(front, "How to read it");
    howToRead(front);
    plan();
    paper.number(false);
    Flow flow = new Flow(paper, head());
    section(flow, "Inscriptions");
    inscriptions(flow);
    indices(flow);
    questions(flow);
    sources(flow);
    listed(listed);
  }

  private String head() {
    return around.name() + ", as told on " + day;
  }

  private void section(Flow flow, String name) throws IOException {
    contents.put(name, flow.number());
    paper.begin(Part.SECTION);
    flow.bookmark(name, 0);
    flow.words(Cut.BOLD, SECTION, 0, 0, name);
    flow.space(3);
    paper.begin(Part.PARAGRAPH);
  }

  // The front

  private void title() throws IOException {
    PrintedPage leaf = paper.leaf();
    paper.bookmark("Title", 0, leaf, leaf.highMm());
    float x = 30;
    float y = leaf.highMm() - 90;
    paper.begin(Part.TITLE);
    for (String line : paper.wrapped(Cut.BOLD, TITLE, around.name(), leaf.wideMm() - 2 * x)) {
      leaf.text(Cut.BOLD, TITLE, line, x, y);
      y -= TITLE * 0.45f;
    }
    leaf.text(Cut.PLAIN, 16, "The inscriptions on its grave markers", x, y - 2);
    y -= 20;
    paper.begin(Part.PARAGRAPH);
    long persons = edition.persons().stream().filter(Person::isCommemorated).count();
    List<String> words = new ArrayList<>();
    words.add("As told on " + day + ".");
    words.add(
        around.markers().size()
            + " markers, of which "
            + faces.size()
            + " are read; "
            + persons
            + " persons commemorated.");
    Set<String> readers = new TreeSet<>();
    edition.faces().forEach(face -> readers.add(face.says().reading().orElseThrow().reader()));
    if (!readers.isEmpty()) {
      words.add("Read and signed by " + String.join(", ", readers) + ".");
    }
    words.add(
        "Persons who may be living, and what families, keepers or the ground's rule ask to keep"
            + " back, are left out. Nothing here was taken from a machine's proposal that nobody"
            + " confirmed.");
    words.addAll(Caution.VISIT);
    words.add(Caution.LOOK_ONLY);
    for (String paragraph : words) {
      for (String line : paper.wrapped(Cut.PLAIN, TEXT, paragraph, leaf.wideMm() - 2 * x)) {
        leaf.text(Cut.PLAIN, TEXT, line, x, y);
        y -= 5;
      }
      y -= 3;
    }
  }

  /** Written last, when all pages are known. */
  private void listed(PrintedPage leaf) throws IOException {
    paper.bookmark("Contents", 0, leaf, leaf.highMm());
    paper.begin(Part.SECTION);
    leaf.text(Cut.BOLD, SECTION, "Contents", 30, leaf.highMm() - 40);
    paper.begin(Part.PARAGRAPH);
    float y = leaf.highMm() - 56;
    for (Map.Entry<String, String> entry : contents.entrySet()) {
      leaf.text(Cut.PLAIN, 11, entry.getKey(), 30, y);
      leaf.text(
          Cut.PLAIN,
          11,
          entry.getValue(),
          leaf.wideMm() - 30 - paper.width(Cut.PLAIN, 11, entry.getValue()),
          y);
      y -= 7;
    }
  }

  private void howToRead(Flow flow) throws IOException {
    flow.words(
        TEXT,
        "Each line of a stone is a line here, in the letters of the stone. What is sure stands as it"
            + " is; whatever is not is marked, after the Leiden conventions:");
    flow.space(2);
    for (String[] sign : SIGNS) {
      paper.begin(Part.ITEM);
      flow.explained(Cut.PLAIN, TEXT, SIGN_MM, sign[0], sign[1] + ".");
    }
    paper.begin(Part.PARAGRAPH);
    flow.space(2);
    flow.words(
        TEXT,
        "A date or age with a question mark or in square brackets is no more certain than its"
            + " letters. Markers stand in the order of their rows; those of which nobody noted a"
            + " row follow. A stone nobody has read is named at the end of its row.");
  }

  private void plan() throws IOException {
    GroundPlan plan = around.plan(edition.faces());
    if (plan.markers().isEmpty()) {
      return;
    }
    PlanSheets sheets = new PlanSheets(paper, plan, SCALES[0], ".", Paper::roman);
    for (int scale : SCALES) {
      sheets = new PlanSheets(paper, plan, scale, ".", Paper::roman);
      if (sheets.count() <= MOST_SHEETS) {
        break;
      }
    }
    contents.put("Plan", Paper.roman(paper.pages() + 1));
    paper.bookmark("Plan", 0, sheets.draw(), 290);
  }

  // The inscriptions

  private void inscriptions(Flow flow) throws IOException {
    Map<MarkerId, ToldMarker> told = around.byId();
    Set<MarkerId> done = new LinkedHashSet<>();
    for (Map.Entry<String, List<Marker>> row : around.rows().entrySet()) {
      markers(
          flow,
          "Row " + row.getKey(),
          row.getValue().stream().map(marker -> told.get(marker.id())).toList());
      row.getValue().forEach(marker -> done.add(marker.id()));
    }
    List<ToldMarker> others =
        around.markers().stream().filter(one -> !done.contains(one.marker().id())).toList();
    markers(flow, done.isEmpty() ? "" : "In no row", others);
  }

  /**
   * @param called may be empty where all markers follow
   */
  private void markers(Flow flow, String called, List<ToldMarker> markers) throws IOException {
    List<String> unread = new ArrayList<>();
    if (!called.isEmpty() && !markers.isEmpty()) {
      flow.room(BEGINNING_MM);
      flow.space(2);
      paper.begin(Part.HEADING);
      flow.bookmark(called, 1);
      flow.words(Cut.BOLD, 15, 0, 0, called);
      flow.space(1);
    }
    for (ToldMarker marker : markers) {
      if (faces.containsKey(marker.marker().id())) {
        marker(flow, marker);
      } else {
        unread.add(marker.marker().number());
      }
    }
    if (!unread.isEmpty()) {
      flow.space(2);
      paper.begin(Part.PARAGRAPH);
      flow.words(
          Cut.ITALIC, TEXT, 0, 0, "Not read, or not told: " + String.join(", ", unread) + ".");
      flow.space(2);
    }
  }

  private void marker(Flow flow, ToldMarker marker) throws IOException {
    flow.room(BEGINNING_MM);
    flow.space(2);
    paper.begin(Part.SUBHEADING);
    flow.words(Cut.BOLD, HEADING, 0, 0, "Marker " + marker.marker().number());
    markerPages.put(marker.marker().id(), flow.number());
    paper.begin(Part.PARAGRAPH);
    String what = what(marker);
    if (!what.isEmpty()) {
      flow.words(Cut.ITALIC, SMALL, 0, 0, what);
    }
    Optional<ConditionNote> unsafe = marker.condition().filter(note -> !note.unsafe().isEmpty());
    if (unsafe.isPresent()) {
      flow.words(
          Cut.BOLD,
          SMALL,
          0,
          0,
          "Keep clear of it: noted as " + unsafe.get().unsafe() + " on " + unsafe.get().on() + ".");
    }
    for (ToldFace face : faces.getOrDefault(marker.marker().id(), List.of())) {
      face(flow, face);
    }
    flow.space(1.5f);
  }

  private static String what(ToldMarker marker) {
    Description said = marker.description();
    List<String> words = new ArrayList<>();
    Stream.of(said.kind(), said.form(), said.material(), said.size())
        .flatMap(Optional::stream)
        .forEach(words::add);
    said.maker().ifPresent(maker -> words.add("made by " + maker));
    if (!marker.emblems().isEmpty()) {
      words.add(
          marker.emblems().stream()
              .map(EmblemNote::name)
              .distinct()
              .collect(Collectors.joining(", ")));
    }
    if (!marker.marker().earlierNumbers().isEmpty()) {
      words.add("formerly " + String.join(", ", marker.marker().earlierNumbers()));
    }
    return String.join("; ", words);
  }

  private void face(Flow flow, ToldFace face) throws IOException {
    Reading reading = face.says().reading().orElseThrow();
    flow.room(14);
    flow.space(1);
    paper.begin(Part.PARAGRAPH);
    flow.words(
        Cut.PLAIN,
        SMALL,
        0,
        0,
        face.says().face().name()
            + ", read by "
            + reading.reader()
            + " on "
            + reading.at().toString().substring(0, 10)
            + ", "
            + from(reading));
    paper.begin(Part.PARAGRAPH);
    List<String> own = new ArrayList<>();
    List<String> texts = Leiden.printLines(reading.inscription());
    List<List<Sign>> lines = reading.inscription().lines();
    for (int i = 0; i < texts.size(); i++) {
      Set<String> why = new TreeSet<>();
      for (Sign sign : lines.get(i)) {
        Optional.ofNullable(face.withheld().get(sign.id())).ifPresent(why::add);
      }
      flow.words(
          Cut.PLAIN,
          SUBHEADING,
          INDENT_MM,
          INDENT_MM,
          why.isEmpty() ? texts.get(i) : "[withheld: " + String.join("; ", why) + "]");
      own.add(flow.number());
    }
    pages.put(face.says().face().id(), own);
  }

  private static String from(Reading reading) {
    return switch (reading.basis().kind()) {
      case PHOTOGRAPHS -> "from photographs";
      case STONE -> "at the stone";
      case EARLIER -> "from " + reading.basis().witness().orElse("an earlier witness");
    };
  }

  // The indices

  private void indices(Flow flow) throws IOException {
    List<Person> persons = edition.persons();
    PageIndex names = new PageIndex();
    for (Person person : persons) {
      for (Mention mention : person.mentions()) {
        if (!mention.name().given().isEmpty() || !mention.name().surname().isEmpty()) {
          names.add(called(person, mention), page(mention));
        }
      }
    }
    index(flow, "Names", names);
    index(flow, "Places", roll(persons, Roll.By.ORIGIN));
    PageIndex units = roll(persons, Roll.By.REGIMENT);
    index(flow, "Units", units);
    PageIndex emblems = new PageIndex();
    PageIndex makers = new PageIndex();
    for (ToldMarker marker : around.markers()) {
      String page = Optional.ofNullable(markerPages.get(marker.marker().id())).orElse("");
      marker.emblems().forEach(note -> emblems.add(note.name(), page));
      marker.description().maker().ifPresent(maker -> makers.add(maker, page));
    }
    for (ToldFace face : edition.faces()) {
      for (Statement statement : face.says().statements()) {
        if (statement.kind() == Kind.MAKER) {
          makers.add(statement.value(), page(face.says().face().id(), statement.firstLine()));
        }
      }
    }
    index(flow, "Emblems", emblems);
    index(flow, "Makers", makers);
  }

  private PageIndex roll(List<Person> persons, Roll.By by) {
    PageIndex index = new PageIndex();
    for (Roll.Group group : Roll.of(persons, by)) {
      for (Roll.Entry entry : group.entries()) {
        entry.mentions().forEach(mention -> index.add(group.called(), page(mention)));
      }
    }
    return index;
  }

  /** Surname first, with the year of death where a stone has one. */
  private static String called(Person person, Mention mention) {
    String name =
        Stream.of(mention.name().surname(), mention.name().given())
            .filter(part -> !part.isEmpty())
            .collect(Collectors.joining(", "));
    return person.values(Kind.DEATH).stream()
        .map(date -> date.replaceFirst("^([0-9X]{4}).*", "$1"))
        .filter(year -> year.matches("[0-9X]{4}"))
        .findFirst()
        .map(year -> name + " (d. " + year.replace('X', '?') + ")")
        .orElse(name);
  }

  private String page(Mention mention) {
    int line =
        mention.about().stream()
            .filter(statement -> statement.kind() == Kind.NAME || mention.isKinOnly())
            .mapToInt(Statement::firstLine)
            .min()
            .orElseGet(
                () -> mention.about().stream().mapToInt(Statement::firstLine).min().orElse(1));
    return page(mention.id().face(), line);
  }

  private String page(FaceId face, int line) {
    List<String> own = pages.getOrDefault(face, List.of());
    return own.isEmpty() ? "" : own.get(Math.max(0, Math.min(own.size(), line) - 1));
  }

  private void index(Flow flow, String name, PageIndex index) throws IOException {
    if (index.isEmpty()) {
      return;
    }
    flow.room(BEGINNING_MM);
    flow.space(4);
    section(flow, "Index of " + name.toLowerCase(Locale.ROOT));
    List<String> lines = index.lines();
    if (lines.size() > FEW_LINES) {
      flow.columns(INDEX_COLUMNS);
    }
    for (String line : lines) {
      paper.begin(Part.ITEM);
      flow.words(Cut.PLAIN, SMALL, 0, 4, line);
    }
    flow.oneColumn();
  }

  // The end

  private void questions(Flow flow) throws IOException {
    if (around.questions().isEmpty()) {
      return;
    }
    flow.room(BEGINNING_MM);
    flow.space(4);
    section(flow, "Questions");
    flow.words(TEXT, "What nobody knew when this was made, and what was done to find out.");
    Map<MarkerId, ToldMarker> told = around.byId();
    for (Question question : around.questions()) {
      flow.space(2);
      paper.begin(Part.PARAGRAPH);
      String about =
          question
              .marker()
              .map(told::get)
              .map(marker -> ", marker " + marker.marker().number())
              .orElse("");
      flow.words(
          Cut.BOLD,
          TEXT,
          0,
          0,
          "Question " + question.number() + about + (question.isOpen() ? "" : ", answered"));
      flow.words(TEXT, question.text());
      for (Question.Step step : question.steps()) {
        if (!step.told().isEmpty()) {
          flow.words(Cut.PLAIN, SMALL, INDENT_MM, 0, step.told());
        }
      }
    }
  }

  private void sources(Flow flow) throws IOException {
    Set<String> witnesses = new TreeSet<>();
    edition
        .faces()
        .forEach(
            face ->
                face.says().reading().orElseThrow().basis().witness().ifPresent(witnesses::add));
    if (around.sources().isEmpty() && witnesses.isEmpty()) {
      return;
    }
    flow.room(BEGINNING_MM);
    flow.space(4);
    section(flow, "Sources");
    for (Source source : around.sources()) {
      paper.begin(Part.ITEM);
      flow.words(
          Cut.PLAIN,
          TEXT,
          0,
          INDENT_MM,
          "S"
              + source.number()
              + "  "
              + Stream.of(
                      source.title(),
                      source.kind().label(),
                      source.repository(),
                      source.reference(),
                      source.consulted().map(seen -> "seen " + seen).orElse(""))
                  .filter(words -> !words.isEmpty())
                  .collect(Collectors.joining(", ")));
    }
    for (String witness : witnesses) {
      paper.begin(Part.ITEM);
      flow.words(Cut.PLAIN, TEXT, 0, INDENT_MM, "Earlier witness: " + witness);
    }
  }
}
