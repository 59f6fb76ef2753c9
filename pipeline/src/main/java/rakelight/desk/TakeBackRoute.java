package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.Map;
import java.util.Set;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.work.NamedReader;
import rakelight.work.Undoing;

/** Takes back what is decided on the pages of persons, questions, sources, links and the plan. */
final class TakeBackRoute {
  /** What begins so is taken back there. */
  private static final Set<String> THINGS =
      Set.of(
          "person.",
          "question.",
          "source.",
          "sought.",
          "walk.",
          "carving.",
          "lettering.",
          "link.",
          "photograph.also-shows",
          "family.",
          "position.");

  private final Archive archive;
  private final Requests requests;
  private final Undoing undoing;

  TakeBackRoute(Archive archive, Requests requests) {
    this.archive = archive;
    this.requests = requests;
    this.undoing = new Undoing(archive);
  }

  void addTo(Javalin server) {
    server.post("/take-back", this::takeBack);
  }

  private void takeBack(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    String back =
        Act.page(form.getOrDefault("back", ""))
            .orElseThrow(() -> Refusal.malformed("This form can't be read."));
    Decision decision =
        Requests.known(
            form.getOrDefault("decision", ""),
            DecisionId::of,
            id -> archive.journal().find(id).filter(TakeBackRoute::isHere),
            "decision");
    undoing.undo(decision.id(), by);
    context.redirect(back);
  }

  private static boolean isHere(Decision decision) {
    return THINGS.stream().anyMatch(decision.kind()::startsWith);
  }
}
