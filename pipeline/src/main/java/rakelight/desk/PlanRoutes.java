package rakelight.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.ground.FamilyGroup;
import rakelight.ground.GroundPlan;
import rakelight.ground.GroundPlan.Placed;
import rakelight.ground.MarkerPosition;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.ground.Spot;
import rakelight.marker.Marker;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.work.FaceState;
import rakelight.work.NamedReader;
import rakelight.work.Queue;
import rakelight.work.Undoing;

/**
 * The plan of the ground: its page, what its script draws from, and where somebody drew a marker. A
 * guest sees where markers stand, and nothing that a machine takes them to be.
 */
final class PlanRoutes {
  private static final String PLAN = "/plan";
  private static final int ROWS_ON_PAGE = 25;

  /** A ground is smaller, and whoever draws sees no less than this; choices. */
  private static final double FARTHEST_METRES = 20_000;

  private static final double LEAST_ERROR_METRES = 0.02;
  private static final double MOST_ERROR_METRES = 100;
  private static final int LONGEST_FOUND = 100;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Concluding concluding;
  private final Queue queue;
  private final PositionStore positions;
  private final PhotoStore photographs;

  PlanRoutes(Archive archive, Requests requests, Pages pages, Concluding concluding, Queue queue) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.concluding = concluding;
    this.queue = queue;
    this.positions = new PositionStore(archive);
    this.photographs = new PhotoStore(archive);
  }

  void addTo(Javalin server) {
    server.get(PLAN, this::page);
    server.get("/api/plan", this::whole);
    server.get("/api/plan/families", this::families);
    server.get("/api/markers/{marker}/place", this::place);
    server.post("/api/markers/{marker}/place", this::draw);
  }

  private void page(Context context) {
    NamedReader by = requests.by(context);
    boolean all = by.role().mayDecide();
    String find = Requests.asked(context, "find");
    if (find.length() > LONGEST_FOUND) {
      throw Refusal.malformed("“find” has " + LONGEST_FOUND + " signs at most.");
    }
    GroundPlan plan = concluding.now().places();
    Map<MarkerId, FaceState> states = states();
    Map<Marker, FaceState> ofMarker = new HashMap<>();
    queue
        .markers()
        .forEach(
            marker ->
                ofMarker.put(marker, states.getOrDefault(marker.id(), FaceState.NO_PHOTOGRAPH)));
    Optional<Decision> did =
        Optional.of(Requests.asked(context, "did"))
            .flatMap(this::decision)
            .filter(decision -> Undoing.isTheirs(decision, by))
            .filter(decision -> archive.journal().stands(decision.id()));
    pages.show(
        context,
        "plan",
        Map.of(
            "plan",
            new PlanPage(
                plan.markers().isEmpty()
                    ? Optional.empty()
                    : Optional.of(PlanDrawing.of(plan, ofMarker)),
                Paged.of(
                        found(plan, find),
                        Paged.page(Optional.ofNullable(context.queryParam("page"))),
                        ROWS_ON_PAGE,
                        PLAN,
                        Map.of("find", find))
                    .map(one -> row(one, states)),
                find,
                Requests.asked(context, "chosen"),
                all ? plan.unplaced().stream().map(Marker::number).toList() : List.of(),
                did.map(decision -> kept(plan, decision)).orElse(""),
                did.map(decision -> decision.id().toString()).orElse(""),
                all)));
  }

  private Optional<Decision> decision(String id) {
    try {
      return archive
          .journal()
          .find(DecisionId.of(id))
          .filter(decision -> decision.kind().equals("position.noted"));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private static String kept(GroundPlan plan, Decision decision) {
    Optional<Placed> placed =
        plan.markers().stream()
            .filter(one -> one.marker().id().value().equals(decision.subject()))
            .findFirst();
    String number = placed.map(one -> one.marker().number()).orElse("?");
    boolean stands =
        placed.flatMap(one -> one.position().decision()).filter(decision.id()::equals).isPresent();
    return "Kept where marker "
        + number
        + " stands."
        + (stands
            ? ""
            : " Better evidence stands before it: "
                + placed.map(one -> evidence(one.position())).orElse("")
                + ".");
  }

  private Map<MarkerId, FaceState> states() {
    Map<MarkerId, FaceState> states = new HashMap<>();
    for (Queue.Item item : queue.all()) {
      states.merge(item.marker().id(), item.state(), (a, b) -> a.compareTo(b) <= 0 ? a : b);
    }
    return states;
  }

  /** A marker, with its place if that is known. */
  private record Found(Marker marker, Optional<Placed> placed) {}

  /** The markers whose number, row, plot or kind holds some words. */
  private static List<Found> found(GroundPlan plan, String find) {
    String wanted = find.toLowerCase(Locale.ROOT);
    List<Found> found = new ArrayList<>();
    plan.markers().forEach(one -> found.add(new Found(one.marker(), Optional.of(one))));
    plan.unplaced().forEach(one -> found.add(new Found(one, Optional.empty())));
    found.removeIf(one -> !wanted.isEmpty() && !isMeant(one, wanted));
    return found;
  }

  private static boolean isMeant(Found one, String wanted) {
    String words =
        one.marker().number()
            + one.placed()
                .map(at -> " " + where(at.row(), at.plots()) + " " + at.kind().label())
                .orElse("");
    return words.toLowerCase(Locale.ROOT).contains(wanted);
  }

  private static PlanPage.Row row(Found one, Map<MarkerId, FaceState> states) {
    return new PlanPage.Row(
        one.marker().id().toString(),
        one.marker().number(),
        one.placed().map(at -> at.kind().label()).orElse(""),
        words(states, one.marker()),
        one.placed().map(at -> where(at.row(), at.plots())).orElse(""),
        one.placed().map(at -> evidence(at.position())).orElse("nobody knows where it stands"));
  }

  private static String words(Map<MarkerId, FaceState> states, Marker marker) {
    return FaceViews.words(states.getOrDefault(marker.id(), FaceState.NO_PHOTOGRAPH));
  }

  /** Row and plot in words; empty where it is in neither. */
  static String where(Optional<RowPlace> row, List<String> plots) {
    List<String> where = new ArrayList<>();
    row.ifPresent(in -> where.add("row " + in.row() + ", place " + in.place()));
    plots.forEach(plot -> where.add("plot " + plot));
    return String.join("; ", where);
  }

  /** What a position rests on, in words. */
  static String evidence(MarkerPosition position) {
    return String.format(
        Locale.ROOT,
        "by %s, give or take %.1f m%s",
        position.basis().label(),
        Math.max(0.1, position.errorMetres()),
        position.words().isEmpty() ? "" : " (" + position.words() + ")");
  }

  // What the script draws from

  private void whole(Context context) {
    boolean all = requests.by(context).role().mayDecide();
    GroundPlan plan = concluding.now().places();
    Map<MarkerId, FaceState> states = states();
    ObjectNode answer = Pages.object().put("ground", plan.ground()).put("mayDecide", all);
    Map<String, Integer> rows = new LinkedHashMap<>();
    ArrayNode rowNames = answer.putArray("rows");
    plan.rows()
        .keySet()
        .forEach(
            name -> {
              rows.put(name, rows.size());
              rowNames.add(name);
            });
    ArrayNode markers = answer.putArray("markers");
    for (Placed placed : plan.markers()) {
      markers
          .addArray()
          .add(placed.marker().id().toString())
          .add(placed.marker().number())
          .add(round(placed.at().eastMetres()))
          .add(round(placed.at().northMetres()))
          .add(placed.kind().ordinal())
          .add(states.getOrDefault(placed.marker().id(), FaceState.NO_PHOTOGRAPH).label())
          .add(placed.row().map(in -> rows.getOrDefault(in.row(), -1)).orElse(-1))
          .add(placed.row().map(RowPlace::place).orElse(0))
          .add(round(placed.position().errorMetres()));
    }
    ObjectNode kinds = answer.putObject("words");
    Arrays.stream(GroundPlan.Kind.values())
        .forEach(kind -> kinds.withArray("kinds").add(kind.label()));
    Arrays.stream(FaceState.values())
        .forEach(state -> kinds.withObject("states").put(state.label(), FaceViews.words(state)));
    ArrayNode plots = answer.putArray("plots");
    plan.plots()
        .forEach(
            plot -> {
              ArrayNode ring = plots.addObject().put("name", plot.name()).putArray("ring");
              plot.boundary()
                  .forEach(
                      corner -> {
                        Spot at = plan.plane().spot(corner.get(1), corner.get(0));
                        ring.addArray().add(round(at.eastMetres())).add(round(at.northMetres()));
                      });
            });
    ArrayNode unplaced = answer.putArray("unplaced");
    if (all) {
      plan.unplaced()
          .forEach(
              marker ->
                  unplaced
                      .addObject()
                      .put("id", marker.id().toString())
                      .put("number", marker.number()));
    }
    Pages.json(context, answer);
  }

  /** Families and the ties of footstones, which the script asks for when it has drawn the rest. */
  private void families(Context context) {
    requests.deciding(context);
    GroundPlan plan = concluding.now().plan();
    ObjectNode answer = Pages.object();
    ArrayNode named = answer.putArray("families");
    for (FamilyGroup family : plan.families()) {
      ArrayNode members = named.addObject().put("name", family.name()).putArray("members");
      family.stones().forEach(marker -> members.add(marker.id().toString()));
      family.footstones().forEach(marker -> members.add(marker.id().toString()));
    }
    ArrayNode ties = answer.putArray("ties");
    for (GroundPlan.Tie tie : plan.ties()) {
      ties.addArray()
          .add(tie.from().id().toString())
          .add(tie.to().id().toString())
          .add(tie.isConfirmed())
          .add(round(tie.probability()))
          .add(tie.called());
    }
    Pages.json(context, answer);
  }

  private static double round(double value) {
    return Math.round(value * 100) / 100.0;
  }

  /** What is known of where one marker stands, and where its photographs were taken. */
  private void place(Context context) {
    requests.by(context);
    Marker marker = requests.marker(context);
    ObjectNode answer = Pages.object().put("number", marker.number());
    ArrayNode evidence = answer.putArray("evidence");
    positions.evidence(marker.id()).forEach(one -> evidence.add(evidence(one)));
    ArrayNode shots = answer.putArray("shots");
    for (Face face : photographs.faces(marker.id())) {
      face.bearingDegrees()
          .ifPresent(
              bearing ->
                  answer
                      .withArray("faces")
                      .addObject()
                      .put("name", face.name())
                      .put("bearing", bearing));
      for (Photograph photograph : photographs.ofFace(face.id())) {
        if (photograph.position().isPresent() || photograph.direction().isPresent()) {
          ObjectNode shot = shots.addObject().put("name", photograph.originalName());
          photograph
              .position()
              .ifPresent(
                  at -> {
                    Spot spot = positions.plane().spot(at.latitudeDegrees(), at.longitudeDegrees());
                    shot.put("east", round(spot.eastMetres()))
                        .put("north", round(spot.northMetres()));
                  });
          photograph.direction().ifPresent(look -> shot.put("bearing", look.degrees()));
        }
      }
    }
    Pages.json(context, answer);
  }

  /** Somebody drew where a marker stands. */
  private void draw(Context context) {
    String body = requests.changing(context);
    NamedReader by = requests.deciding(context);
    Marker marker = requests.marker(context);
    JsonNode drawn;
    try {
      drawn = Json.read(body, JsonNode.class);
    } catch (IllegalArgumentException e) {
      throw Refusal.malformed("This can't be read.");
    }
    double east = number(drawn, "east", -FARTHEST_METRES, FARTHEST_METRES);
    double north = number(drawn, "north", -FARTHEST_METRES, FARTHEST_METRES);
    double error = number(drawn, "errorMetres", LEAST_ERROR_METRES, MOST_ERROR_METRES);
    String row = drawn.path("row").asText("").strip();
    if (row.length() > LONGEST_FOUND) {
      throw Refusal.malformed("A row has " + LONGEST_FOUND + " signs at most.");
    }
    Spot spot = new Spot(east, north);
    DecisionId decision;
    try {
      decision =
          positions.note(
              new MarkerPosition(
                  marker.id(),
                  positions.plane().latitude(spot),
                  positions.plane().longitude(spot),
                  error,
                  MarkerPosition.Basis.PLAN,
                  "drawn on the plan" + (row.isEmpty() ? "" : ", in line with row " + row),
                  Optional.empty(),
                  Optional.empty()),
              by.name());
    } catch (IllegalArgumentException e) {
      throw Refusal.malformed(String.valueOf(e.getMessage()));
    } catch (ArchiveException e) {
      throw Refusal.refused(String.valueOf(e.getMessage()));
    }
    Pages.json(context, Pages.object().put("decision", decision.toString()));
  }

  private static double number(JsonNode of, String field, double least, double most) {
    JsonNode value = of.path(field);
    if (!value.isNumber() || !(value.asDouble() >= least) || !(value.asDouble() <= most)) {
      throw Refusal.malformed(
          String.format(
              Locale.ROOT, "“%s” is a number from %s to %s, in metres.", field, least, most));
    }
    return value.asDouble();
  }
}
