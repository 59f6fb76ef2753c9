package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.FaceId;
import rakelight.inscription.Leiden;
import rakelight.inscription.SignId;
import rakelight.person.DateFinding;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.FoldedWords;
import rakelight.person.Mention;
import rakelight.person.Person;
import rakelight.person.Statement;
import rakelight.person.Statement.Kind;
import rakelight.work.NamedReader;

/** What readings assert, and what reckoning with their dates brings out. */
final class StatementRoutes {
  private static final String STATEMENTS = "/statements";
  private static final String DATES = "/dates";
  private static final int LONGEST_PICTURE_PX = 1600;

  private final Requests requests;
  private final Pages pages;
  private final Concluding concluding;
  private final Drawings drawings;

  StatementRoutes(Requests requests, Pages pages, Concluding concluding, Drawings drawings) {
    this.requests = requests;
    this.pages = pages;
    this.concluding = concluding;
    this.drawings = drawings;
  }

  void addTo(Javalin server) {
    server.get(STATEMENTS, this::statements);
    server.get(STATEMENTS + "/{face}/{place}", this::statement);
    server.get(DATES, this::dates);
  }

  static String address(FaceId face, Statement statement) {
    return STATEMENTS + "/" + face + "/" + Lives.place(statement);
  }

  /** A statement on its face. */
  private record Told(FaceStatements face, Statement statement) {}

  private void statements(Context context) {
    boolean all = requests.by(context).role().mayDecide();
    String words = Requests.asked(context, "words");
    String marker = Requests.asked(context, "marker");
    String kind = Requests.asked(context, "kind");
    String state = Requests.asked(context, "state");
    List<Listing.Choice> kinds = new ArrayList<>();
    kinds.add(new Listing.Choice("", "any"));
    for (Kind each : Kind.values()) {
      kinds.add(new Listing.Choice(each.name().toLowerCase(Locale.ROOT), Lives.words(each)));
    }
    List<Listing.Choice> states = new ArrayList<>();
    states.add(new Listing.Choice("", "confirmed"));
    states.add(new Listing.Choice("worked-out", "worked out, not carved"));
    states.add(new Listing.Choice("unlikely", "of odds below nine in ten"));
    if (all) {
      states.add(new Listing.Choice("proposed", "only proposed by a machine"));
    }
    List<Listing.Field> fields =
        List.of(
            Listing.Field.written("words", "Name or words", words, "wren"),
            Listing.Field.written("marker", "Marker", marker, "B-12"),
            Listing.Field.chosen("kind", "Kind", kind, kinds.toArray(Listing.Choice[]::new)),
            Listing.Field.chosen("state", "Which", state, states.toArray(Listing.Choice[]::new)));
    Conclusion now = concluding.now();
    boolean proposed = all && state.equals("proposed");
    List<Told> whole = new ArrayList<>();
    for (FaceStatements face : proposed ? concluding.proposed() : now.faces(all)) {
      face.statements().forEach(statement -> whole.add(new Told(face, statement)));
    }
    List<Told> held =
        whole.stream()
            .filter(told -> isOn(told.face(), marker))
            .filter(told -> kind.isEmpty() || told.statement().kind().name().equalsIgnoreCase(kind))
            .filter(told -> words.isEmpty() || isOf(told.statement(), words))
            .filter(told -> isIn(told.statement(), state))
            .toList();
    show(
        context,
        new Listing(
            "Statements",
            STATEMENTS,
            "What "
                + (proposed
                    ? "proposals would assert; nobody has confirmed any of it."
                    : "confirmed readings assert."),
            "",
            all ? List.of() : List.of(PersonRoutes.GUEST),
            fields,
            "statement",
            "statements",
            whole.size(),
            Requests.paged(context, held, STATEMENTS, fields).map(StatementRoutes::row)));
  }

  private void show(Context context, Listing list) {
    pages.show(context, "list", Map.of("list", list));
  }

  private static boolean isOn(FaceStatements face, String marker) {
    return marker.isEmpty()
        || face.marker().number().equalsIgnoreCase(marker)
        || face.marker().earlierNumbers().stream().anyMatch(marker::equalsIgnoreCase);
  }

  private static boolean isOf(Statement statement, String words) {
    return FoldedWords.begin(statement.valueInWords() + " " + statement.text(), words);
  }

  private static boolean isIn(Statement statement, String state) {
    return switch (state) {
      case "worked-out" -> statement.supplied().isPresent();
      case "unlikely" -> statement.odds() < 0.9;
      default -> true;
    };
  }

  private static Listing.Row row(Told told) {
    Statement statement = told.statement();
    String value = statement.valueInWords();
    return new Listing.Row(
        address(told.face().face().id(), statement),
        value.isEmpty() ? "(nothing that could be read)" : value,
        Lives.words(statement.kind()),
        List.of(
            place(told.face()) + ", line " + statement.firstLine() + ": “" + statement.text() + "”",
            statement.standingInWords("", ""),
            told.face().reading().isPresent() ? "" : "not confirmed"));
  }

  private static String place(FaceStatements face) {
    return "marker " + face.marker().number() + ", " + face.face().name();
  }

  // Dates

  private void dates(Context context) {
    boolean all = requests.by(context).role().mayDecide();
    String name = Requests.asked(context, "name");
    String marker = Requests.asked(context, "marker");
    String kind = Requests.asked(context, "kind");
    String state = Requests.asked(context, "state");
    List<Listing.Choice> states = new ArrayList<>();
    states.add(new Listing.Choice("", "confirmed"));
    if (all) {
      states.add(new Listing.Choice("proposed", "only proposed by a machine"));
    }
    List<Listing.Field> fields =
        List.of(
            Listing.Field.written("name", "Name", name, "wren"),
            Listing.Field.written("marker", "Marker", marker, "B-12"),
            Listing.Field.chosen(
                "kind",
                "What",
                kind,
                new Listing.Choice("", "anything"),
                new Listing.Choice("contradiction", "contradictions"),
                new Listing.Choice("figure", "worn figures"),
                new Listing.Choice("value", "values worked out")),
            Listing.Field.chosen("state", "Which", state, states.toArray(Listing.Choice[]::new)));
    Conclusion now = concluding.now();
    List<DateFinding> whole =
        all && state.equals("proposed")
            ? concluding.proposed().stream().flatMap(face -> DateFinding.of(face).stream()).toList()
            : now.findings(all);
    List<DateFinding> held =
        whole.stream()
            .filter(one -> isOn(one.face(), marker))
            .filter(one -> kind.isEmpty() || one.sort().label().equals(kind))
            .filter(one -> name.isEmpty() || FoldedWords.begin(one.called(), name))
            .toList();
    show(
        context,
        new Listing(
            "Dates",
            DATES,
            "Where dates and ages of a stone contradict each other, what a worn figure must or"
                + " can’t be, and what is worked out. No reading is changed by it.",
            "",
            all ? List.of() : List.of(PersonRoutes.GUEST),
            fields,
            "finding",
            "findings",
            whole.size(),
            Requests.paged(context, held, DATES, fields).map(StatementRoutes::row)));
  }

  private static Listing.Row row(DateFinding finding) {
    return new Listing.Row(
        statement(finding)
            .map(one -> address(finding.face().face().id(), one))
            .orElse("/markers/" + finding.face().marker().id()),
        finding.called() + ", " + place(finding.face()),
        finding.sort() == DateFinding.Sort.FIGURE ? "worn figure" : finding.sort().label(),
        List.of(finding.words(), finding.face().reading().isPresent() ? "" : "not confirmed"));
  }

  /** The statement that a finding is best looked at with. */
  private static Optional<Statement> statement(DateFinding finding) {
    return finding
        .reckoned()
        .or(
            () ->
                finding.face().statements().stream()
                    .filter(one -> one.persons().contains(finding.person()))
                    .filter(
                        one ->
                            switch (one.kind()) {
                              case BIRTH, MARRIAGE, DEATH, BURIAL, AGE -> true;
                              default -> false;
                            })
                    .findFirst())
        .or(
            () ->
                finding.face().statements().stream()
                    .filter(one -> one.persons().contains(finding.person()))
                    .findFirst());
  }

  // One statement

  private void statement(Context context) {
    NamedReader by = requests.by(context);
    boolean all = by.role().mayDecide();
    Conclusion now = concluding.now();
    FaceId id = requests.face(context).id();
    FaceStatements face =
        now.face(id, all)
            .or(
                () ->
                    all
                        ? concluding.proposed().stream()
                            .filter(one -> one.face().id().equals(id))
                            .findFirst()
                        : Optional.empty())
            .orElseThrow(() -> Refusal.notFound("statement"));
    String place = context.pathParam("place");
    Statement statement =
        face.statements().stream()
            .filter(one -> Lives.place(one).equals(place))
            .findFirst()
            .orElseThrow(() -> Refusal.notFound("statement"));
    pages.show(context, "statement", Map.of("told", page(face, statement, now, all)));
  }

  private StatementPage page(
      FaceStatements face, Statement statement, Conclusion now, boolean all) {
    boolean confirmed = face.reading().isPresent();
    List<String> facts = new ArrayList<>();
    facts.add("As carved: “" + statement.text() + "”");
    statement.supplied().ifPresent(reason -> facts.add("Worked out, not carved: " + reason));
    facts.add(
        String.format(
            Locale.ROOT,
            "Odds that the stone says so, by its wording: %.0f %%",
            100 * statement.odds()));
    List<String> read = Leiden.printLines(face.inscription());
    List<String> lines =
        read.subList(
            Math.min(read.size(), statement.firstLine() - 1),
            Math.min(read.size(), statement.lastLine()));
    Map<SignId, String> marks = new HashMap<>();
    statement.signs().forEach(sign -> marks.put(sign, "sure"));
    List<MarkerPage.Named> persons =
        face.statements().stream()
            .filter(one -> one.kind() == Kind.NAME)
            .map(
                one ->
                    new MarkerPage.Named(
                        one.person(),
                        one.valueInWords().isEmpty() ? "(unnamed)" : one.valueInWords()))
            .toList();
    int which =
        all && confirmed && !statement.isReckoned() ? face.statements().indexOf(statement) : -1;
    return new StatementPage(
        Lives.words(statement.kind()),
        statement.valueInWords(),
        face.marker().id().toString(),
        face.marker().number(),
        face.face().id().toString(),
        face.face().name(),
        confirmed,
        facts,
        lines,
        face.reading()
            .map(
                reading ->
                    drawings.of(
                        reading,
                        marks,
                        shot -> all || now.edition().why(shot.id()).isEmpty(),
                        LONGEST_PICTURE_PX))
            .orElse(List.of()),
        DateFinding.of(face).stream()
            .filter(one -> statement.persons().contains(one.person()))
            .map(one -> one.called() + ": " + one.words())
            .toList(),
        about(face, statement, now, all),
        which,
        face.reading().map(reading -> reading.id().toString()).orElse(""),
        persons);
  }

  /** The persons it is said of. */
  private static List<PersonPage.Fact> about(
      FaceStatements face, Statement statement, Conclusion now, boolean all) {
    List<PersonPage.Fact> about = new ArrayList<>();
    for (Person person : now.persons(all)) {
      for (Mention mention : person.mentions()) {
        boolean said =
            mention.source().face().id().equals(face.face().id())
                && !mention.isKinOnly()
                && statement.persons().contains(mention.number());
        if (said) {
          about.add(
              new PersonPage.Fact(
                  mention.label() + " " + mention.called(), PersonRoutes.address(person)));
        }
      }
    }
    return about;
  }
}
