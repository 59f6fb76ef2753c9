package rakelight.desk;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;
import rakelight.ground.Families;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.ground.MarkerPosition;
import rakelight.ground.Plot;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.CorrectionStore;
import rakelight.person.Evidence;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.person.ReadWord;
import rakelight.person.Statement;
import rakelight.person.Statement.Kind;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.work.Faces;
import rakelight.work.NamedReader;
import rakelight.work.Queue;
import rakelight.work.Sight;
import rakelight.work.Undoing;
import rakelight.work.Work;

/** Gathers what the page of a marker shows to one reader. */
final class MarkerPages {
  /** Decisions that can be taken back from the page: the others have better places for it. */
  private static final Set<String> UNDOABLE =
      Set.of(
          "reading.signed",
          "link.confirmed",
          "link.refused",
          "position.noted",
          "row.placed",
          "family.together",
          "family.apart",
          "family.called",
          "photograph.assigned",
          "photograph.dated",
          "photograph.credited",
          "marker.renumbered",
          "condition.noted",
          "marker.described",
          "emblem.seen",
          "lettering.hand",
          "parse.corrected",
          "face.left",
          "person.same",
          "person.different",
          "person.died",
          "person.unnamed");

  private final Archive archive;
  private final MarkerStore markers;
  private final PhotoStore photographs;
  private final Sight sight;
  private final LinkStore links;
  private final PositionStore positions;
  private final ConditionStore conditions;
  private final Clock clock;
  private final Faces faces;
  private final Queue queue;
  private final StonePages stones;

  MarkerPages(Archive archive, Faces faces, Queue queue, StonePages stones, Clock clock) {
    this.stones = stones;
    this.archive = archive;
    this.conditions = new ConditionStore(archive);
    this.clock = clock;
    this.markers = new MarkerStore(archive);
    this.photographs = new PhotoStore(archive);
    this.sight = new Sight(archive);
    this.links = new LinkStore(archive);
    this.positions = new PositionStore(archive);
    this.faces = faces;
    this.queue = queue;
  }

  /** A marker as a thing, for the page at the stone. */
  StonePage stone(Marker marker, NamedReader by) {
    return archive
        .ledger()
        .read(
            handle -> {
              List<Reading> standing = new ArrayList<>();
              for (Face face : photographs.faces(marker.id())) {
                faces.look(face, by).before().ifPresent(standing::add);
              }
              return stones.of(
                  marker,
                  new Evidence(archive).ofFaces(standing).stream().flatMap(List::stream).toList(),
                  by);
            });
  }

  MarkerPage of(Marker marker, NamedReader by) {
    return archive
        .ledger()
        .read(
            handle -> {
              List<ShownFace> views = new ArrayList<>();
              List<Reading> standing = new ArrayList<>();
              for (Face face : photographs.faces(marker.id())) {
                Work work = faces.look(face, by);
                views.add(FaceViews.of(work, queue.state(face), photographs.ofFace(face.id())));
                work.before().ifPresent(standing::add);
              }
              List<List<Statement>> statements = new Evidence(archive).ofFaces(standing);
              return new MarkerPage(
                  marker.id().toString(),
                  marker.number(),
                  stones.of(marker, statements.stream().flatMap(List::stream).toList(), by),
                  views,
                  conditions.ofMarker(marker.id()),
                  LocalDate.now(clock.withZone(archive.ground().zone())),
                  told(standing, statements),
                  persons(marker),
                  links(marker),
                  questions(marker),
                  history(marker, by),
                  where(marker),
                  by.role().mayDecide());
            });
  }

  private List<MarkerPage.ToldFace> told(List<Reading> standing, List<List<Statement>> statements) {
    List<MarkerPage.ToldFace> told = new ArrayList<>();
    CorrectionStore corrections = new CorrectionStore(archive);
    for (int i = 0; i < standing.size(); i++) {
      Reading reading = standing.get(i);
      List<MarkerPage.Told> own = new ArrayList<>();
      List<MarkerPage.Named> persons = new ArrayList<>();
      for (Statement statement : statements.get(i)) {
        own.add(
            new MarkerPage.Told(
                own.size(),
                Lives.words(statement),
                !statement.isReckoned(),
                StatementRoutes.address(reading.face(), statement)));
        if (statement.kind() == Kind.NAME) {
          String called = statement.valueInWords();
          persons.add(
              new MarkerPage.Named(statement.person(), called.isEmpty() ? "(unnamed)" : called));
        }
      }
      told.add(
          new MarkerPage.ToldFace(
              reading.face().toString(),
              photographs.face(reading.face()).map(Face::name).orElse(""),
              reading.id().toString(),
              own,
              words(reading),
              persons,
              corrections.of(reading.face()).stream()
                  .map(
                      said ->
                          new MarkerPage.Said(
                              said.inWords(), said.reader(), said.fits(reading.inscription())))
                  .toList()));
    }
    return told;
  }

  private static List<List<MarkerPage.Word>> words(Reading reading) {
    List<List<MarkerPage.Word>> lines = new ArrayList<>();
    int line = 0;
    int place = 0;
    for (ReadWord word : ReadWord.of(reading.inscription())) {
      if (lines.isEmpty() || word.line() != line) {
        lines.add(new ArrayList<>());
        line = word.line();
      }
      lines.get(lines.size() - 1).add(new MarkerPage.Word(place++, word.shown()));
    }
    return lines;
  }

  /** Who is named on a marker. */
  List<MarkerPage.PersonLine> persons(Marker marker) {
    List<MarkerPage.PersonLine> lines = new ArrayList<>();
    for (Person person : People.on(archive, marker)) {
      lines.add(
          new MarkerPage.PersonLine(
              person.called(),
              Lives.of(person),
              person.mentions().stream()
                  .filter(mention -> !isOn(marker, mention))
                  .map(mention -> mention.label() + (mention.isKinOnly() ? " as kin" : ""))
                  .collect(Collectors.joining("; ")),
              PersonRoutes.address(person)));
    }
    return lines;
  }

  private static boolean isOn(Marker marker, Mention mention) {
    return mention.source().marker().id().equals(marker.id());
  }

  private List<MarkerPage.QuestionLine> questions(Marker marker) {
    return new QuestionStore(archive)
        .questions().stream()
            .filter(question -> question.marker().filter(marker.id()::equals).isPresent())
            .map(
                question ->
                    new MarkerPage.QuestionLine(
                        question.label(),
                        question.text(),
                        question.isOpen(),
                        question.steps().stream()
                            .map(Question.Step::told)
                            .filter(told -> !told.isEmpty())
                            .toList(),
                        QuestionRoutes.address(question)))
            .toList();
  }

  private MarkerPage.Where where(Marker marker) {
    List<MarkerPosition> evidence = positions.evidence(marker.id());
    Optional<RowPlace> row = Optional.ofNullable(positions.rowPlaces().get(marker.id()));
    List<String> plots =
        evidence.stream()
            .limit(1)
            .flatMap(
                best ->
                    positions.plots().stream()
                        .filter(plot -> plot.holds(best.latitudeDegrees(), best.longitudeDegrees()))
                        .map(Plot::name))
            .toList();
    boolean footstone =
        new Evidence(archive)
            .confirmed(marker).stream().anyMatch(face -> Families.isFootstone(face.inscription()));
    return new MarkerPage.Where(
        PlanRoutes.where(row, plots),
        evidence.stream().map(PlanRoutes::evidence).toList(),
        footstone ? LinkRoutes.address(marker) : "");
  }

  /** The links of a marker, from either end. */
  List<MarkerPage.LinkLine> links(Marker marker) {
    List<MarkerPage.LinkLine> lines = new ArrayList<>();
    for (Link link : links.ofMarker(marker.id())) {
      boolean from = link.from().equals(marker.id());
      Optional<Marker> other =
          from ? link.toMarker().flatMap(markers::marker) : markers.marker(link.from());
      String what = link.toWords().or(() -> other.map(row -> "marker " + row.number())).orElse("");
      String label = link.kind().label();
      lines.add(
          new MarkerPage.LinkLine(
              from ? label + " " + what : what + " is " + label + " this marker",
              other.map(row -> row.id().toString()).orElse(""),
              link.note()));
    }
    return lines;
  }

  private List<MarkerPage.Event> history(Marker marker, NamedReader by) {
    Map<UUID, String> subjects = subjects(marker);
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    List<Decision> decisions = new ArrayList<>();
    subjects.keySet().forEach(subject -> decisions.addAll(archive.journal().bySubject(subject)));
    decisions.sort(Comparator.comparingLong(Decision::counter).reversed());
    // Letter by letter nobody could read it: a reader's work in a row is one event.
    List<List<Decision>> runs = new ArrayList<>();
    for (Decision decision : decisions) {
      Decision last = runs.isEmpty() ? decision : runs.get(runs.size() - 1).get(0);
      boolean more =
          !runs.isEmpty()
              && decision.kind().equals("reading.drafted")
              && last.kind().equals("reading.drafted")
              && last.reader().equals(decision.reader())
              && last.subject().equals(decision.subject());
      if (!more) {
        runs.add(new ArrayList<>());
      }
      runs.get(runs.size() - 1).add(decision);
    }
    List<MarkerPage.Event> events = new ArrayList<>();
    for (List<Decision> run : runs) {
      Decision decision = run.get(0);
      if (!sight.isOpenTo(decision, by)) {
        continue;
      }
      String about = subjects.getOrDefault(decision.subject(), "");
      boolean back = undone.containsKey(decision.id());
      boolean undoable = !back && isTheirs(decision, by);
      events.add(
          new MarkerPage.Event(
              decision.at().toString().substring(0, 16).replace('T', ' '),
              decision.reader(),
              words(decision) + (about.isEmpty() ? "" : ", " + about) + seenLines(run, undone),
              back,
              undoable ? decision.id().toString() : ""));
    }
    return events;
  }

  /** Of which lines a reader took letters with the whole line, having looked along it. */
  private static String seenLines(List<Decision> run, Map<DecisionId, DecisionId> undone) {
    List<String> lines =
        run.stream()
            .filter(decision -> !undone.containsKey(decision.id()))
            .flatMap(decision -> ReadingStore.seenLines(decision).stream())
            .distinct()
            .sorted()
            .map(String::valueOf)
            .toList();
    return lines.isEmpty()
        ? ""
        : ": with the whole line, not letter by letter, in "
            + (lines.size() == 1 ? "line " : "lines ")
            + String.join(", ", lines);
  }

  private static String words(Decision decision) {
    return switch (decision.kind()) {
      case "reading.signed" -> "signed a reading";
      case "reading.drafted" -> "decided letters";
      case "link.confirmed" -> "confirmed a link";
      case "link.refused" ->
          "said that it isn't " + decision.payload().path("toWords").asText("somebody") + "'s";
      case "position.noted" -> "noted where it stands";
      case "row.placed" -> "noted its place in a row";
      case "family.together" -> "said that it is of one family with another";
      case "family.apart" -> "said that it isn't of one family with another";
      case "family.called" -> "named its family";
      case "photograph.ingested" -> "kept a photograph";
      case "photograph.met-again" -> "met a photograph again";
      case "photograph.assigned" -> "put a photograph to a face";
      case "photograph.credited" -> "said whose a photograph is";
      case "photograph.dated" -> "dated a photograph";
      case "photograph.shows-card" -> "saw a field card";
      case "marker.created" -> "made the marker";
      case "marker.merged" -> "made it part of this one";
      case "marker.renumbered" -> "numbered it " + decision.payload().path("number").asText("anew");
      case "condition.noted" -> "noted its condition";
      case "marker.described" -> "described it";
      case "emblem.seen" -> "noted an emblem: " + decision.payload().path("name").asText("");
      case "parse.corrected" -> "said how words are taken";
      case "face.created" -> "made a face";
      case "face.described" -> "described a face";
      case "face.known", "face.known-letters" -> "noted what is known of it beforehand";
      case "face.left" ->
          "left it for "
              + decision.payload().path("why").asText("").replace('-', ' ')
              + note(decision.payload().path("note").asText(""));
      case "lettering.hand" ->
          "said of its letters and another's: " + decision.payload().path("said").asText("");
      case "person.same" -> "said that two mentions are of one person";
      case "person.different" -> "said that two mentions are of two persons";
      case "person.died" -> "recorded evidence of a death";
      case "person.unnamed" -> "recorded somebody unnamed";
      case Decision.UNDONE -> "took a decision back";
      default -> decision.kind().replace('.', ' ').replace('-', ' ');
    };
  }

  private static String note(String note) {
    return note.isBlank() ? "" : ": " + note;
  }

  private static boolean isTheirs(Decision decision, NamedReader by) {
    return UNDOABLE.contains(decision.kind()) && Undoing.isTheirs(decision, by);
  }

  /** Whether this is something that can be taken back on this marker's page. */
  boolean isTakenBackHere(Marker marker, Decision decision) {
    return UNDOABLE.contains(decision.kind()) && subjects(marker).containsKey(decision.subject());
  }

  /** The marker, its faces and their photographs, each with what it is called. */
  private Map<UUID, String> subjects(Marker marker) {
    Map<UUID, String> subjects = new HashMap<>();
    subjects.put(marker.id().value(), "");
    for (MarkerId part : markers.mergedInto(marker.id())) {
      subjects.put(part.value(), "marker " + markers.ownNumberOf(part) + " as it was");
    }
    for (Face face : photographs.faces(marker.id())) {
      subjects.put(face.id().value(), face.name());
      for (Photograph photograph : photographs.ofFace(face.id())) {
        subjects.put(photograph.id().value(), photograph.originalName());
      }
    }
    return subjects;
  }
}
