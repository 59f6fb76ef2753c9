package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.Table;
import rakelight.person.FoldedWords;
import rakelight.person.Linkage;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.Sought;
import rakelight.person.SoughtFile;
import rakelight.person.SoughtMatches;
import rakelight.person.Source;
import rakelight.person.SourceStore;
import rakelight.person.SourceStore.Judgement;
import rakelight.person.calendar.Age;
import rakelight.person.calendar.CalendarChange;
import rakelight.photo.PhotoStore;
import rakelight.work.NamedReader;

/**
 * Persons whom rolls and registers say are buried here somewhere, with the stones that may be
 * theirs.
 */
final class SoughtRoutes {
  private static final String SOUGHT = "/sought";

  /** What is asked of somebody who is sought, by the names of the columns of a roll. */
  private static final Set<String> CELLS =
      Set.of(
          "given", "surname", "born", "died", "buried", "age", "kin", "unit", "reference", "note");

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Concluding concluding;
  private final SourceStore sources;
  private final PhotoStore photographs;

  SoughtRoutes(Archive archive, Requests requests, Pages pages, Concluding concluding) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.concluding = concluding;
    this.sources = new SourceStore(archive);
    this.photographs = new PhotoStore(archive);
  }

  void addTo(Javalin server) {
    server.get(SOUGHT, context -> list(context, Map.of(), ""));
    server.post(SOUGHT, this::add);
    server.get(SOUGHT + "/{sought}", context -> sought(context, ""));
    server.post(SOUGHT + "/{sought}", this::judge);
  }

  static String address(Sought sought) {
    return SOUGHT + "/" + sought.place();
  }

  private List<SoughtMatches.Result> seen(boolean all) {
    Conclusion now = concluding.now();
    return now.sought(all).stream().filter(one -> all || isTold(one.sought(), now)).toList();
  }

  /**
   * @param written what somebody wrote in the form that was refused
   */
  private void list(Context context, Map<String, String> written, String refused) {
    boolean all = requests.by(context).role().mayDecide();
    String name = Requests.asked(context, "name");
    String year = Requests.asked(context, "year");
    String source = Requests.asked(context, "source");
    String state = Requests.asked(context, "state");
    Optional<Years> years = Years.of(year);
    List<Source> known = sources.sources();
    List<Listing.Choice> choices = new ArrayList<>();
    choices.add(new Listing.Choice("", "any"));
    known.forEach(one -> choices.add(new Listing.Choice(Long.toString(one.number()), one.title())));
    List<Listing.Field> fields =
        List.of(
            Listing.Field.written("name", "Name", name, "silas"),
            Listing.Field.written("year", "Born or died in", year, "1914-1918"),
            Listing.Field.chosen(
                "source", "Source", source, choices.toArray(Listing.Choice[]::new)),
            Listing.Field.chosen(
                "state",
                "Which",
                state,
                new Listing.Choice("", "all"),
                new Listing.Choice("offered", "with stones that may be theirs"),
                new Listing.Choice("found", "found"),
                new Listing.Choice("missing", "nothing found yet")));
    List<SoughtMatches.Result> whole = seen(all);
    List<SoughtMatches.Result> held =
        whole.stream()
            .filter(one -> name.isEmpty() || FoldedWords.begin(one.sought().row().called(), name))
            .filter(
                one ->
                    years.isEmpty()
                        || one.sought().mayTouch(years.get().first(), years.get().last()))
            .filter(
                one ->
                    source.isEmpty() || source.equals(Long.toString(one.sought().sourceNumber())))
            .filter(one -> state.isEmpty() || state.equals(state(one)))
            .toList();
    Map<String, Object> parameters = new HashMap<>();
    parameters.put(
        "list",
        new Listing(
            "Persons sought",
            SOUGHT,
            "Whom rolls and registers say are buried here somewhere, each with the stones that may"
                + " be theirs.",
            year.isEmpty() || years.isPresent() ? refused : Years.refused(year),
            all ? List.of() : List.of(PersonRoutes.GUEST),
            fields,
            "person sought",
            "persons sought",
            whole.size(),
            Requests.paged(context, held, SOUGHT, fields).map(SoughtRoutes::row)));
    parameters.put("sources", choices.subList(1, choices.size()));
    parameters.put("written", written);
    pages.show(context, "sought", parameters);
  }

  private static boolean isTold(Sought sought, Conclusion now) {
    return !sought.mayBeLiving(now.day())
        && now.mayTell(sought.row().called() + " " + String.join(" ", facts(sought)));
  }

  private static String state(SoughtMatches.Result result) {
    return result.found().isPresent()
        ? "found"
        : result.matches().isEmpty() ? "missing" : "offered";
  }

  private static Listing.Row row(SoughtMatches.Result result) {
    Sought sought = result.sought();
    List<String> facts = new ArrayList<>();
    facts.add(String.join(", ", facts(sought)));
    result
        .found()
        .ifPresent(mention -> facts.add("found: " + mention.label() + " " + mention.called()));
    result.matches().stream()
        .limit(2)
        .forEach(
            match ->
                facts.add(
                    "perhaps "
                        + match.mention().label()
                        + " "
                        + match.mention().called()
                        + ", "
                        + Linkage.odds(match.probability())));
    facts.add(sought.label());
    String state =
        switch (state(result)) {
          case "found" -> "found";
          case "offered" ->
              result.matches().size() == 1
                  ? "1 stone offered"
                  : result.matches().size() + " stones offered";
          default -> "";
        };
    return new Listing.Row(address(sought), sought.row().called(), state, facts);
  }

  private static List<String> facts(Sought sought) {
    Sought.Row row = sought.row();
    return Stream.of(
            row.born().map(day -> "born " + day).orElse(""),
            row.died().map(day -> "died " + day).orElse(""),
            row.buried().map(day -> "buried " + day).orElse(""),
            row.age().map(age -> "aged " + Age.inWords(age)).orElse(""),
            row.kin(),
            row.unit(),
            row.reference(),
            row.note())
        .filter(fact -> !fact.isEmpty())
        .toList();
  }

  private void add(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    Map<String, String> cells = new HashMap<>();
    CELLS.forEach(cell -> cells.put(cell, Requests.words(form, cell).replaceAll("\\s+", " ")));
    try {
      Source source =
          sources.sources().stream()
              .filter(one -> Long.toString(one.number()).equals(form.getOrDefault("source", "")))
              .findFirst()
              .orElseThrow(
                  () ->
                      new ArchiveException(
                          "Say which source names him. Record it first if it isn’t here."));
      Sought sought =
          sources.add(
              source, SoughtFile.row(cells, CalendarChange.of(archive.ground())), by.name());
      context.redirect(address(sought));
    } catch (ArchiveException e) {
      context.status(422);
      list(context, form, String.valueOf(e.getMessage()));
    } catch (Table.RefusedException e) {
      context.status(422);
      list(context, form, String.join(" ", e.problems()));
    }
  }

  private SoughtMatches.Result known(Context context, boolean all) {
    String place = context.pathParam("sought");
    return seen(all).stream()
        .filter(one -> one.sought().place().equals(place))
        .findFirst()
        .orElseThrow(() -> Refusal.notFound("person sought"));
  }

  private void sought(Context context, String message) {
    NamedReader by = requests.by(context);
    boolean all = by.role().mayDecide();
    SoughtMatches.Result result = known(context, all);
    Sought sought = result.sought();
    Conclusion now = concluding.now();
    Source source =
        sources.sources().stream()
            .filter(one -> one.id().equals(sought.source()))
            .findFirst()
            .orElseThrow(() -> Refusal.notFound("source"));
    pages.show(
        context,
        "sought-one",
        Map.of(
            "sought",
            new SoughtPage(
                sought.place(),
                sought.row().called(),
                SourceRoutes.address(source),
                source.title(),
                facts(sought),
                result.found().stream()
                    .map(mention -> stone(mention, now, all, "", List.of()))
                    .toList(),
                result.matches().stream()
                    .map(
                        match ->
                            stone(
                                match.mention(),
                                now,
                                all,
                                Linkage.odds(match.probability()),
                                match.reasons().stream().map(Linkage.Reason::words).toList()))
                    .toList(),
                all ? acts(sought, by, now) : List.of(),
                all),
            "message",
            message));
  }

  private SoughtPage.Stone stone(
      Mention mention, Conclusion now, boolean all, String odds, List<String> reasons) {
    Optional<Person> person = now.person(mention.id().personId(), all);
    return new SoughtPage.Stone(
        mention.label(),
        mention.called(),
        person.map(Lives::of).orElse(""),
        person.map(PersonRoutes::address).orElse(""),
        mention.source().marker().id().toString(),
        mention.source().marker().number(),
        odds,
        reasons,
        photographs.ofFace(mention.source().face().id()).stream()
            .filter(one -> all || now.edition().why(one.id()).isEmpty())
            .findFirst()
            .map(one -> "/images/photographs/" + one.id() + "?longest=240")
            .orElse(""));
  }

  private List<Act> acts(Sought sought, NamedReader by, Conclusion now) {
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    List<Act> acts = new ArrayList<>();
    for (Judgement judgement : sources.judgements()) {
      if (judgement.source().equals(sought.source()) && judgement.row() == sought.row().number()) {
        String whom =
            now.person(judgement.mention().personId(), true)
                .flatMap(
                    person ->
                        person.mentions().stream()
                            .filter(one -> one.id().equals(judgement.mention()))
                            .findFirst())
                .map(mention -> mention.label() + " " + mention.called())
                .orElse("somebody who is no longer read");
        String note = judgement.note().isEmpty() ? "" : ": " + judgement.note();
        Decision decision = archive.journal().find(judgement.decision()).orElseThrow();
        acts.add(
            0,
            Act.of(
                decision,
                (judgement.found() ? "said that it is " : "said that it isn’t ") + whom + note,
                undone,
                by,
                address(sought)));
      }
    }
    for (Decision decision : archive.journal().bySubject(sought.source().value())) {
      boolean added =
          decision.kind().equals("sought.listed")
              && !undone.containsKey(decision.id())
              && decision.payload().path("rows").size() == 1
              && decision.payload().path("rows").get(0).path("number").asInt()
                  == sought.row().number();
      if (added) {
        acts.add(Act.of(decision, "added this person", undone, by, SOUGHT));
      }
    }
    return acts;
  }

  private void judge(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    Sought sought = known(context, true).sought();
    try {
      Mention mention = People.mention(archive, form.getOrDefault("mention", ""));
      boolean found =
          switch (form.getOrDefault("is", "")) {
            case "found" -> true;
            case "not" -> false;
            default -> throw Refusal.malformed("Say whether it is he or not.");
          };
      sources.judge(sought, mention, found, Requests.words(form, "note"), by.name());
      context.redirect(address(sought));
    } catch (ArchiveException e) {
      context.status(422);
      sought(context, String.valueOf(e.getMessage()));
    }
  }
}
