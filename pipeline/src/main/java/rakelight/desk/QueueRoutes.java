package rakelight.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import rakelight.archive.ApartStore;
import rakelight.archive.Archive;
import rakelight.work.FaceState;
import rakelight.work.LeftFace;
import rakelight.work.NamedReader;
import rakelight.work.Queue;
import rakelight.work.Role;

/** What needs a person next. */
final class QueueRoutes {
  /** As many faces of the queue as one looks over. */
  private static final int ON_PAGE = 20;

  private final Requests requests;
  private final Pages pages;
  private final Queue queue;
  private final ApartStore apart;

  QueueRoutes(Archive archive, Requests requests, Pages pages, Queue queue) {
    this.apart = new ApartStore(archive);
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
    List<Queue.Item> all = queue.all();
    Session.Chosen chosen = chosen(context, session);
    session.chosen().set(chosen);
    List<Queue.Item> waiting = queue.waiting(by.name(), session.skipped(), chosen.order());
    List<Queue.Item> here = ofPlot(waiting, chosen);
    List<Queue.Item> otherLight = new ArrayList<>();
    List<Queue.Item> unreadable = new ArrayList<>();
    List<QueuePage.Waiting> aside = new ArrayList<>();
    for (Queue.Item item : all) {
      boolean mine = item.left().filter(left -> left.reader().equals(by.name())).isPresent();
      if (item.state() == FaceState.OTHER_LIGHT) {
        otherLight.add(item);
      } else if (item.state() != FaceState.SETTLED && mine) {
        aside.add(waiting(item, "left for another reader"));
      } else if (session.skipped().contains(item.face().id())) {
        aside.add(waiting(item, "skipped for today"));
      } else if (item.isUnreadable()) {
        unreadable.add(item);
      }
    }
    pages.show(
        context,
        "queue",
        Map.of(
            "queue",
            new QueuePage(
                chosen.order().label(),
                waiting.stream().map(Queue.Item::plot).distinct().sorted().toList(),
                chosen.plot().orElse(""),
                Paged.of(
                        here,
                        Paged.page(Optional.ofNullable(context.queryParam("page"))),
                        ON_PAGE,
                        "/queue",
                        Map.of("by", chosen.order().label(), "plot", chosen.plot().orElse("")))
                    .map(item -> waiting(item, queue.why(item, by))),
                some(otherLight, item -> item.left().map(LeftFace::note).orElse("")),
                some(unreadable, item -> queue.why(item, by)),
                aside,
                all.size(),
                Queue.progress(all).getOrDefault(FaceState.SETTLED, 0),
                session.signed().size(),
                by.role() == Role.ARCHIVIST ? apart.waiting().size() : 0)));
  }

  private static QueuePage.Some some(List<Queue.Item> items, Function<Queue.Item, String> why) {
    return new QueuePage.Some(
        items.stream().limit(ON_PAGE).map(item -> waiting(item, why.apply(item))).toList(),
        items.size());
  }

  private static QueuePage.Waiting waiting(Queue.Item item, String why) {
    return new QueuePage.Waiting(
        item.face().id().toString(), item.marker().number(), item.face().name(), why);
  }

  /** What a request asks for; what was chosen before, where it asks for nothing. */
  private static Session.Chosen chosen(Context context, Session session) {
    Session.Chosen before = Objects.requireNonNull(session.chosen().get());
    Queue.Order order =
        Optional.ofNullable(context.queryParam("by"))
            .map(
                label ->
                    Queue.Order.of(label)
                        .orElseThrow(
                            () -> Refusal.malformed("“by” is hardest, names, marker or plot.")))
            .orElse(before.order());
    Optional<String> plot =
        Optional.ofNullable(context.queryParam("plot"))
            .map(given -> Optional.of(given).filter(one -> !one.isEmpty()))
            .orElse(before.plot());
    return new Session.Chosen(order, plot);
  }

  private static List<Queue.Item> ofPlot(List<Queue.Item> items, Session.Chosen chosen) {
    return items.stream()
        .filter(item -> chosen.plot().filter(plot -> !plot.equals(item.plot())).isEmpty())
        .toList();
  }

  private void next(Context context) {
    Session session = requests.session(context);
    NamedReader by = requests.by(context);
    Session.Chosen chosen = chosen(context, session);
    List<Queue.Item> waiting =
        ofPlot(queue.waiting(by.name(), session.skipped(), chosen.order()), chosen);
    ObjectNode answer = Pages.object();
    if (!waiting.isEmpty()) {
      Queue.Item item = waiting.get(0);
      answer
          .put("face", item.face().id().toString())
          .put("marker", item.marker().number())
          .put("name", item.face().name())
          .put("task", item.state() == FaceState.TO_SETTLE ? "settle" : "read")
          .put("why", queue.why(item, by));
    }
    answer
        .put("left", waiting.size())
        .put("by", chosen.order().label())
        .put("signedThisSession", session.signed().size());
    chosen.plot().ifPresent(plot -> answer.put("plot", plot));
    Pages.json(context, answer);
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
