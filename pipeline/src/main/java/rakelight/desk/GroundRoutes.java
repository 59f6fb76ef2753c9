package rakelight.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.inscription.ReadingStore;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.work.FaceState;
import rakelight.work.NamedReader;
import rakelight.work.Queue;
import rakelight.work.Role;

/** The whole ground: its page, how far it is, and who is at the desk. */
final class GroundRoutes {
  /** Some fifteen rows on a wide window; common practice, no source. */
  private static final int STONES_ON_PAGE = 120;

  private static final int LONGEST_FOUND = 100;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Queue queue;
  private final SearchRoutes search;
  private final ReadingStore readings;
  private final ConditionStore conditions;

  GroundRoutes(Archive archive, Requests requests, Pages pages, Queue queue, SearchRoutes search) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.queue = queue;
    this.search = search;
    this.readings = new ReadingStore(archive);
    this.conditions = new ConditionStore(archive);
  }

  void addTo(Javalin server) {
    server.get("/", this::frontPage);
    server.get("/ground", this::groundPage);
    server.get("/api/whoami", this::whoAmI);
    server.get("/api/ground", this::ground);
  }

  /** A guest comes to find somebody, others to read. */
  private void frontPage(Context context) {
    if (requests.by(context).role() == Role.GUEST) {
      search.page(context);
    } else {
      groundPage(context);
    }
  }

  private void groundPage(Context context) {
    NamedReader by = requests.by(context);
    List<Queue.Item> items = queue.all();
    Map<MarkerId, List<Queue.Item>> faces =
        items.stream().collect(Collectors.groupingBy(item -> item.marker().id()));
    Map<MarkerId, ConditionNote> noted = conditions.newest();
    GroundPage.Show show = show(given(context, "show"));
    String plot = given(context, "plot");
    String find = given(context, "find").strip();
    List<Marker> all = queue.markers();
    List<Marker> found =
        all.stream()
            .filter(marker -> plot.isEmpty() || Queue.plot(marker.number()).equals(plot))
            .filter(marker -> isNamed(marker, find))
            .filter(
                marker ->
                    isShown(
                        show, faces.getOrDefault(marker.id(), List.of()), unsafe(noted, marker)))
            .toList();
    Paged<Marker> page =
        Paged.of(
            found,
            Paged.page(Optional.ofNullable(context.queryParam("page"))),
            STONES_ON_PAGE,
            context.path(),
            Map.of("show", given(context, "show"), "plot", plot, "find", find));
    Map<FaceState, Integer> counts = Queue.progress(items);
    pages.show(
        context,
        "ground",
        Map.of(
            "ground",
            new GroundPage(
                items.size(),
                counts.getOrDefault(FaceState.SETTLED, 0),
                counts.entrySet().stream()
                    .map(
                        one ->
                            new GroundPage.Count(
                                one.getKey().label(),
                                FaceViews.words(one.getKey()),
                                one.getValue()))
                    .toList(),
                all.size(),
                all.stream().map(marker -> Queue.plot(marker.number())).distinct().toList(),
                show,
                plot,
                find,
                page.map(
                    marker ->
                        stone(
                            marker,
                            faces.getOrDefault(marker.id(), List.of()),
                            unsafe(noted, marker),
                            by)),
                found.isEmpty() ? nothing(all, show, plot, find) : "")));
  }

  private static String given(Context context, String field) {
    String given = Optional.ofNullable(context.queryParam(field)).orElse("");
    if (given.length() > LONGEST_FOUND) {
      throw Refusal.malformed("“" + field + "” has " + LONGEST_FOUND + " signs at most.");
    }
    return given;
  }

  private static GroundPage.Show show(String label) {
    return Arrays.stream(GroundPage.Show.values())
        .filter(one -> one.label().equals(label))
        .findFirst()
        .orElse(GroundPage.Show.ALL);
  }

  /** Whether a marker's number, or one it had before, holds this. */
  private static boolean isNamed(Marker marker, String find) {
    String wanted = find.toLowerCase(Locale.ROOT);
    return Stream.concat(Stream.of(marker.number()), marker.earlierNumbers().stream())
        .anyMatch(number -> number.toLowerCase(Locale.ROOT).contains(wanted));
  }

  private static boolean isShown(GroundPage.Show show, List<Queue.Item> faces, String unsafe) {
    return switch (show) {
      case ALL -> true;
      case UNREAD -> faces.stream().anyMatch(face -> isUnread(face.state()));
      case DOUBTFUL ->
          faces.stream().anyMatch(face -> isUnread(face.state()) && face.asShown().letters() > 0);
      case DIFFER -> faces.stream().anyMatch(face -> face.state() == FaceState.TO_SETTLE);
      case OTHER_LIGHT ->
          faces.stream()
              .anyMatch(face -> face.state() == FaceState.OTHER_LIGHT || face.isUnreadable());
      case UNSAFE -> !unsafe.isEmpty();
      case READ ->
          !faces.isEmpty() && faces.stream().allMatch(face -> face.state() == FaceState.SETTLED);
    };
  }

  private static boolean isUnread(FaceState state) {
    return state == FaceState.OPEN || state == FaceState.BEGUN || state == FaceState.ONCE_READ;
  }

  private static String unsafe(Map<MarkerId, ConditionNote> noted, Marker marker) {
    return Optional.ofNullable(noted.get(marker.id())).map(ConditionNote::unsafe).orElse("");
  }

  private GroundPage.Stone stone(
      Marker marker, List<Queue.Item> faces, String unsafe, NamedReader by) {
    return new GroundPage.Stone(
        marker.id().toString(),
        marker.number(),
        Queue.plot(marker.number()),
        faces.stream()
            .map(Queue.Item::state)
            .min(Comparator.naturalOrder())
            .orElse(FaceState.NO_PHOTOGRAPH)
            .label(),
        unsafe,
        faces.stream()
            .map(
                face ->
                    new GroundPage.FaceLine(
                        face.face().id().toString(), face.face().name(), words(face, by)))
            .toList());
  }

  /** How far a face is, and what of it asks for a look. */
  private String words(Queue.Item face, NamedReader by) {
    String state = FaceViews.words(face.state());
    boolean mine = !face.readBy().contains(by.name());
    return switch (face.state()) {
      case OPEN, ONCE_READ, BEGUN -> mine ? state + "; " + queue.left(face, by) : state;
      case TO_SETTLE, OTHER_LIGHT, NO_PHOTOGRAPH, SETTLED -> state;
    };
  }

  /** Where nothing is found: what there is, and what to do. */
  private static String nothing(List<Marker> all, GroundPage.Show show, String plot, String find) {
    if (all.isEmpty()) {
      return "No marker is known here yet. The archivist brings photographs in with “ingest”.";
    }
    String where = plot.isEmpty() ? "" : " in plot " + plot;
    String among =
        show == GroundPage.Show.ALL ? "" : " among those that are “" + show.words() + "”";
    return (find.isEmpty()
            ? "No marker" + where + " is “" + show.words() + "”."
            : "No marker" + where + among + " has “" + find + "” in its number.")
        + (plot.isEmpty() && show == GroundPage.Show.ALL
            ? " Numbers go from "
                + all.get(0).number()
                + " to "
                + all.get(all.size() - 1).number()
                + "; a part of one will do, and one it had before."
            : " Look in the whole ground instead.");
  }

  private void whoAmI(Context context) {
    Session session = requests.session(context);
    NamedReader by = requests.by(context);
    Pages.json(
        context,
        Pages.object()
            .put("reader", by.name())
            .put("role", by.role().label())
            .put("ground", archive.ground().name())
            .put("token", session.token()));
  }

  private void ground(Context context) {
    requests.by(context);
    List<Queue.Item> items = queue.all();
    ObjectNode answer =
        Pages.object()
            .put("ground", archive.ground().name())
            .put("readingsRequired", readings.required());
    ObjectNode progress = answer.putObject("progress").put("faces", items.size());
    Map<FaceState, Integer> counts = Queue.progress(items);
    for (FaceState state : FaceState.values()) {
      progress.put(state.label(), counts.getOrDefault(state, 0));
    }
    ArrayNode markers = answer.putArray("markers");
    Map<MarkerId, ArrayNode> byMarker = new HashMap<>();
    for (Queue.Item item : items) {
      byMarker
          .computeIfAbsent(
              item.marker().id(),
              id ->
                  markers
                      .addObject()
                      .put("id", id.toString())
                      .put("number", item.marker().number())
                      .putArray("faces"))
          .addObject()
          .put("face", item.face().id().toString())
          .put("name", item.face().name())
          .put("state", item.state().label());
    }
    Pages.json(context, answer);
  }
}
