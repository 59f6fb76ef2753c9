package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;
import rakelight.ground.FaceBearing;
import rakelight.ground.PlannedWalk;
import rakelight.ground.PositionStore;
import rakelight.ground.RakingRound;
import rakelight.ground.RowPlace;
import rakelight.ground.SunDay;
import rakelight.ground.WalkStore;
import rakelight.marker.Caution;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.GlossaryEmblem;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.survey.DatingClue;
import rakelight.survey.FirstToRecord;
import rakelight.survey.MadeMarkers;
import rakelight.survey.Making;
import rakelight.work.NamedReader;
import rakelight.work.Queue;

/** Pages for whoever walks the ground: emblems, when made, what goes first, the sun, walks. */
final class GuideRoutes {
  private static final int USUAL_FIRST = 20;
  private static final int MOST_FIRST = 500;
  private static final int LONGEST_STAY = 120;

  /** Between them the sun's place is as sure as it is said to be; days far off need no plan. */
  private static final int FIRST_YEAR = 1900;

  private static final int LAST_YEAR = 2200;
  private static final double SURE_OF_LATER = 0.5;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Concluding concluding;
  private final StonePages stones;
  private final Sunlight sunlight;
  private final WalkStore walks;
  private final MarkerStore markers;
  private Optional<Dated> dated = Optional.empty();

  /** When all markers were made, at one state of the journal. */
  private record Dated(long counter, List<MadeLine> lines) {}

  private record MadeLine(Marker marker, Description description, Making.Made made) {
    boolean isLater() {
      return made.later().filter(odds -> odds >= SURE_OF_LATER).isPresent();
    }

    boolean isBefore() {
      return made.before().filter(odds -> odds >= SURE_OF_LATER).isPresent();
    }

    String decade() {
      return made.likeliest() / 10 * 10 + "s";
    }
  }

  GuideRoutes(
      Archive archive,
      Requests requests,
      Pages pages,
      Concluding concluding,
      StonePages stones,
      Sunlight sunlight) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.concluding = concluding;
    this.stones = stones;
    this.sunlight = sunlight;
    this.walks = new WalkStore(archive);
    this.markers = new MarkerStore(archive);
  }

  void addTo(Javalin server) {
    server.get("/emblems", this::emblems);
    server.get("/made", this::made);
    server.get("/first", this::first);
    server.get("/first.csv", this::firstTable);
    server.get("/first.pdf", this::firstSheet);
    server.get("/sun", this::sun);
    server.get("/walk", context -> walks(context, ""));
    server.post("/walk", this::plan);
    server.get("/walk/{walk}", context -> walk(context, ""));
    server.post("/walk/{walk}", this::change);
    server.get("/walk/{walk}/sheet.pdf", this::walkSheet);
  }

  // Emblems

  private void emblems(Context context) {
    requests.by(context);
    String words = given(context, "words");
    boolean onlyHere = given(context, "which").equals("here");
    Map<String, List<GuidePage.MarkerLine>> seen = new TreeMap<>();
    int here = 0;
    for (EmblemNote note : new EmblemStore(archive).all()) {
      Optional<Marker> marker = markers.marker(note.marker());
      if (marker.isPresent()) {
        here++;
        seen.computeIfAbsent(note.name(), name -> new ArrayList<>())
            .add(
                new GuidePage.MarkerLine(
                    marker.get().id().toString(),
                    marker.get().number(),
                    GuidePage.line(note.face(), note.remark())));
      }
    }
    List<GuidePage.EmblemHere> all = new ArrayList<>();
    for (GlossaryEmblem entry : GlossaryEmblem.glossary()) {
      all.add(
          new GuidePage.EmblemHere(
              entry.name(),
              Optional.of(entry),
              Optional.ofNullable(seen.remove(entry.name())).orElse(List.of())));
    }
    List<GuidePage.EmblemHere> unknown = new ArrayList<>();
    seen.forEach(
        (name, where) -> unknown.add(new GuidePage.EmblemHere(name, Optional.empty(), where)));
    unknown.addAll(all);
    List<GuidePage.EmblemHere> held =
        unknown.stream()
            .filter(one -> !onlyHere || !one.markers().isEmpty())
            .filter(one -> holds(one, words.toLowerCase(Locale.ROOT)))
            .sorted(Comparator.comparing(one -> one.markers().isEmpty()))
            .toList();
    pages.show(
        context,
        "glossary",
        Map.of("glossary", new GuidePage.Glossary(words, onlyHere, held, here)));
  }

  private static boolean holds(GuidePage.EmblemHere one, String words) {
    String all =
        one.name()
            + " "
            + one.entry()
                .map(entry -> entry.seen() + " " + String.join(" ", entry.readings()))
                .orElse("");
    return all.toLowerCase(Locale.ROOT).contains(words);
  }

  // When made

  private synchronized List<MadeLine> dated() {
    Conclusion now = concluding.now();
    long counter = archive.journal().lastCounter();
    Dated known =
        dated
            .filter(one -> one.counter() == counter)
            .orElseGet(
                () -> {
                  MadeMarkers ground =
                      new MadeMarkers(
                          archive,
                          DatingClue.ofGround(archive.ground().regions()),
                          now.faces(true));
                  List<MadeLine> lines = new ArrayList<>();
                  for (Marker marker : markers.markers()) {
                    ground
                        .of(marker.id(), OptionalInt.empty())
                        .ifPresent(
                            made ->
                                lines.add(
                                    new MadeLine(marker, ground.description(marker.id()), made)));
                  }
                  return new Dated(counter, List.copyOf(lines));
                });
    dated = Optional.of(known);
    return known.lines();
  }

  private void made(Context context) {
    requests.by(context);
    String decade = given(context, "decade");
    String material = given(context, "material");
    String which = given(context, "which");
    String find = given(context, "find");
    List<MadeLine> all = dated();
    List<Listing.Field> fields =
        List.of(
            Listing.Field.written("find", "Marker", find, "12"),
            chosen(
                "decade", "Decade", decade, counted(all.stream().map(MadeLine::decade).toList())),
            chosen(
                "material",
                "Of",
                material,
                counted(
                    all.stream().flatMap(one -> one.description().material().stream()).toList())),
            Listing.Field.chosen(
                "which",
                "Which",
                which,
                new Listing.Choice("", "all"),
                new Listing.Choice("conflict", "evidence that doesn’t go together"),
                new Listing.Choice("later", "set up later or in another’s place"),
                new Listing.Choice("before", "there before the first death on it")));
    List<MadeLine> held =
        all.stream()
            .filter(one -> find.isEmpty() || one.marker().number().equalsIgnoreCase(find))
            .filter(one -> decade.isEmpty() || one.decade().equals(decade))
            .filter(
                one ->
                    material.isEmpty()
                        || one.description().material().filter(material::equals).isPresent())
            .filter(
                one ->
                    switch (which) {
                      case "conflict" -> one.made().conflict().isPresent();
                      case "later" -> one.isLater();
                      case "before" -> one.isBefore();
                      default -> true;
                    })
            .sorted(
                Comparator.comparingInt((MadeLine one) -> one.made().likeliest())
                    .thenComparing(MadeLine::marker, MarkerStore.BY_NUMBER))
            .toList();
    List<String> notices = new ArrayList<>();
    if (archive.ground().regions().isEmpty()) {
      notices.add(
          "No region’s fashions are reckoned with: the archivist states them with “ground --region”.");
    }
    if (!held.isEmpty()) {
      notices.add(Caution.LOOK_ONLY);
    }
    pages.show(
        context,
        "list",
        Map.of(
            "list",
            new Listing(
                "When the stones were made",
                "/made",
                "A span with about four chances in five, by what each is, what is carved on it, the"
                    + " deaths it bears and the ground’s other markers. A date on a stone never"
                    + " proves when the stone was made.",
                "",
                notices,
                fields,
                "marker with a span",
                "markers with a span",
                all.size(),
                Requests.paged(context, held, "/made", fields).map(GuideRoutes::row))));
  }

  private static Listing.Row row(MadeLine line) {
    Making.Made made = line.made();
    List<String> facts = new ArrayList<>();
    facts.add(
        GuidePage.line(
            line.description().kind().orElse(""), line.description().material().orElse("")));
    made.conflict().ifPresent(words -> facts.add("Conflict: " + words));
    made.later()
        .map(StonePage::odds)
        .filter(words -> !words.isEmpty())
        .ifPresent(words -> facts.add(words + " set up later or in another’s place"));
    made.before()
        .map(StonePage::odds)
        .filter(words -> !words.isEmpty())
        .ifPresent(words -> facts.add(words + " there before the first death on it"));
    made.evidence().forEach(one -> facts.add(one.weight() + ": " + one.words()));
    return new Listing.Row(
        "/markers/" + line.marker().id() + "#made",
        "Marker "
            + line.marker().number()
            + ": "
            + (made.from() == made.to() ? "" + made.from() : made.from() + " to " + made.to()),
        line.isLater() ? "later" : made.conflict().isPresent() ? "conflict" : "",
        facts);
  }

  private static Listing.Field chosen(
      String name, String label, String value, Map<String, Integer> counts) {
    List<Listing.Choice> choices = new ArrayList<>(List.of(new Listing.Choice("", "any")));
    counts.forEach((one, count) -> choices.add(new Listing.Choice(one, one + " (" + count + ")")));
    return Listing.Field.chosen(name, label, value, choices.toArray(Listing.Choice[]::new));
  }

  private static Map<String, Integer> counted(List<String> values) {
    Map<String, Integer> counts = new TreeMap<>();
    values.forEach(value -> counts.merge(value, 1, Integer::sum));
    return counts;
  }

  // What goes first

  /** The row or else the plot of each marker. */
  private Map<MarkerId, String> rows(List<Marker> all) {
    Map<MarkerId, RowPlace> places = new PositionStore(archive).rowPlaces();
    Map<MarkerId, String> rows = new HashMap<>();
    for (Marker marker : all) {
      RowPlace place = places.get(marker.id());
      rows.put(marker.id(), place == null ? Queue.plot(marker.number()) : place.row());
    }
    return rows;
  }

  private static List<String> names(Map<MarkerId, String> rows) {
    return new TreeSet<>(rows.values()).stream().filter(row -> !row.isEmpty()).toList();
  }

  private GuidePage.First firsts(Context context) {
    String row = given(context, "row");
    int most = number(given(context, "most"), USUAL_FIRST, 1, MOST_FIRST);
    List<FirstToRecord.Urgency> all = FirstToRecord.of(archive);
    Map<MarkerId, String> rows = rows(all.stream().map(FirstToRecord.Urgency::marker).toList());
    List<GuidePage.FirstLine> lines = new ArrayList<>();
    int of = 0;
    for (int i = 0; i < all.size(); i++) {
      String its = rows.getOrDefault(all.get(i).marker().id(), "");
      if (row.isEmpty() || its.equals(row)) {
        of++;
        if (lines.size() < most) {
          lines.add(new GuidePage.FirstLine(i + 1, all.get(i), its));
        }
      }
    }
    return new GuidePage.First(row, names(rows), most, lines, of);
  }

  private void first(Context context) {
    requests.by(context);
    pages.show(context, "first", Map.of("first", firsts(context)));
  }

  private void firstTable(Context context) throws IOException {
    requests.by(context);
    StringBuilder table = new StringBuilder();
    try (CSVPrinter rows = new CSVPrinter(table, CSVFormat.RFC4180)) {
      rows.printRecord("rank", "marker", "row", "reasons", "unsafe", "caution");
      for (GuidePage.FirstLine line : firsts(context).lines()) {
        rows.printRecord(
            line.rank(),
            line.urgency().marker().number(),
            line.row(),
            line.why(),
            line.urgency().unsafe(),
            Caution.LOOK_ONLY);
      }
    }
    context
        .header("Content-Disposition", "attachment; filename=\"first.csv\"")
        .contentType("text/csv; charset=utf-8")
        .result(table.toString());
  }

  private void firstSheet(Context context) throws IOException {
    requests.by(context);
    GuidePage.First first = firsts(context);
    ByteArrayOutputStream pdf = new ByteArrayOutputStream();
    GuideSheets.first(
        archive,
        stones.today(),
        first.lines().stream().map(GuidePage.FirstLine::urgency).toList(),
        pdf);
    pdf(context, "first.pdf", pdf);
  }

  private static void pdf(Context context, String name, ByteArrayOutputStream pdf) {
    context
        .header("Content-Disposition", "inline; filename=\"" + name + "\"")
        .contentType("application/pdf")
        .result(pdf.toByteArray());
  }

  // The sun

  /** A face whose bearing is known. */
  private record Seen(Marker marker, Face face, FaceBearing plane) {}

  private void sun(Context context) {
    requests.by(context);
    LocalDate day = day(given(context, "on"));
    LocalTime from = time(given(context, "from"), LocalTime.of(0, 0));
    LocalTime to = time(given(context, "to"), LocalTime.of(23, 59));
    int minutes = number(given(context, "minutes"), 6, 1, LONGEST_STAY);
    String row = given(context, "row");
    Map<MarkerId, List<Face>> faces = new HashMap<>();
    new PhotoStore(archive)
        .faces()
        .forEach(face -> faces.computeIfAbsent(face.marker(), id -> new ArrayList<>()).add(face));
    Map<MarkerId, Described> described = new DescriptionStore(archive).all();
    List<Marker> all = markers.markers();
    Map<MarkerId, String> rows = rows(all);
    List<Seen> seen = new ArrayList<>();
    int unknown = 0;
    for (Marker marker : all) {
      if (row.isEmpty() || row.equals(rows.get(marker.id()))) {
        Description said =
            Optional.ofNullable(described.get(marker.id()))
                .map(Described::description)
                .orElse(Description.NONE);
        for (Face face : faces.getOrDefault(marker.id(), List.of())) {
          Optional<FaceBearing> plane = Sunlight.plane(face, said);
          plane.ifPresent(one -> seen.add(new Seen(marker, face, one)));
          unknown += plane.isEmpty() ? 1 : 0;
        }
      }
    }
    SunDay light = sunlight.day(day);
    List<RakingRound.Stop<Seen>> stops =
        seen.stream().map(one -> new RakingRound.Stop<>(one, light.raking(one.plane()))).toList();
    List<RakingRound.Visit<Seen>> visits = RakingRound.of(stops, from, to, minutes);
    Map<Seen, LocalTime> at = new LinkedHashMap<>();
    visits.forEach(visit -> at.put(visit.stop().what(), visit.at()));
    Map<MarkerId, ConditionNote> noted = new ConditionStore(archive).newest();
    List<GuidePage.SunLine> lines = new ArrayList<>();
    visits.forEach(visit -> lines.add(line(visit.stop(), visit.at().toString(), noted, day)));
    List<GuidePage.SunLine> dark = new ArrayList<>();
    for (RakingRound.Stop<Seen> stop : stops) {
      if (!at.containsKey(stop.what())) {
        (stop.raking().isEmpty() ? dark : lines).add(line(stop, "", noted, day));
      }
    }
    pages.show(
        context,
        "sunday",
        Map.of(
            "sun",
            new GuidePage.Sun(
                day,
                from.toString(),
                to.toString(),
                minutes,
                row,
                names(rows),
                lines,
                dark,
                visits.size(),
                unknown)));
  }

  private GuidePage.SunLine line(
      RakingRound.Stop<Seen> stop, String at, Map<MarkerId, ConditionNote> noted, LocalDate day) {
    Seen seen = stop.what();
    return new GuidePage.SunLine(
        seen.marker().id().toString(),
        seen.marker().number(),
        seen.face().name(),
        Sunlight.looks(seen.face()),
        at,
        Sunlight.told(stop.raking()),
        stop.raking().isEmpty() && sunlight.isNeverRaked(seen.plane(), day),
        Optional.ofNullable(noted.get(seen.marker().id())).map(ConditionNote::unsafe).orElse(""));
  }

  // Walks

  private void walks(Context context, String message) {
    requests.by(context);
    pages.show(
        context,
        "walks",
        Map.of(
            "walks",
            new GuidePage.Walks(
                walks.walks(), given(context, "name"), markersAsked(context), message)));
  }

  private static String markersAsked(Context context) {
    return Optional.ofNullable(context.queryParam("markers")).orElse("");
  }

  private void plan(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    try {
      UUID id =
          walks.plan(
              Requests.words(form, "name"),
              stops(Requests.words(form, "markers"), Map.of()),
              form.containsKey("back"),
              stay(form),
              by.name());
      context.redirect("/walk/" + id);
    } catch (ArchiveException e) {
      context.status(422);
      pages.show(
          context,
          "walks",
          Map.of(
              "walks",
              new GuidePage.Walks(
                  walks.walks(),
                  Requests.words(form, "name"),
                  Requests.words(form, "markers"),
                  String.valueOf(e.getMessage()))));
    }
  }

  private static int stay(Map<String, String> form) {
    String minutes = form.getOrDefault("minutes", "5");
    if (!minutes.matches("[0-9]{1,3}")) {
      throw new ArchiveException("Give the minutes at each stop as a number.");
    }
    return Integer.parseInt(minutes);
  }

  /** Stops by the numbers somebody wrote, parted by commas, semicolons or spaces. */
  private List<PlannedWalk.Stop> stops(String written, Map<MarkerId, String> notes) {
    List<String> parts =
        Arrays.stream(
                written.split(written.contains(",") || written.contains(";") ? "[,;]" : "\\s+", -1))
            .map(String::strip)
            .filter(part -> !part.isEmpty())
            .toList();
    Set<MarkerId> seen = new LinkedHashSet<>();
    parts.forEach(number -> seen.add(markers.named(number).id()));
    return seen.stream().map(id -> new PlannedWalk.Stop(id, notes.getOrDefault(id, ""))).toList();
  }

  private PlannedWalk known(Context context) {
    return Requests.known(context.pathParam("walk"), UUID::fromString, walks::walk, "walk");
  }

  private GuidePage.WalkShown shown(PlannedWalk planned) {
    return WalkPlans.shown(archive, planned);
  }

  private void walk(Context context, String message) {
    NamedReader by = requests.by(context);
    pages.show(
        context,
        "walk",
        Map.of(
            "walk",
            shown(known(context)),
            "mayDecide",
            by.role().mayDecide(),
            "message",
            message,
            "acts",
            acts(known(context), by)));
  }

  private List<Act> acts(PlannedWalk walk, NamedReader by) {
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    List<Decision> decisions = new ArrayList<>(archive.journal().bySubject(walk.id()));
    decisions.sort(Comparator.comparingLong(Decision::counter).reversed());
    return decisions.stream()
        .filter(decision -> !decision.kind().equals(Decision.UNDONE))
        .map(decision -> Act.of(decision, "planned this walk", undone, by, "/walk"))
        .toList();
  }

  private void change(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    PlannedWalk before = known(context);
    if (!before.decision().toString().equals(form.getOrDefault("seen", ""))) {
      context.status(409);
      walk(context, before.reader() + " has changed this walk meanwhile. Look at it first.");
      return;
    }
    try {
      Map<MarkerId, String> notes = new HashMap<>();
      before.stops().forEach(stop -> notes.put(stop.marker(), stop.note()));
      for (PlannedWalk.Stop stop : before.stops()) {
        Optional.ofNullable(form.get("note-" + stop.marker()))
            .ifPresent(note -> notes.put(stop.marker(), note));
      }
      boolean drop = form.containsKey("drop");
      walks.change(
          before.id(),
          Requests.words(form, "name"),
          drop ? List.of() : stops(Requests.words(form, "markers"), notes),
          form.containsKey("back"),
          stay(form),
          by.name());
      context.redirect(drop ? "/walk" : "/walk/" + before.id());
    } catch (ArchiveException e) {
      context.status(422);
      walk(context, String.valueOf(e.getMessage()));
    }
  }

  private void walkSheet(Context context) throws IOException {
    requests.by(context);
    ByteArrayOutputStream pdf = new ByteArrayOutputStream();
    GuideSheets.walk(archive, stones.today(), known(context), pdf);
    pdf(context, "walk.pdf", pdf);
  }

  // What an address asks

  private static String given(Context context, String field) {
    return Requests.asked(context, field);
  }

  private static int number(String written, int usual, int least, int most) {
    return written.matches("[0-9]{1,4}")
        ? Math.min(most, Math.max(least, Integer.parseInt(written)))
        : usual;
  }

  private LocalDate day(String written) {
    try {
      LocalDate day = written.isEmpty() ? stones.today() : LocalDate.parse(written);
      if (day.getYear() < FIRST_YEAR || day.getYear() > LAST_YEAR) {
        throw new DateTimeException("no day that anybody plans");
      }
      return day;
    } catch (DateTimeException e) {
      throw Refusal.malformed("“" + written + "” is no day to plan for; write 2026-06-20.");
    }
  }

  private static LocalTime time(String written, LocalTime usual) {
    try {
      return written.isEmpty() ? usual : LocalTime.parse(written);
    } catch (DateTimeException e) {
      throw Refusal.malformed("“" + written + "” is no time; write 08:30.");
    }
  }
}
