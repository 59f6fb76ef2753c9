package rakelight.publish.gedcom;

import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.archive.FaceId;
import rakelight.ground.Link;
import rakelight.inscription.Gap;
import rakelight.inscription.Leiden;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.inscription.Standing;
import rakelight.person.Detail;
import rakelight.person.Mention;
import rakelight.person.Opinion;
import rakelight.person.Person;
import rakelight.person.Statement;
import rakelight.person.Statement.Kind;
import rakelight.publish.Edition;
import rakelight.publish.ExportFolder;
import rakelight.publish.ToldFace;
import rakelight.publish.gedcom.Couples.Couple;

/**
 * Writes an edition's persons as one GEDCOM 7 file: an individual each, families as stones state
 * them, and a source for every face, whose text is the inscription. Each fact cites the line it
 * stands on, with its words; what is worked out or rests on doubtful letters is cited as such
 * ({@code QUAY}). A burial is what a stone states of one, or a link that somebody confirmed.
 *
 * <p>The standard is FamilySearch GEDCOM 7.0, <a href="https://gedcom.io/specs/">gedcom.io</a>.
 */
public final class GedcomExport {
  private static final Pattern DURATION =
      Pattern.compile("P(?:(\\d+)Y)?(?:(\\d+)M)?(?:(\\d+)W)?(?:(\\d+)D)?(?:T\\d+H)?");
  private static final String[] UNITS = {"y", "m", "w", "d"};

  /** Secondary evidence, as the standard's table of {@code QUAY} calls it. */
  private static final String CARVED = "2";

  /** Questionable, by the same table. */
  private static final String DOUBTFUL = "1";

  private final Edition edition;
  private final LocalDate day;
  private final Map<FaceId, String> sources = new LinkedHashMap<>();
  private final Map<UUID, String> individuals = new LinkedHashMap<>();
  private final Map<FaceId, Set<SignId>> doubtful = new HashMap<>();
  private final Map<UUID, List<Link>> burials = new HashMap<>();
  private final List<Couple> couples;
  private final List<Person> persons;

  /**
   * @param day of publication, which the edition is of
   */
  public GedcomExport(Edition edition, LocalDate day) {
    this.edition = edition;
    this.day = day;
    persons = edition.persons();
    couples = Couples.of(persons);
    for (ToldFace face : edition.faces()) {
      FaceId id = face.says().face().id();
      sources.put(id, "S" + (sources.size() + 1));
      Set<SignId> signs = new LinkedHashSet<>();
      for (Sign sign : face.says().inscription().signs()) {
        if (sign instanceof Gap
            || (sign instanceof Letter letter && letter.standing() != Standing.CLEAR)) {
          signs.add(sign.id());
        }
      }
      doubtful.put(id, signs);
    }
    persons.forEach(person -> individuals.put(person.id(), "I" + (individuals.size() + 1)));
    for (Link link : edition.links()) {
      if (link.kind() == Link.Kind.BURIED_HERE) {
        persons.stream()
            .filter(
                p ->
                    p.mentions().stream()
                        .anyMatch(m -> link.toPerson().equals(Optional.of(m.id()))))
            .forEach(p -> burials.computeIfAbsent(p.id(), id -> new ArrayList<>()).add(link));
      }
    }
  }

  /**
   * Writes {@code persons.ged}.
   *
   * @return the file
   */
  public Path write(ExportFolder folder) throws IOException {
    return folder.put(
        "persons.ged",
        out -> {
          Writer words = new OutputStreamWriter(out, StandardCharsets.UTF_8);
          // The standard recommends a byte-order mark.
          words.append('\uFEFF');
          write(new GedcomWriter(words));
          words.flush();
        });
  }

  private void write(GedcomWriter out) throws IOException {
    out.line(0, "HEAD");
    out.line(1, "GEDC");
    out.line(2, "VERS", "7.0");
    out.line(1, "SOUR", "RAKELIGHT");
    out.line(2, "NAME", "Rakelight");
    out.line(1, "DATE", GedcomDate.of(day.toString()).value());
    out.line(
        1,
        "NOTE",
        "What the grave markers of "
            + edition.ground()
            + " say of persons who may be told of on "
            + day
            + ". Facts are what stones state, with the doubt of their letters; families hold nothing"
            + " that isn't stated.");
    for (Person person : persons) {
      individual(out, person);
    }
    for (int i = 0; i < couples.size(); i++) {
      family(out, couples.get(i), "F" + (i + 1));
    }
    for (ToldFace face : edition.faces()) {
      source(out, face);
    }
    out.line(0, "TRLR");
  }

  private String individual(Person person) {
    return individuals.getOrDefault(person.id(), "VOID");
  }

  private void individual(GedcomWriter out, Person person) throws IOException {
    out.record(individual(person), "INDI");
    Set<String> written = new LinkedHashSet<>();
    List<Mention> mentions = new ArrayList<>(person.mentions());
    person
        .fullest()
        .ifPresent(
            fullest -> {
              mentions.remove(fullest);
              mentions.add(0, fullest);
            });
    for (Mention mention : mentions) {
      name(out, mention, mention.name().surname(), "", written);
      if (!mention.name().birthSurname().isEmpty()) {
        name(out, mention, mention.name().birthSurname(), "MAIDEN", written);
      }
    }
    out.line(1, "SEX", Couples.sex(person));
    facts(out, mentions);
    for (Opinion died : person.died()) {
      out.line(1, "DEAT", "Y");
      out.line(2, "NOTE", "Evidence of death beside the stones: " + died.note());
    }
    for (Link link : burials.getOrDefault(person.id(), List.of())) {
      buried(out, person, link);
    }
    for (int i = 0; i < couples.size(); i++) {
      if (couples.get(i).partners().contains(person)) {
        out.pointer(1, "FAMS", "F" + (i + 1));
      }
      if (couples.get(i).children().contains(person)) {
        out.pointer(1, "FAMC", "F" + (i + 1));
      }
    }
    out.line(1, "UID", person.id().toString());
    if (!person.isCommemorated()) {
      out.line(1, "NOTE", "Only named as somebody's kin.");
    }
    Optional<String> form = person.fromForm().map(Opinion::note);
    if (form.isPresent()) {
      out.line(1, "NOTE", "Known from the form of a marker alone. " + form.get());
    }
  }

  private void name(
      GedcomWriter out, Mention mention, String surname, String type, Set<String> written)
      throws IOException {
    Detail.Name name = mention.name();
    String whole =
        (part(name.given()) + (surname.isEmpty() ? "" : " /" + part(surname) + "/")).strip();
    if (whole.isEmpty() || !written.add(whole + type)) {
      return;
    }
    out.line(1, "NAME", whole);
    if (!type.isEmpty()) {
      out.line(2, "TYPE", type);
    }
    for (String title : type.isEmpty() ? name.titles() : List.<String>of()) {
      out.line(2, "NPFX", title);
    }
    if (!name.given().isEmpty()) {
      out.line(2, "GIVN", name.given());
    }
    if (!surname.isEmpty()) {
      out.line(2, "SURN", surname);
    }
    for (String suffix : type.isEmpty() ? name.suffixes() : List.<String>of()) {
      out.line(2, "NSFX", suffix);
    }
    for (Statement statement : mention.about()) {
      if (statement.kind() == Kind.NAME || mention.isKinOnly()) {
        cite(out, 2, new StatedFact(mention, statement));
      }
    }
  }

  /** A part of a name can't hold the sign that parts the surname from the rest. */
  private static String part(String name) {
    return name.replace('/', ' ').strip();
  }

  private void facts(GedcomWriter out, List<Mention> mentions) throws IOException {
    for (List<StatedFact> birth : alike(mentions, Kind.BIRTH)) {
      event(out, "BIRT", birth);
    }
    List<List<StatedFact>> deaths = alike(mentions, Kind.DEATH);
    for (List<StatedFact> death : deaths) {
      event(out, "DEAT", death);
      circumstances(out, death.stream().map(StatedFact::by).distinct().toList());
    }
    List<Mention> undated =
        mentions.stream()
            .filter(m -> of(m, Kind.DEATH).isEmpty())
            .filter(m -> !(of(m, Kind.AGE).isEmpty() && of(m, Kind.CAUSE).isEmpty()))
            .toList();
    if (!undated.isEmpty()) {
      out.line(1, "DEAT", "Y");
      circumstances(out, undated);
    }
    for (List<StatedFact> burial : alike(mentions, Kind.BURIAL)) {
      event(out, "BURI", burial);
    }
    for (List<StatedFact> marriage : alike(mentions, Kind.MARRIAGE)) {
      out.line(1, "EVEN", carved(marriage.get(0).statement()));
      out.line(2, "TYPE", "Marriage");
      date(out, marriage.get(0).statement());
      cite(out, 2, marriage);
    }
    attributes(out, mentions, Kind.OCCUPATION, "OCCU", "");
    attributes(out, mentions, Kind.SERVICE, "FACT", "Service");
    attributes(out, mentions, Kind.ORIGIN, "FACT", "Origin");
    attributes(out, mentions, Kind.REMOVAL, "FACT", "Removal");
  }

  private void attributes(
      GedcomWriter out, List<Mention> mentions, Kind kind, String tag, String type)
      throws IOException {
    for (List<StatedFact> told : alike(mentions, kind)) {
      out.line(1, tag, told.get(0).statement().valueInWords());
      if (!type.isEmpty()) {
        out.line(2, "TYPE", type);
      }
      cite(out, 2, told);
    }
  }

  /** What stones say of a kind, those that say the same together. */
  private static List<List<StatedFact>> alike(List<Mention> mentions, Kind kind) {
    Map<String, List<StatedFact>> alike = new LinkedHashMap<>();
    for (Mention mention : mentions) {
      for (Statement statement : of(mention, kind)) {
        alike
            .computeIfAbsent(statement.value() + "|" + place(statement), v -> new ArrayList<>())
            .add(new StatedFact(mention, statement));
      }
    }
    return List.copyOf(alike.values());
  }

  /** What a mention says of a kind; of what is read and reckoned too, the reckoned. */
  private static List<Statement> of(Mention mention, Kind kind) {
    List<Statement> all =
        mention.isKinOnly()
            ? List.of()
            : mention.about().stream().filter(s -> s.kind() == kind).toList();
    List<Statement> reckoned = all.stream().filter(Statement::isReckoned).toList();
    return reckoned.isEmpty() ? all : reckoned;
  }

  private static String place(Statement statement) {
    return statement.detail(Detail.Dated.class).map(Detail.Dated::place).orElse("").strip();
  }

  private void event(GedcomWriter out, String tag, List<StatedFact> told) throws IOException {
    Statement statement = told.get(0).statement();
    // Without a date an event needs the Y that says it came to pass.
    if (statement.value().isEmpty()) {
      out.line(1, tag, "Y");
    } else {
      out.line(1, tag);
    }
    date(out, statement);
    if (!place(statement).isEmpty()) {
      out.line(2, "PLAC", onePlace(place(statement)));
    }
    cite(out, 2, told);
  }

  /** Commas part the levels of a place in the standard, which a stone's don't. */
  private static String onePlace(String words) {
    return words.replace(',', ';');
  }

  private static void date(GedcomWriter out, Statement statement) throws IOException {
    if (statement.value().isEmpty()) {
      return;
    }
    GedcomDate date = GedcomDate.of(statement.value());
    out.line(2, "DATE", date.value());
    if (!date.whole()) {
      out.line(3, "PHRASE", statement.valueInWords());
    }
  }

  private void circumstances(GedcomWriter out, List<Mention> mentions) throws IOException {
    List<List<StatedFact>> ages = alike(mentions, Kind.AGE);
    if (!ages.isEmpty()) {
      Statement age = ages.get(0).get(0).statement();
      Optional<String> written = age(age.value());
      if (written.isPresent()) {
        out.line(2, "AGE", written.get());
        out.line(3, "PHRASE", carved(age));
      }
      for (List<StatedFact> one : ages.subList(written.isPresent() ? 1 : 0, ages.size())) {
        out.line(2, "NOTE", "Age as carved: " + carved(one.get(0).statement()));
      }
      for (List<StatedFact> one : ages) {
        cite(out, 2, one);
      }
    }
    List<List<StatedFact>> causes = alike(mentions, Kind.CAUSE);
    if (!causes.isEmpty()) {
      out.line(
          2,
          "CAUS",
          String.join(
              "; ", causes.stream().map(one -> one.get(0).statement().valueInWords()).toList()));
      for (List<StatedFact> one : causes) {
        cite(out, 2, one);
      }
    }
  }

  /** An age in the units carved; what is shorter than a day is under one. */
  static Optional<String> age(String duration) {
    Matcher parts = DURATION.matcher(duration);
    if (!parts.matches()) {
      return Optional.empty();
    }
    List<String> written = new ArrayList<>();
    for (int i = 0; i < UNITS.length; i++) {
      if (parts.group(i + 1) != null) {
        written.add(parts.group(i + 1) + UNITS[i]);
      }
    }
    return Optional.of(written.isEmpty() ? "< 1d" : String.join(" ", written));
  }

  private void buried(GedcomWriter out, Person person, Link link) throws IOException {
    out.line(1, "BURI", "Y");
    out.line(2, "PLAC", onePlace(edition.ground()));
    out.line(
        2,
        "NOTE",
        "Confirmed by " + link.reader() + (link.note().isBlank() ? "" : ": " + link.note()));
    for (Mention mention : person.mentions()) {
      if (link.toPerson().equals(Optional.of(mention.id()))) {
        out.pointer(2, "SOUR", sources.getOrDefault(mention.id().face(), "VOID"));
        out.line(3, "PAGE", "marker " + mention.source().marker().number());
      }
    }
  }

  private void family(GedcomWriter out, Couple couple, String pointer) throws IOException {
    out.record(pointer, "FAM");
    if (couple.husband().isPresent()) {
      out.pointer(1, "HUSB", individual(couple.husband().get()));
    }
    if (couple.wife().isPresent()) {
      out.pointer(1, "WIFE", individual(couple.wife().get()));
    }
    for (Person child : couple.children()) {
      out.pointer(1, "CHIL", individual(child));
    }
    for (StatedFact told : couple.told()) {
      cite(out, 1, told);
    }
  }

  private void source(GedcomWriter out, ToldFace face) throws IOException {
    var says = face.says();
    out.record(sources.getOrDefault(says.face().id(), "VOID"), "SOUR");
    out.line(1, "AUTH", says.reading().orElseThrow().reader());
    out.line(
        1,
        "TITL",
        "Inscription on marker "
            + says.marker().number()
            + ", "
            + says.face().name()
            + ", "
            + edition.ground());
    out.line(1, "TEXT", String.join("\n", Leiden.printLines(says.inscription())));
    out.line(1, "REFN", says.marker().number() + ":" + says.face().name());
    out.line(2, "TYPE", "marker and face");
    out.line(1, "UID", says.face().id().toString());
    out.line(
        1,
        "NOTE",
        "Basis: "
            + says.reading().orElseThrow().basis().kind().label()
            + "; signed "
            + says.reading().orElseThrow().at()
            + ", in Leiden signs: a dot below is a doubtful letter, brackets are what is lost."
            + (face.isTouched() ? " Something on it is withheld." : ""));
  }

  private static String carved(Statement statement) {
    return statement.text().replace(" / ", " ");
  }

  private void cite(GedcomWriter out, int level, List<StatedFact> alike) throws IOException {
    for (StatedFact told : alike) {
      cite(out, level, told);
    }
  }

  private void cite(GedcomWriter out, int level, StatedFact told) throws IOException {
    Statement statement = told.statement();
    FaceId face = told.by().source().face().id();
    out.pointer(level, "SOUR", sources.getOrDefault(face, "VOID"));
    out.line(
        level + 1,
        "PAGE",
        "line "
            + statement.firstLine()
            + (statement.lastLine() > statement.firstLine() ? " to " + statement.lastLine() : ""));
    out.line(level + 1, "DATA");
    out.line(level + 2, "TEXT", statement.text().replace(" / ", "\n"));
    boolean unsure =
        statement.supplied().isPresent()
            || statement.signs().stream().anyMatch(doubtful.getOrDefault(face, Set.of())::contains);
    out.line(level + 1, "QUAY", unsure ? DOUBTFUL : CARVED);
    Optional<String> supplied = statement.supplied();
    if (supplied.isPresent()) {
      out.line(level + 1, "NOTE", "Worked out, not carved: " + supplied.get());
    } else if (unsure) {
      out.line(level + 1, "NOTE", "Rests on letters that are in doubt or lost.");
    }
  }
}
