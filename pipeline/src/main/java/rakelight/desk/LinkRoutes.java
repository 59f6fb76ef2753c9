package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.ground.FamilyGroup;
import rakelight.ground.FamilyPlot;
import rakelight.ground.FootstoneFinding;
import rakelight.ground.FootstoneModel;
import rakelight.ground.Link;
import rakelight.ground.LinkProposals;
import rakelight.ground.LinkProposals.Proposed;
import rakelight.ground.LinkStore;
import rakelight.inscription.Leiden;
import rakelight.marker.Marker;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Person;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.work.NamedReader;
import rakelight.work.Undoing;

/** Whose footstones: what is proposed is worked through, one after the other, by those who may. */
final class LinkRoutes {
  private static final String LINKS = "/links";

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Concluding concluding;
  private final LinkStore store;
  private final PhotoStore photographs;

  LinkRoutes(Archive archive, Requests requests, Pages pages, Concluding concluding) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.concluding = concluding;
    this.store = new LinkStore(archive);
    this.photographs = new PhotoStore(archive);
  }

  void addTo(Javalin server) {
    server.get(LINKS, this::list);
    server.get(LINKS + "/{marker}", context -> one(context, ""));
    server.post(LINKS + "/{marker}", this::decide);
  }

  /** The page where it is settled whose a footstone is. */
  static String address(Marker footstone) {
    return LINKS + "/" + footstone.id();
  }

  private List<Proposed> proposed() {
    List<Proposed> all = new ArrayList<>(LinkProposals.of(concluding.now().plan().families()));
    all.sort(
        Comparator.comparing((Proposed one) -> one.person().isEmpty())
            .thenComparing(Comparator.comparingDouble(Proposed::probability).reversed()));
    return all;
  }

  private void list(Context context) {
    requests.deciding(context);
    pages.show(
        context,
        "links",
        Map.of(
            "links",
            new LinksPage(
                Paged.of(
                        proposed(),
                        Paged.page(Optional.ofNullable(context.queryParam("page"))),
                        Listing.ROWS_ON_PAGE,
                        LINKS,
                        Map.of())
                    .map(LinkRoutes::row))));
  }

  private static LinksPage.Row row(Proposed one) {
    return new LinksPage.Row(
        one.footstone().number(),
        address(one.footstone()),
        one.family().plot().stones().get(one.finding().stone()).shown(),
        one.person().map(LinkRoutes::who).orElse("nobody who is named"),
        share(one.probability()),
        one.runnerUp().map(LinkRoutes::who).orElse("nobody who is named")
            + ", "
            + share(one.runnerUpProbability()),
        family(one.family()));
  }

  private static FamilyPage.To family(FamilyGroup family) {
    return new FamilyPage.To(family.name(), FamilyRoutes.address(family.stones().get(0)));
  }

  private static String who(Person person) {
    return person.called() + " (" + LinkProposals.label(person).orElse("") + ")";
  }

  /** Nothing that is reckoned is certain, nor ruled out. */
  static String share(double probability) {
    return probability >= 0.995
        ? "over 0.99"
        : probability < 0.005 ? "under 0.01" : String.format(Locale.ROOT, "%.2f", probability);
  }

  // One footstone

  private void one(Context context, String message) {
    NamedReader by = requests.deciding(context);
    Marker footstone = requests.marker(context);
    FamilyGroup family =
        concluding.now().plan().families().stream()
            .filter(one -> one.footstones().contains(footstone) && one.answer().isPresent())
            .findFirst()
            .orElseThrow(() -> Refusal.notFound("footstone near a family"));
    int stone = family.footstones().indexOf(footstone);
    FootstoneModel.Answer answer = family.answer().orElseThrow();
    FootstoneFinding finding =
        answer.findings().stream().filter(f -> f.stone() == stone).findFirst().orElseThrow();
    boolean confirmed = family.plot().confirmed().stream().anyMatch(tie -> tie.stone() == stone);
    Optional<Person> person = finding.best().map(family.persons()::get);
    List<Proposed> open = proposed();
    Optional<Decision> did =
        Optional.of(Requests.asked(context, "did"))
            .flatMap(this::decision)
            .filter(decision -> Undoing.isTheirs(decision, by))
            .filter(decision -> archive.journal().stands(decision.id()));
    pages.show(
        context,
        "link",
        Map.of(
            "link",
            new LinkPage(
                family(family),
                side(footstone),
                family.plot().stones().get(stone).shown(),
                person.flatMap(Person::fullest).map(m -> side(m.source().marker())),
                person.map(Person::called).orElse("Nobody who is named"),
                confirmed ? "" : person.flatMap(LinkProposals::label).orElse(""),
                confirmed
                    ? "Confirmed: it is theirs."
                    : "Proposed, " + share(finding.probability()),
                confirmed
                    ? ""
                    : finding
                            .runnerUp()
                            .map(family.persons()::get)
                            .map(LinkRoutes::who)
                            .orElse("nobody who is named")
                        + ", "
                        + share(finding.runnerUpProbability()),
                finding.reasons().stream()
                    .map(
                        reason ->
                            new LinkPage.Reason(
                                reason.words(),
                                String.format(Locale.ROOT, "%+.0f", reason.decibans())
                                    .replace("-", "−")))
                    .toList(),
                answer.isExact(),
                !confirmed && person.isPresent() && finding.wornAlone(),
                finding.look().map(FootstoneFinding.Look::words).orElse(""),
                confirmed ? List.of() : others(family, finding),
                message,
                did.map(this::said).orElse(""),
                did.map(decision -> decision.id().toString()).orElse(""),
                did.map(this::changes).orElse(List.of()),
                next(open, family, footstone).map(LinkRoutes::address).orElse(""),
                open.size(),
                acts(footstone, by))));
  }

  private static List<LinkPage.Other> others(FamilyGroup family, FootstoneFinding finding) {
    return IntStream.range(0, family.persons().size())
        .boxed()
        .sorted(Comparator.comparingDouble(p -> -finding.probabilities().get(p)))
        .filter(p -> LinkProposals.label(family.persons().get(p)).isPresent())
        .map(
            p ->
                new LinkPage.Other(
                    LinkProposals.label(family.persons().get(p)).orElse(""),
                    family.persons().get(p).called(),
                    share(finding.probabilities().get(p))))
        .toList();
  }

  private LinkPage.Side side(Marker marker) {
    List<String> lines = new ArrayList<>();
    for (FaceStatements face : concluding.now().faces(true)) {
      if (face.marker().equals(marker)) {
        lines.addAll(Leiden.printLines(face.inscription()));
      }
    }
    String picture =
        photographs.faces(marker.id()).stream()
            .map(Face::id)
            .flatMap(face -> photographs.ofFace(face).stream())
            .findFirst()
            .map(one -> "/images/photographs/" + one.id() + "?longest=800")
            .orElse("");
    String about =
        concluding
            .now()
            .plan()
            .placed(marker)
            .map(
                placed ->
                    (PlanRoutes.where(placed.row(), placed.plots())
                            + "; "
                            + PlanRoutes.evidence(placed.position()))
                        .replaceFirst("^; ", ""))
            .orElse("nobody knows where it stands");
    return new LinkPage.Side(marker.id().toString(), marker.number(), picture, lines, about);
  }

  /** The next of the same family, since these move with what is decided; else the next of all. */
  private static Optional<Marker> next(List<Proposed> open, FamilyGroup family, Marker after) {
    List<Marker> others =
        open.stream().map(Proposed::footstone).filter(one -> !one.equals(after)).toList();
    int at = open.stream().map(Proposed::footstone).toList().indexOf(after);
    return others.stream()
        .skip(Math.max(0, at))
        .filter(family.footstones()::contains)
        .findFirst()
        .or(() -> others.stream().skip(Math.max(0, at)).findFirst())
        .or(() -> others.stream().findFirst());
  }

  // What a decision did

  private Optional<Decision> decision(String id) {
    try {
      return archive
          .journal()
          .find(DecisionId.of(id))
          .filter(decision -> decision.kind().startsWith("link."));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private String said(Decision decision) {
    String number =
        concluding.now().plan().families().stream()
            .flatMap(family -> family.footstones().stream())
            .filter(marker -> marker.id().value().equals(decision.subject()))
            .map(Marker::number)
            .findFirst()
            .orElse("");
    return "Footstone " + number + " " + words(decision) + ".";
  }

  private static String words(Decision decision) {
    String whom = decision.payload().path("toWords").asText("somebody");
    return decision.kind().equals("link.refused") ? "isn’t of " + whom : "is of " + whom;
  }

  /**
   * How the other footstones of the family stood without a decision, and how they stand with it:
   * those whose person changed, or how likely he is by a hundredth.
   */
  private List<LinkPage.Change> changes(Decision decision) {
    for (FamilyGroup family : concluding.now().plan().families()) {
      for (int s = 0; s < family.footstones().size(); s++) {
        if (family.footstones().get(s).id().value().equals(decision.subject())
            && family.answer().isPresent()) {
          return changes(family, s, decision);
        }
      }
    }
    return List.of();
  }

  private List<LinkPage.Change> changes(FamilyGroup family, int stone, Decision decision) {
    Set<FamilyPlot.Tie> confirmed = new HashSet<>(family.plot().confirmed());
    Set<FamilyPlot.Tie> refused = new HashSet<>(family.plot().refused());
    if (decision.kind().equals("link.refused")) {
      Optional<LinkStore.Refusal> refusal =
          store.refusals().stream().filter(r -> r.decision().equals(decision.id())).findFirst();
      refused.removeIf(
          tie ->
              tie.stone() == stone
                  && refusal
                      .filter(
                          r ->
                              family.persons().get(tie.person()).mentions().stream()
                                  .anyMatch(m -> m.id().equals(r.toPerson())))
                      .isPresent());
    } else {
      confirmed.removeIf(tie -> tie.stone() == stone);
    }
    FamilyPlot plot = family.plot();
    FootstoneModel.Answer before =
        FootstoneModel.solve(
            new FamilyPlot(plot.persons(), plot.stones(), plot.frontDegrees(), confirmed, refused));
    List<LinkPage.Change> changes = new ArrayList<>();
    for (FootstoneFinding now : family.answer().orElseThrow().findings()) {
      FootstoneFinding then =
          before.findings().stream().filter(f -> f.stone() == now.stone()).findFirst().orElse(now);
      boolean moved =
          !now.best().equals(then.best())
              || Math.abs(now.probability() - then.probability()) >= 0.01;
      if (now.stone() != stone && moved) {
        Marker footstone = family.footstones().get(now.stone());
        changes.add(
            new LinkPage.Change(
                footstone.number(), address(footstone), told(family, then), told(family, now)));
      }
    }
    return changes;
  }

  private static String told(FamilyGroup family, FootstoneFinding finding) {
    return finding.best().map(best -> family.persons().get(best).called()).orElse("nobody named")
        + ", "
        + share(finding.probability());
  }

  private List<Act> acts(Marker footstone, NamedReader by) {
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    List<Act> acts = new ArrayList<>();
    for (Decision decision : archive.journal().bySubject(footstone.id().value())) {
      if (decision.kind().startsWith("link.")) {
        acts.add(
            0, Act.of(decision, "said that it " + words(decision), undone, by, address(footstone)));
      }
    }
    return acts;
  }

  private void decide(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    Marker footstone = requests.marker(context);
    String mention = form.getOrDefault("mention", "");
    String note = Requests.words(form, "note");
    List<Proposed> open = proposed();
    Proposed proposed =
        open.stream()
            .filter(one -> one.footstone().equals(footstone))
            .findFirst()
            .orElseThrow(() -> Refusal.refused("Somebody has settled this footstone meanwhile."));
    DecisionId did;
    try {
      did =
          switch (form.getOrDefault("do", "")) {
            case "confirm" -> {
              if (!proposed.to().equals(Optional.of(mention))) {
                throw new ArchiveException(
                    "Something else is proposed by now: another decision has moved it. Look again.");
              }
              yield LinkProposals.confirm(archive, proposed, note, by.name()).decision();
            }
            case "refuse" -> store.refuse(footstone.number(), mention, note, by.name()).decision();
            case "other" ->
                store
                    .confirm(
                        footstone.number(),
                        Link.Kind.BURIED_HERE,
                        form.getOrDefault("other", ""),
                        note,
                        by.name())
                    .decision();
            default -> throw Refusal.malformed("This form can't be read.");
          };
    } catch (ArchiveException e) {
      context.status(422);
      one(context, String.valueOf(e.getMessage()));
      return;
    }
    Marker to =
        form.getOrDefault("do", "").equals("refuse")
            ? footstone
            : next(open, proposed.family(), footstone).orElse(footstone);
    context.redirect(address(to) + "?did=" + did, HttpStatus.SEE_OTHER);
  }
}
