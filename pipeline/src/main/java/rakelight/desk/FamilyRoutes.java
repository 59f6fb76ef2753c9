package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.ground.FamilyGroup;
import rakelight.ground.FamilyPerson.Lies;
import rakelight.ground.FamilyPlot;
import rakelight.ground.FamilyStore;
import rakelight.ground.FamilyTree;
import rakelight.ground.FootstoneFinding;
import rakelight.ground.GroundPlan;
import rakelight.marker.Marker;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.Statement.Kind;
import rakelight.work.NamedReader;

/** Families: their list, the page of each, and what people say of them. */
final class FamilyRoutes {
  private static final String FAMILIES = "/families";
  private static final String FAMILY = "/markers/{marker}/family";
  private static final double PLAN_PX = 420;
  private static final double MOST_PX_A_METRE = 60;
  private static final double MARGIN_PX = 40;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Concluding concluding;
  private final MarkerPages markerPages;
  private final FamilyStore store;

  FamilyRoutes(
      Archive archive,
      Requests requests,
      Pages pages,
      Concluding concluding,
      MarkerPages markerPages) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.concluding = concluding;
    this.markerPages = markerPages;
    this.store = new FamilyStore(archive);
  }

  void addTo(Javalin server) {
    server.get(FAMILIES, this::list);
    server.get(FAMILY, context -> family(context, ""));
    server.post(FAMILY, this::say);
  }

  /** The page of the family that a marker is of. */
  static String address(Marker marker) {
    return "/markers/" + marker.id() + "/family";
  }

  private void list(Context context) {
    requests.deciding(context);
    String name = Requests.asked(context, "name");
    String state = Requests.asked(context, "state");
    List<Listing.Field> fields =
        List.of(
            Listing.Field.written("name", "Name or marker", name, "wren"),
            Listing.Field.chosen(
                "state",
                "Which",
                state,
                new Listing.Choice("", "all"),
                new Listing.Choice("open", "with footstones to settle"),
                new Listing.Choice("named", "named by people")));
    List<FamilyGroup> families = concluding.now().plan().families();
    String wanted = name.toLowerCase(Locale.ROOT);
    List<FamilyGroup> held =
        families.stream()
            .filter(family -> wanted.isEmpty() || isMeant(family, wanted))
            .filter(
                family ->
                    switch (state) {
                      case "open" -> toSettle(family) > 0;
                      case "named" -> family.isNamed();
                      default -> true;
                    })
            .toList();
    pages.show(
        context,
        "list",
        Map.of(
            "list",
            new Listing(
                "Families",
                FAMILIES,
                "Which stones are one family’s, by what they say and how they stand: proposed, until"
                    + " somebody joins, splits or names them.",
                "",
                List.of(),
                fields,
                "family",
                "families",
                families.size(),
                Requests.paged(context, held, FAMILIES, fields).map(FamilyRoutes::row))));
  }

  private static boolean isMeant(FamilyGroup family, String wanted) {
    return family.name().toLowerCase(Locale.ROOT).contains(wanted)
        || family.stones().stream().anyMatch(m -> m.number().equalsIgnoreCase(wanted))
        || family.footstones().stream().anyMatch(m -> m.number().equalsIgnoreCase(wanted));
  }

  private static int toSettle(FamilyGroup family) {
    return family.footstones().size() - family.plot().confirmed().size();
  }

  private static Listing.Row row(FamilyGroup family) {
    int open = toSettle(family);
    return new Listing.Row(
        address(family.stones().get(0)),
        family.name(),
        family.isNamed() ? "named by people" : "proposed",
        List.of(
            family.persons().size() + (family.persons().size() == 1 ? " person" : " persons"),
            "stones " + numbers(family.stones()),
            family.footstones().isEmpty() ? "" : "footstones " + numbers(family.footstones()),
            open == 0 ? "" : open + (open == 1 ? " footstone" : " footstones") + " to settle"));
  }

  private static String numbers(List<Marker> markers) {
    return String.join(", ", markers.stream().map(Marker::number).toList());
  }

  private void family(Context context, String message) {
    NamedReader by = requests.by(context);
    boolean all = by.role().mayDecide();
    Marker marker = requests.marker(context);
    List<FamilyPage.KinLine> kin =
        People.on(archive, marker).stream()
            .flatMap(person -> person.mentions().stream())
            .filter(mention -> mention.source().marker().id().equals(marker.id()))
            .flatMap(mention -> mention.kin().stream().map(one -> SearchRoutes.kin(mention, one)))
            .distinct()
            .toList();
    String asked = Requests.asked(context, "q");
    Optional<FamilyPage.Whole> whole =
        all ? concluding.now().plan().family(marker).map(this::whole) : Optional.empty();
    pages.show(
        context,
        "family",
        Map.of(
            "family",
            new FamilyPage(
                marker.id().toString(),
                marker.number(),
                asked.isEmpty() ? "" : SearchRoutes.address(Map.of("q", asked)),
                markerPages.persons(marker),
                kin,
                markerPages.links(marker),
                whole,
                message,
                all ? acts(marker, by) : List.of(),
                all)));
  }

  private FamilyPage.Whole whole(FamilyGroup family) {
    FamilyTree tree = FamilyTree.of(family);
    List<FamilyPage.Edge> edges = new ArrayList<>();
    for (FamilyTree.Edge edge : tree.edges()) {
      edges.add(edge(edge.tie(), edge.d(), edge.x(), edge.y()));
    }
    List<FamilyPage.Edge> others = family.ties().stream().map(tie -> edge(tie, "", 0, 0)).toList();
    List<FamilyPage.Member> members = new ArrayList<>();
    List<FamilyPage.To> open = new ArrayList<>();
    for (int p = 0; p < family.persons().size(); p++) {
      members.add(member(family, p));
    }
    family
        .answer()
        .ifPresent(
            answer -> {
              for (FootstoneFinding finding : answer.findings()) {
                Marker footstone = family.footstones().get(finding.stone());
                boolean settled =
                    family.plot().confirmed().stream()
                        .anyMatch(tie -> tie.stone() == finding.stone());
                if (!settled) {
                  String words =
                      "Whose is footstone "
                          + footstone.number()
                          + ", "
                          + family.plot().stones().get(finding.stone()).shown()
                          + "? "
                          + finding
                              .best()
                              .map(best -> family.persons().get(best).called())
                              .orElse("Nobody who is named")
                          + ", "
                          + LinkRoutes.share(finding.probability())
                          + finding.look().map(look -> "; would tell: " + look.words()).orElse("");
                  open.add(new FamilyPage.To(words, LinkRoutes.address(footstone)));
                }
              }
            });
    return new FamilyPage.Whole(
        family.name(),
        family.isNamed(),
        family.stones().stream().map(FamilyRoutes::to).toList(),
        family.footstones().stream().map(FamilyRoutes::to).toList(),
        members,
        tree,
        edges,
        others,
        plan(family),
        family.reasons(),
        open);
  }

  private static FamilyPage.To to(Marker marker) {
    return new FamilyPage.To(marker.number(), "/markers/" + marker.id());
  }

  private static FamilyPage.Edge edge(FamilyGroup.Tie tie, String d, double x, double y) {
    return new FamilyPage.Edge(
        d,
        x,
        y,
        tie.relation().replaceFirst("^children$", "child").replaceFirst("(son|daughter)s$", "$1"),
        tie.who().called()
            + ": "
            + tie.relation()
            + " of "
            + tie.to().map(Person::called).orElse(tie.name().replace('|', ' ').strip())
            + ", “"
            + tie.words()
            + "”, "
            + tie.mention().label(),
        StatementRoutes.address(tie.mention().source().face().id(), tie.statement()));
  }

  private static FamilyPage.Member member(FamilyGroup family, int p) {
    Person person = family.persons().get(p);
    Optional<FootstoneFinding> finding =
        family.answer().stream()
            .flatMap(answer -> answer.findings().stream())
            .filter(one -> one.best().filter(best -> best == p).isPresent())
            .findFirst();
    boolean elsewhere = family.plot().persons().get(p).lies() == Lies.ELSEWHERE;
    List<String> lies = new ArrayList<>();
    List<String> mark = new ArrayList<>();
    if (elsewhere) {
      lies.add("lies elsewhere, as the stone says");
      mark.add("lies elsewhere");
    }
    family.plot().persons().get(p).named().stream()
        .filter(named -> named.own())
        .forEach(
            named -> {
              lies.add("a stone of one’s own, " + named.marker());
              mark.add("stone " + named.marker());
            });
    finding.ifPresent(
        one -> {
          boolean confirmed =
              family.plot().confirmed().contains(new FamilyPlot.Tie(one.stone(), p));
          lies.add(
              "footstone "
                  + family.footstones().get(one.stone()).number()
                  + (confirmed
                      ? ", confirmed"
                      : ", proposed, " + LinkRoutes.share(one.probability())));
          mark.add(
              "footstone "
                  + family.footstones().get(one.stone()).number()
                  + (confirmed ? "" : "? " + LinkRoutes.share(one.probability())));
        });
    if (lies.isEmpty()) {
      lies.add(person.isCommemorated() ? "no stone of one’s own is known" : "named as kin only");
    }
    return new FamilyPage.Member(
        person.called(),
        PersonRoutes.address(person),
        Lives.of(person),
        years(person),
        String.join("; ", lies),
        mark.stream().findFirst().orElse(""),
        elsewhere,
        finding.map(one -> LinkRoutes.address(family.footstones().get(one.stone()))).orElse(""));
  }

  private static String years(Person person) {
    String born = year(person, Kind.BIRTH);
    String died = year(person, Kind.DEATH);
    return born.isEmpty() && died.isEmpty() ? "" : born + "–" + died;
  }

  private static String year(Person person, Kind kind) {
    return person.values(kind).stream()
        .filter(value -> value.matches("[0-9]{4}.*") && !value.contains("/"))
        .map(value -> (person.isWorkedOut(kind) ? "about " : "") + value.substring(0, 4))
        .findFirst()
        .orElse("");
  }

  private Optional<FamilyPage.SmallPlan> plan(FamilyGroup family) {
    GroundPlan plan = concluding.now().plan();
    Map<Marker, GroundPlan.Placed> placed = new LinkedHashMap<>();
    for (GroundPlan.Placed one : plan.markers()) {
      if (family.holds(one.marker())) {
        placed.put(one.marker(), one);
      }
    }
    if (placed.size() < 2) {
      return Optional.empty();
    }
    double west = placed.values().stream().mapToDouble(p -> p.at().eastMetres()).min().orElse(0);
    double east = placed.values().stream().mapToDouble(p -> p.at().eastMetres()).max().orElse(0);
    double south = placed.values().stream().mapToDouble(p -> p.at().northMetres()).min().orElse(0);
    double north = placed.values().stream().mapToDouble(p -> p.at().northMetres()).max().orElse(0);
    double scale =
        Math.min(
            MOST_PX_A_METRE,
            (PLAN_PX - 2 * MARGIN_PX) / Math.max(0.1, Math.max(east - west, north - south)));
    Map<Marker, double[]> at = new LinkedHashMap<>();
    placed.forEach(
        (marker, one) ->
            at.put(
                marker,
                new double[] {
                  MARGIN_PX + (one.at().eastMetres() - west) * scale,
                  MARGIN_PX + (north - one.at().northMetres()) * scale
                }));
    List<FamilyPage.SmallPlan.Spot> spots = new ArrayList<>();
    at.forEach(
        (marker, xy) ->
            spots.add(
                new FamilyPage.SmallPlan.Spot(
                    xy[0],
                    xy[1],
                    family.footstones().contains(marker),
                    marker.number(),
                    "/markers/" + marker.id())));
    List<FamilyPage.SmallPlan.Line> lines = new ArrayList<>();
    for (GroundPlan.Tie tie : plan.ties()) {
      double[] from = at.get(tie.from());
      double[] to = at.get(tie.to());
      if (from != null && to != null) {
        lines.add(new FamilyPage.SmallPlan.Line(from[0], from[1], to[0], to[1], tie.isConfirmed()));
      }
    }
    double bar = scale * 2 > PLAN_PX / 3 ? 1 : scale * 5 > PLAN_PX / 3 ? 2 : 5;
    return Optional.of(
        new FamilyPage.SmallPlan(
            (int) Math.max(220, (east - west) * scale + 2 * MARGIN_PX + 40),
            (int) ((north - south) * scale + 2 * MARGIN_PX + 30),
            spots,
            lines,
            bar * scale,
            String.format(Locale.ROOT, "%.0f m", bar)));
  }

  private List<Act> acts(Marker marker, NamedReader by) {
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    Set<Long> counters = new TreeSet<>();
    List<Act> acts = new ArrayList<>();
    for (Marker of :
        concluding.now().plan().family(marker).map(FamilyRoutes::all).orElse(List.of(marker))) {
      for (Decision decision : archive.journal().bySubject(of.id().value())) {
        if (decision.kind().startsWith("family.") && counters.add(decision.counter())) {
          acts.add(0, Act.of(decision, words(of, decision), undone, by, address(marker)));
        }
      }
    }
    return acts;
  }

  private static List<Marker> all(FamilyGroup family) {
    List<Marker> all = new ArrayList<>(family.stones());
    all.addAll(family.footstones());
    return all;
  }

  private String words(Marker of, Decision decision) {
    return switch (decision.kind()) {
      case "family.together" ->
          "said that marker " + of.number() + " is of one family with another";
      case "family.apart" ->
          "said that marker " + of.number() + " isn’t of one family with another";
      default -> "named the family “" + decision.payload().path("name").asText("") + "”";
    };
  }

  private void say(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    Marker marker = requests.marker(context);
    String other = form.getOrDefault("other", "").strip();
    try {
      switch (form.getOrDefault("do", "")) {
        case "name" -> store.call(marker.number(), Requests.words(form, "name"), by.name());
        case "join" -> store.join(marker.number(), other, by.name());
        case "split" -> store.part(marker.number(), other, by.name());
        default -> throw Refusal.malformed("This form can't be read.");
      }
      context.redirect(address(marker));
    } catch (ArchiveException e) {
      context.status(422);
      family(context, String.valueOf(e.getMessage()));
    }
  }
}
