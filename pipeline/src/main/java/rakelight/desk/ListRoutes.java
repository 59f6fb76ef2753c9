package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.ground.removal.RemovalAccount;
import rakelight.ground.removal.RemovalFigure;
import rakelight.ground.removal.RemovalStore;
import rakelight.ground.removal.Removals;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.Roll;
import rakelight.publish.DyingTimes;
import rakelight.publish.Edition;
import rakelight.work.NamedReader;
import rakelight.work.Undoing;

/**
 * Lists that a guide takes along: rolls, deaths that came together, moved graves. They tell what
 * the edition of the day tells and nothing else, since they are printed and shown around.
 */
final class ListRoutes {
  static final int GRAVES_ON_PAGE = 60;

  /** With more, the groups alone are shown until one is chosen; a choice. */
  private static final int MOST_OPEN = 150;

  private static final int LONGEST_WORDS = 100;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Clock clock;
  private final Undoing undoing;
  private final RemovalStore removals;
  private Optional<Told> kept = Optional.empty();

  /** What was worked out, until something is decided or the day is over. */
  private record Told(
      long counter,
      LocalDate day,
      List<Person> persons,
      List<DyingTimes.DyingTime> times,
      List<RemovalAccount> accounts) {}

  ListRoutes(Archive archive, Requests requests, Pages pages, Clock clock) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.clock = clock;
    this.undoing = new Undoing(archive);
    this.removals = new RemovalStore(archive);
  }

  void addTo(Javalin server) {
    server.get("/roll", this::roll);
    server.get("/deaths", this::deaths);
    server.get("/moved", this::moved);
    server.post("/moved", this::decide);
  }

  private synchronized Told told() {
    long counter = archive.journal().lastCounter();
    LocalDate day = LocalDate.now(clock.withZone(archive.ground().zone()));
    Optional<Told> still = kept.filter(one -> one.counter() == counter && one.day().equals(day));
    Told told =
        still.orElseGet(
            () -> {
              Edition edition = Edition.of(archive, day);
              return new Told(
                  counter,
                  day,
                  edition.persons(),
                  edition.dyingTimes(),
                  edition.told(Removals.of(archive)));
            });
    kept = Optional.of(told);
    return told;
  }

  private static String given(Context context, String field) {
    String given = Optional.ofNullable(context.queryParam(field)).orElse("").strip();
    if (given.length() > LONGEST_WORDS) {
      throw Refusal.malformed("“" + field + "” has " + LONGEST_WORDS + " signs at most.");
    }
    return given;
  }

  private void roll(Context context) {
    requests.by(context);
    Roll.By by = Roll.By.of(given(context, "by")).orElse(Roll.By.REGIMENT);
    String of = given(context, "of");
    Told told = told();
    List<Roll.Group> groups =
        Roll.of(told.persons(), by).stream().filter(group -> Roll.isMeant(group, by, of)).toList();
    int entries = groups.stream().mapToInt(group -> group.entries().size()).sum();
    boolean open = !of.isEmpty() || entries <= MOST_OPEN;
    pages.show(
        context, "roll", Map.of("roll", new RollPage(told.day().toString(), by, of, groups, open)));
  }

  private void deaths(Context context) {
    requests.by(context);
    Told told = told();
    pages.show(context, "deaths", Map.of("day", told.day().toString(), "times", told.times()));
  }

  // Moved graves

  private void moved(Context context) {
    NamedReader by = requests.by(context);
    Optional<Decision> did =
        Optional.of(given(context, "did"))
            .flatMap(this::decision)
            .filter(decision -> Undoing.isTheirs(decision, by))
            .filter(decision -> archive.journal().stands(decision.id()));
    show(
        context,
        by,
        did.map(ListRoutes::said).orElse(""),
        did.map(decision -> decision.id().toString()).orElse(""));
  }

  private void show(Context context, NamedReader by, String message, String undo) {
    Told told = told();
    String source = given(context, "source");
    String ground = given(context, "ground");
    RemovalFigure figure =
        RemovalFigure.of(given(context, "show")).orElse(RemovalFigure.UNACCOUNTED);
    Optional<RemovalAccount> chosen =
        told.accounts().stream()
            .filter(one -> source.equals(Long.toString(one.register().sourceNumber())))
            .filter(one -> ground.isEmpty() || one.oldGround().equals(ground))
            .findFirst();
    Map<String, String> query = Map.of("source", source, "ground", ground, "show", figure.label());
    Map<String, String> settled = new HashMap<>();
    for (RemovalAccount account : told.accounts()) {
      removals.opinions().stream()
          .filter(opinion -> opinion.is() && opinion.source().equals(account.register().source()))
          .forEach(
              opinion ->
                  account
                      .grave(opinion.row())
                      .ifPresent(
                          grave -> settled.put(grave.place(), opinion.decision().toString())));
    }
    pages.show(
        context,
        "moved",
        Map.of(
            "moved",
            new MovedPage(
                told.day().toString(),
                told.accounts(),
                chosen,
                figure,
                Paged.of(
                    chosen.map(account -> account.behind(figure)).orElse(List.of()),
                    Paged.page(Optional.ofNullable(context.queryParam("page"))),
                    GRAVES_ON_PAGE,
                    "/moved",
                    query),
                settled,
                by.role().mayDecide(),
                message,
                undo)));
  }

  private void decide(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    String what = form.getOrDefault("do", "");
    String did = "";
    try {
      switch (what) {
        case "is", "not" ->
            did =
                removals
                    .judge(
                        form.getOrDefault("grave", ""),
                        People.mention(archive, form.getOrDefault("mention", "")),
                        what.equals("is"),
                        "",
                        by.name())
                    .toString();
        case "undo" ->
            undoing.undo(
                decision(form.getOrDefault("decision", ""))
                    .orElseThrow(() -> Refusal.notFound("decision"))
                    .id(),
                by);
        default -> throw Refusal.malformed("This form can't be read.");
      }
    } catch (ArchiveException e) {
      show(context, by, String.valueOf(e.getMessage()), "");
      return;
    }
    String back = form.getOrDefault("back", "");
    String to = back.startsWith("/moved?") ? back : "/moved?";
    context.redirect(to + (did.isEmpty() ? "" : "&did=" + did) + "#list", HttpStatus.SEE_OTHER);
  }

  /** A decision about who is who in a register. */
  private Optional<Decision> decision(String id) {
    try {
      return archive
          .journal()
          .find(DecisionId.of(id))
          .filter(decision -> RemovalStore.isOpinion(decision.kind()));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private static String said(Decision decision) {
    return "Kept, for row "
        + decision.payload().path("row").asText()
        + (decision.kind().endsWith("not") ? ": another person." : ": this person.");
  }

  /** The address of the list of an account's figure. */
  static String address(RemovalAccount account, String figure) {
    return "/moved?source="
        + account.register().sourceNumber()
        + "&ground="
        + URLEncoder.encode(account.oldGround(), StandardCharsets.UTF_8)
        + "&show="
        + figure;
  }
}
