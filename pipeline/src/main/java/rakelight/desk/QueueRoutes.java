package rakelight.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.work.FaceState;
import rakelight.work.LeftFace;
import rakelight.work.NamedReader;
import rakelight.work.Queue;

/** What needs a person next. */
final class QueueRoutes {
  /** As many faces of the queue as one looks over. */
  private static final int NEXT_SHOWN = 20;

  private final Requests requests;
  private final Pages pages;
  private final Queue queue;

  QueueRoutes(Requests requests, Pages pages, Queue queue) {
    this.requests = requests;
    this.pages = pages;
    this.queue = queue;
  }

  void addTo(Javalin server) {
    server.get("/queue", this::queuePage);
    server.get("/api/next", this::next);
    server.get("/api/other-light", this::otherLight);
  }

  private void queuePage(Context context) {
    Session session = requests.session(context);
    NamedReader by = requests.by(context);
    Queue.Order order = order(context);
    List<Queue.Item> waiting = queue.waiting(by.name(), session.skipped(), order);
    List<Queue.Item> all = queue.all();
    List<QueuePage.Waiting> otherLight = new ArrayList<>();
    List<QueuePage.Waiting> unreadable = new ArrayList<>();
    List<QueuePage.Waiting> aside = new ArrayList<>();
    for (Queue.Item item : all) {
      boolean mine = item.left().filter(left -> left.reader().equals(by.name())).isPresent();
      if (item.state() == FaceState.OTHER_LIGHT) {
        otherLight.add(waiting(item, item.left().map(LeftFace::note).orElse("")));
      } else if (item.state() != FaceState.SETTLED && mine) {
        aside.add(waiting(item, "left for another reader"));
      } else if (session.skipped().contains(item.face().id())) {
        aside.add(waiting(item, "skipped for today"));
      } else if (item.isUnreadable()) {
        unreadable.add(waiting(item, queue.why(item, by)));
      }
    }
    pages.show(
        context,
        "queue",
        Map.of(
            "queue",
            new QueuePage(
                order.label(),
                waiting.size(),
                waiting.stream()
                    .limit(NEXT_SHOWN)
                    .map(item -> waiting(item, queue.why(item, by)))
                    .toList(),
                otherLight,
                unreadable,
                aside,
                all.size(),
                Queue.progress(all).getOrDefault(FaceState.SETTLED, 0))));
  }

  private static QueuePage.Waiting waiting(Queue.Item item, String why) {
    return new QueuePage.Waiting(
        item.face().id().toString(), item.marker().number(), item.face().name(), why);
  }

  private static Queue.Order order(Context context) {
    return Queue.Order.of(Optional.ofNullable(context.queryParam("by")).orElse("hardest"))
        .orElseThrow(() -> Refusal.malformed("“by” is hardest, names, marker or plot."));
  }

  private void next(Context context) {
    Session session = requests.session(context);
    NamedReader by = requests.by(context);
    Queue.Next next = queue.next(by.name(), session.skipped(), order(context));
    ObjectNode answer = Pages.object();
    next.item()
        .ifPresent(
            item ->
                answer
                    .put("face", item.face().id().toString())
                    .put("marker", item.marker().number())
                    .put("name", item.face().name())
                    .put("task", item.state() == FaceState.TO_SETTLE ? "settle" : "read")
                    .put("why", queue.why(item, by)));
    Pages.json(context, answer.put("left", next.left()));
  }

  private void otherLight(Context context) {
    requests.by(context);
    ObjectNode answer = Pages.object();
    ArrayNode list = answer.putArray("faces");
    for (Queue.Item item : queue.all()) {
      if (item.state() == FaceState.OTHER_LIGHT && item.left().isPresent()) {
        list.addObject()
            .put("face", item.face().id().toString())
            .put("marker", item.marker().number())
            .put("name", item.face().name())
            .put("note", item.left().get().note())
            .put("reader", item.left().get().reader())
            .put("at", item.left().get().at().toString());
      }
    }
    Pages.json(context, answer);
  }
}
