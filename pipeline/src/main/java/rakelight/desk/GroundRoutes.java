package rakelight.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.inscription.ReadingStore;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.MarkerStore;
import rakelight.work.FaceState;
import rakelight.work.NamedReader;
import rakelight.work.Queue;

/** The whole ground: its page, how far it is, and who is at the desk. */
final class GroundRoutes {
  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Queue queue;
  private final MarkerStore markers;
  private final ReadingStore readings;
  private final ConditionStore conditions;

  GroundRoutes(Archive archive, Requests requests, Pages pages, Queue queue) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.queue = queue;
    this.markers = new MarkerStore(archive);
    this.readings = new ReadingStore(archive);
    this.conditions = new ConditionStore(archive);
  }

  void addTo(Javalin server) {
    server.get("/", this::groundPage);
    server.get("/api/whoami", this::whoAmI);
    server.get("/api/ground", this::ground);
  }

  private void groundPage(Context context) {
    requests.by(context);
    List<Queue.Item> items = queue.all();
    Map<FaceState, Integer> counts = Queue.progress(items);
    Map<MarkerId, ConditionNote> noted = conditions.newest();
    Map<MarkerId, List<GroundPage.FaceLine>> byMarker = new HashMap<>();
    for (Queue.Item item : items) {
      byMarker
          .computeIfAbsent(item.marker().id(), id -> new ArrayList<>())
          .add(
              new GroundPage.FaceLine(
                  item.face().id().toString(),
                  item.face().name(),
                  item.state().label(),
                  FaceViews.words(item.state())));
    }
    pages.show(
        context,
        "ground",
        Map.of(
            "ground",
            new GroundPage(
                items.size(),
                counts.getOrDefault(FaceState.SETTLED, 0),
                counts.entrySet().stream()
                    .map(one -> new GroundPage.Count(FaceViews.words(one.getKey()), one.getValue()))
                    .toList(),
                markers.markers().stream()
                    .map(
                        row ->
                            new GroundPage.MarkerLine(
                                row.id().toString(),
                                row.number(),
                                Optional.ofNullable(noted.get(row.id()))
                                    .map(ConditionNote::unsafe)
                                    .orElse(""),
                                byMarker.getOrDefault(row.id(), List.of())))
                    .toList())));
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
