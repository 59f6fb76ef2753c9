package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Deaths;
import rakelight.person.FoldedWords;
import rakelight.person.Linkage;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.Opinion;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.PersonStore;
import rakelight.person.SoughtMatches;
import rakelight.person.Statement;
import rakelight.photo.PhotoStore;
import rakelight.publish.Edition;
import rakelight.work.NamedReader;

/** Persons: who is commemorated, who may be one with whom, and what people decide about it. */
final class PersonRoutes {
  private static final String PERSONS = "/persons";
  private static final String PAIRS = "/pairs";
  private static final int MOST_OTHERS = 12;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Concluding concluding;
  private final PersonStore store;
  private final MarkerStore markers;
  private final PhotoStore photographs;

  PersonRoutes(Archive archive, Requests requests, Pages pages, Concluding concluding) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.concluding = concluding;
    this.store = new PersonStore(archive);
    this.markers = new MarkerStore(archive);
    this.photographs = new PhotoStore(archive);
  }

  void addTo(Javalin server) {
    server.get(PERSONS, context -> list(context, ""));
    server.post(PERSONS, this::unnamed);
    server.get(PERSONS + "/{person}", context -> person(context, ""));
    server.post(PERSONS + "/{person}/died", this::died);
    server.get(PERSONS + "/{person}/beside", this::beside);
    server.get(PAIRS, this::pairs);
    server.get(PAIRS + "/{one}/{other}", context -> pair(context, ""));
    server.post(PAIRS + "/{one}/{other}", this::judge);
  }

  // The list

  private void list(Context context, String refused) {
    NamedReader by = requests.by(context);
    boolean all = by.role().mayDecide();
    Conclusion now = concluding.now();
    String name = Requests.asked(context, "name");
    String year = Requests.asked(context, "year");
    String as = Requests.asked(context, "as");
    String state = Requests.asked(context, "state");
    Optional<Years> years = Years.of(year);
    List<Listing.Field> fields =
        List.of(
            Listing.Field.written("name", "Name", name, "hannah wr"),
            Listing.Field.written("year", "Born or died in", year, "1840-1860"),
            Listing.Field.chosen(
                "as",
                "As",
                as,
                new Listing.Choice("", "anything"),
                new Listing.Choice("commemorated", "commemorated"),
                new Listing.Choice("kin", "named as kin only"),
                new Listing.Choice("unnamed", "without a name")),
            Listing.Field.chosen(
                "state",
                "Which",
                state,
                new Listing.Choice("", "all"),
                new Listing.Choice("several", "on several stones"),
                new Listing.Choice("dead", "with evidence of death"),
                new Listing.Choice("living", "who may be living")));
    String wrong = year.isEmpty() || years.isPresent() ? refused : Years.refused(year);
    List<Person> persons = now.byName(all);
    List<Person> held =
        persons.stream()
            .filter(person -> name.isEmpty() || person.isCalled(name))
            .filter(
                person ->
                    years.isEmpty() || person.mayTouch(years.get().first(), years.get().last()))
            .filter(person -> isAs(person, as))
            .filter(person -> isIn(person, state, now))
            .toList();
    List<String> notices = new ArrayList<>();
    if (!all) {
      notices.add(GUEST);
    }
    if (Listing.asked(fields).values().stream().allMatch(String::isEmpty)) {
      deaths(now.deaths(all)).ifPresent(notices::add);
    }
    pages.show(
        context,
        "persons",
        Map.of(
            "list",
            new Listing(
                "Persons",
                PERSONS,
                "Who is commemorated, as concluded from confirmed readings.",
                wrong,
                notices,
                fields,
                "person",
                "persons",
                persons.size(),
                Requests.paged(context, held, PERSONS, fields)
                    .map(person -> row(person, now.day())))));
  }

  /** What a guest is told above a list. */
  static final String GUEST =
      "You see what may be told today. Who may be living is left out, and what somebody wished to"
          + " be.";

  private static boolean isAs(Person person, String as) {
    return switch (as) {
      case "commemorated" -> person.isCommemorated();
      case "kin" -> !person.isCommemorated();
      case "unnamed" -> person.isUnnamed();
      default -> true;
    };
  }

  private static boolean isIn(Person person, String state, Conclusion now) {
    return switch (state) {
      case "several" -> stones(person) > 1;
      case "dead" -> !person.died().isEmpty();
      case "living" -> now.mayBeLiving(person);
      default -> true;
    };
  }

  private static long stones(Person person) {
    return person.mentions().stream().map(m -> m.source().marker().id()).distinct().count();
  }

  private Listing.Row row(Person person, LocalDate day) {
    long stones = stones(person);
    String state =
        Edition.mayBeLiving(person, day)
            ? "may be living"
            : stones > 1
                ? "on " + stones + " stones"
                : person.isCommemorated() ? "" : "named as kin only";
    String form =
        person
            .fromForm()
            .flatMap(Opinion::marker)
            .map(marker -> "told of by the form of marker " + markers.numberOf(marker))
            .orElse("");
    return new Listing.Row(
        address(person),
        person.called(),
        state,
        List.of(Lives.of(person), Lives.places(person), form));
  }

  static String address(Person person) {
    return PERSONS + "/" + person.id();
  }

  private static Optional<String> deaths(List<Deaths.Cluster> close) {
    List<String> clusters =
        close.stream()
            .map(
                one ->
                    one.persons().size()
                        + (one.first().equals(one.last())
                            ? " on " + one.first()
                            : " from " + one.first() + " to " + one.last()))
            .toList();
    return clusters.isEmpty()
        ? Optional.empty()
        : Optional.of("Many deaths close together: " + String.join("; ", clusters) + ".");
  }

  private void unnamed(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    try {
      Opinion said =
          store.unnamed(form.getOrDefault("marker", ""), Requests.words(form, "note"), by.name());
      context.redirect(PERSONS + "/" + said.decision());
    } catch (ArchiveException e) {
      context.status(422);
      list(context, String.valueOf(e.getMessage()));
    }
  }

  // One person

  private void person(Context context, String message) {
    NamedReader by = requests.by(context);
    boolean all = by.role().mayDecide();
    Conclusion now = concluding.now();
    Person person = known(context.pathParam("person"), now, all);
    pages.show(context, "person", Map.of("person", page(person, now, by), "message", message));
  }

  private static Person known(String id, Conclusion now, boolean all) {
    return Requests.known(id, UUID::fromString, one -> now.person(one, all), "person");
  }

  private PersonPage page(Person person, Conclusion now, NamedReader by) {
    boolean all = by.role().mayDecide();
    List<String> notes = new ArrayList<>();
    if (Edition.mayBeLiving(person, now.day())) {
      notes.add(
          "May be living: left out of whatever is published until somebody records evidence of"
              + " death.");
    }
    person
        .fromForm()
        .flatMap(Opinion::marker)
        .ifPresent(
            marker ->
                notes.add(
                    "No letters name this person; the form of marker "
                        + markers.numberOf(marker)
                        + " tells of somebody."));
    person
        .died()
        .forEach(one -> notes.add("Evidence of death: " + one.note() + " (" + one.reader() + ")"));
    Optional<Concluding.Pairs> pairs = all ? concluding.pairs() : Optional.empty();
    return new PersonPage(
        person.id().toString(),
        person.called(),
        Lives.of(person),
        notes,
        person.mentions().stream().map(mention -> onStone(mention, now, all)).toList(),
        others(person, pairs.map(Concluding.Pairs::pairs).orElse(List.of())),
        all && pairs.map(Concluding.Pairs::behind).orElse(true),
        sought(person, now, all),
        all ? acts(person, by) : List.of(),
        all);
  }

  private PersonPage.OnStone onStone(Mention mention, Conclusion now, boolean all) {
    Marker marker = mention.source().marker();
    FaceId face = mention.source().face().id();
    List<PersonPage.Fact> facts = new ArrayList<>();
    for (Statement statement : mention.about()) {
      facts.add(
          new PersonPage.Fact(Lives.words(statement), StatementRoutes.address(face, statement)));
    }
    return new PersonPage.OnStone(
        mention.label(),
        marker.id().toString(),
        marker.number(),
        mention.source().face().name(),
        Lives.as(mention),
        facts,
        mention.kin().stream().map(kin -> SearchRoutes.kin(mention, kin)).toList(),
        photographs.ofFace(face).stream()
            .filter(one -> all || now.edition().why(one.id()).isEmpty())
            .findFirst()
            .map(one -> "/images/photographs/" + one.id() + "?longest=240")
            .orElse(""));
  }

  private List<PersonPage.Other> others(Person person, List<Linkage.Pair> pairs) {
    Set<MentionId> own = new HashSet<>();
    person.mentions().forEach(mention -> own.add(mention.id()));
    List<PersonPage.Other> others = new ArrayList<>();
    for (Linkage.Pair pair : pairs) {
      boolean first = own.contains(pair.one().id());
      if (first != own.contains(pair.other().id())) {
        Mention here = first ? pair.one() : pair.other();
        Mention there = first ? pair.other() : pair.one();
        others.add(
            new PersonPage.Other(
                there.called(),
                address(here, there),
                pair.odds(),
                List.of(
                    told(there),
                    String.join(
                        "; ", pair.reasons().stream().map(Linkage.Reason::words).toList()))));
      }
    }
    return others.subList(0, Math.min(MOST_OTHERS, others.size()));
  }

  private static String address(Mention one, Mention other) {
    return PAIRS + "/" + one.id().personId() + "/" + other.id().personId();
  }

  private List<PersonPage.Other> sought(Person person, Conclusion now, boolean all) {
    Set<MentionId> own = new HashSet<>();
    person.mentions().forEach(mention -> own.add(mention.id()));
    List<PersonPage.Other> sought = new ArrayList<>();
    for (SoughtMatches.Result result : now.sought(all)) {
      String words = result.sought().row().called() + ", " + result.sought().label();
      String address = SoughtRoutes.address(result.sought());
      if (result.found().filter(mention -> own.contains(mention.id())).isPresent()) {
        sought.add(new PersonPage.Other(words, address, "found", List.of()));
      }
      result.matches().stream()
          .filter(match -> match.person().id().equals(person.id()))
          .forEach(
              match ->
                  sought.add(
                      new PersonPage.Other(
                          words,
                          address,
                          Linkage.odds(match.probability()),
                          match.reasons().stream().map(Linkage.Reason::words).toList())));
    }
    return sought;
  }

  /** What stands of what people decided about somebody, the newest first. */
  private List<Act> acts(Person person, NamedReader by) {
    Set<MentionId> own = new HashSet<>();
    person.mentions().forEach(mention -> own.add(mention.id()));
    return acts(
        opinion ->
            opinion.one().filter(own::contains).isPresent()
                || opinion.other().filter(own::contains).isPresent()
                || opinion.decision().value().equals(person.id()),
        by,
        person.mentions().isEmpty() ? PERSONS : address(person));
  }

  private List<Act> acts(Predicate<Opinion> which, NamedReader by, String back) {
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    List<Act> acts = new ArrayList<>();
    for (Opinion opinion : store.opinions()) {
      if (which.test(opinion)) {
        Decision decision = archive.journal().find(opinion.decision()).orElseThrow();
        acts.add(0, Act.of(decision, words(opinion), undone, by, back));
      }
    }
    return acts;
  }

  private String words(Opinion opinion) {
    String note = opinion.note().isEmpty() ? "" : ": " + opinion.note();
    String both =
        Stream.of(opinion.one(), opinion.other())
            .flatMap(Optional::stream)
            .map(this::label)
            .reduce((one, other) -> one + " and " + other)
            .orElse("");
    return switch (opinion.kind()) {
      case SAME -> "said that " + both + " are one person" + note;
      case DIFFERENT -> "said that " + both + " are two persons" + note;
      case DIED -> "recorded evidence of death" + note;
      case UNNAMED -> "recorded somebody unnamed" + note;
    };
  }

  private String label(MentionId id) {
    return concluding
        .now()
        .person(id.personId(), true)
        .flatMap(person -> person.mentions().stream().filter(m -> m.id().equals(id)).findFirst())
        .map(mention -> mention.label() + " " + mention.called())
        .orElse("somebody who is no longer read");
  }

  private void died(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    Person person = known(context.pathParam("person"), concluding.now(), true);
    try {
      Mention mention =
          person.fullest().orElseThrow(() -> new ArchiveException("No letters name this person."));
      store.died(mention, Requests.words(form, "note"), by.name());
      context.redirect(address(person));
    } catch (ArchiveException e) {
      context.status(422);
      person(context, String.valueOf(e.getMessage()));
    }
  }

  /** Somebody named by marker, face and number, beside this person. */
  private void beside(Context context) {
    requests.deciding(context);
    Person person = known(context.pathParam("person"), concluding.now(), true);
    try {
      Mention other = People.mention(archive, Requests.asked(context, "mention"));
      Mention own =
          person.fullest().orElseThrow(() -> new ArchiveException("No letters name this person."));
      context.redirect(address(own, other));
    } catch (ArchiveException e) {
      context.status(422);
      person(context, String.valueOf(e.getMessage()));
    }
  }

  // Pairs

  private void pairs(Context context) {
    requests.deciding(context);
    String name = Requests.asked(context, "name");
    String odds = Requests.asked(context, "odds");
    List<Listing.Field> fields =
        List.of(
            Listing.Field.written("name", "Name", name, "wren"),
            Listing.Field.chosen(
                "odds",
                "Odds",
                odds,
                new Listing.Choice("", "any"),
                new Listing.Choice("likely", "1 to 1 or better"),
                new Listing.Choice("open", "worse than 1 to 1")));
    Optional<Concluding.Pairs> pairs = concluding.pairs();
    List<Linkage.Pair> known = pairs.map(Concluding.Pairs::pairs).orElse(List.of());
    List<Linkage.Pair> held =
        known.stream()
            .filter(
                pair ->
                    name.isEmpty() || isCalled(pair.one(), name) || isCalled(pair.other(), name))
            .filter(pair -> odds.isEmpty() || odds.equals("likely") == pair.probability() >= 0.5)
            .toList();
    List<String> notices = new ArrayList<>();
    if (pairs.isEmpty()) {
      notices.add(
          "It is being worked out who may be one with whom. Load the page again in a moment.");
    } else if (pairs.get().behind()) {
      notices.add("What was decided last isn’t reckoned with in the odds yet.");
    }
    pages.show(
        context,
        "list",
        Map.of(
            "list",
            new Listing(
                "May be one person",
                PAIRS,
                "Mentions of which nobody has decided, the likeliest first. A machine proposes;"
                    + " look at both stones.",
                "",
                notices,
                fields,
                "pair",
                "pairs",
                known.size(),
                Requests.paged(context, held, PAIRS, fields).map(PersonRoutes::row))));
  }

  private static boolean isCalled(Mention mention, String name) {
    return FoldedWords.begin(mention.called(), name);
  }

  private static Listing.Row row(Linkage.Pair pair) {
    return new Listing.Row(
        address(pair.one(), pair.other()),
        pair.one().called() + " and " + pair.other().called(),
        pair.odds(),
        List.of(
            told(pair.one()),
            told(pair.other()),
            String.join("; ", pair.reasons().stream().map(Linkage.Reason::words).toList())));
  }

  private static String told(Mention mention) {
    String life = Lives.of(mention);
    return mention.label() + " " + Lives.as(mention) + (life.isEmpty() ? "" : ", " + life);
  }

  private void pair(Context context, String message) {
    NamedReader by = requests.deciding(context);
    Conclusion now = concluding.now();
    Mention one = mention(context.pathParam("one"), now);
    Mention other = mention(context.pathParam("other"), now);
    Set<MentionId> both = Set.of(one.id(), other.id());
    Optional<Linkage.Pair> pair =
        concluding.pairs().map(Concluding.Pairs::pairs).orElse(List.of()).stream()
            .filter(each -> isOf(each, one, other, now))
            .findFirst();
    List<Act> acts =
        acts(
            opinion ->
                opinion.one().filter(both::contains).isPresent()
                    && opinion.other().filter(both::contains).isPresent(),
            by,
            address(one, other));
    Person first = known(context.pathParam("one"), now, true);
    Person second = known(context.pathParam("other"), now, true);
    String decided =
        first.id().equals(second.id())
            ? "People hold these to be one person."
            : now.areTwo(first, second) ? "People hold these to be two persons." : "";
    pages.show(
        context,
        "pair",
        Map.of(
            "pair",
            new PairPage(
                one.id().personId().toString(),
                other.id().personId().toString(),
                first.id().equals(second.id())
                    ? List.of(page(first, now, by))
                    : List.of(page(first, now, by), page(second, now, by)),
                pair.map(Linkage.Pair::odds).orElse(""),
                pair.map(each -> each.reasons().stream().map(Linkage.Reason::words).toList())
                    .orElse(List.of()),
                decided,
                acts,
                by.role().mayDecide()),
            "message",
            message));
  }

  private static boolean isOf(Linkage.Pair pair, Mention one, Mention other, Conclusion now) {
    Optional<UUID> first = now.person(pair.one().id().personId(), true).map(Person::id);
    Optional<UUID> second = now.person(pair.other().id().personId(), true).map(Person::id);
    Set<Optional<UUID>> asked =
        Set.copyOf(
            List.of(
                now.person(one.id().personId(), true).map(Person::id),
                now.person(other.id().personId(), true).map(Person::id)));
    return asked.size() == 2
        && asked.contains(first)
        && asked.contains(second)
        && !first.equals(second);
  }

  private static Mention mention(String id, Conclusion now) {
    Person person = known(id, now, true);
    return person.mentions().stream()
        .filter(mention -> mention.id().personId().toString().equals(id))
        .findFirst()
        .or(person::fullest)
        .orElseThrow(() -> Refusal.notFound("mention"));
  }

  private void judge(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    Conclusion now = concluding.now();
    Mention one = mention(context.pathParam("one"), now);
    Mention other = mention(context.pathParam("other"), now);
    String note = Requests.words(form, "note");
    try {
      switch (form.getOrDefault("are", "")) {
        case "one" -> store.same(one, other, note, by.name());
        case "two" -> store.different(one, other, note, by.name());
        default -> throw Refusal.malformed("Say whether they are one person or two.");
      }
      context.redirect(address(one, other));
    } catch (ArchiveException e) {
      context.status(422);
      pair(context, String.valueOf(e.getMessage()));
    }
  }
}
