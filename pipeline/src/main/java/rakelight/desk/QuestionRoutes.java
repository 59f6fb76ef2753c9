package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.FoldedWords;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.work.NamedReader;

/** What nobody knows yet: raised, tried, noted, answered and reopened. */
final class QuestionRoutes {
  private static final String QUESTIONS = "/questions";

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Concluding concluding;
  private final QuestionStore questions;
  private final MarkerStore markers;

  QuestionRoutes(Archive archive, Requests requests, Pages pages, Concluding concluding) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.concluding = concluding;
    this.questions = new QuestionStore(archive);
    this.markers = new MarkerStore(archive);
  }

  void addTo(Javalin server) {
    server.get(QUESTIONS, context -> list(context, Map.of(), ""));
    server.post(QUESTIONS, this::raise);
    server.get(QUESTIONS + "/{question}", context -> question(context, Map.of(), ""));
    server.post(QUESTIONS + "/{question}", this::go);
  }

  /** A question with the marker it is about, if it is about one. */
  private record About(Question question, Optional<Marker> marker) {}

  /**
   * Those that somebody may see: none about a marker that isn't here; a guest none about one of
   * which something may not be told, nor one that names somebody who may not.
   */
  private List<About> seen(boolean all) {
    List<About> seen = new ArrayList<>();
    for (Question question : questions.questions()) {
      Optional<Marker> marker = question.marker().flatMap(markers::marker);
      boolean isHere = question.marker().isEmpty() || marker.isPresent();
      if (isHere && (all || isTold(question, marker))) {
        seen.add(new About(question, marker));
      }
    }
    return seen;
  }

  private boolean isTold(Question question, Optional<Marker> marker) {
    Conclusion now = concluding.now();
    return now.mayTell(words(question)) && marker.map(one -> now.mayTell(one.id())).orElse(true);
  }

  /** All that people wrote in it. */
  private static String words(Question question) {
    return question.steps().stream()
        .map(step -> step.words() + " " + step.note())
        .collect(Collectors.joining(" "));
  }

  /**
   * @param written what somebody wrote in the form that was refused
   */
  private void list(Context context, Map<String, String> written, String refused) {
    boolean all = requests.by(context).role().mayDecide();
    String words = Requests.asked(context, "words");
    String marker = Requests.asked(context, "marker");
    String state = Requests.asked(context, "state");
    List<Listing.Field> fields =
        List.of(
            Listing.Field.written("words", "Words", words, "wife"),
            Listing.Field.written("marker", "Marker", marker, "B-12"),
            Listing.Field.chosen(
                "state",
                "Which",
                state,
                new Listing.Choice("", "all"),
                new Listing.Choice("open", "open"),
                new Listing.Choice("answered", "answered")));
    List<About> whole = seen(all);
    List<About> held =
        whole.stream()
            .filter(one -> state.isEmpty() || state.equals("open") == one.question().isOpen())
            .filter(one -> words.isEmpty() || FoldedWords.begin(words(one.question()), words))
            .filter(
                one ->
                    marker.isEmpty()
                        || one.marker()
                            .filter(row -> row.number().equalsIgnoreCase(marker))
                            .isPresent())
            .toList();
    pages.show(
        context,
        "questions",
        Map.of(
            "list",
            new Listing(
                "Questions",
                QUESTIONS,
                "What nobody knows yet, with the sources tried and the answers found. Printed, each"
                    + " open one has lines to write on.",
                refused,
                all ? List.of() : List.of(PersonRoutes.GUEST),
                fields,
                "question",
                "questions",
                whole.size(),
                Requests.paged(context, held, QUESTIONS, fields).map(QuestionRoutes::row)),
            "words",
            written.getOrDefault("words", ""),
            "about",
            written.getOrDefault("marker", Requests.asked(context, "about"))));
  }

  private static Listing.Row row(About about) {
    Question question = about.question();
    List<String> facts = new ArrayList<>();
    facts.add(
        question.label()
            + about.marker().map(marker -> ", about marker " + marker.number()).orElse(""));
    question.steps().stream().map(Question.Step::told).forEach(facts::add);
    return new Listing.Row(
        address(question), question.text(), question.isOpen() ? "open" : "answered", facts);
  }

  static String address(Question question) {
    return QUESTIONS + "/" + question.number();
  }

  private void raise(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    try {
      Question raised =
          questions.raise(
              Requests.words(form, "words"),
              Optional.of(form.getOrDefault("marker", "").strip())
                  .filter(number -> !number.isEmpty()),
              by.name());
      context.redirect(address(raised));
    } catch (ArchiveException e) {
      context.status(422);
      list(context, form, String.valueOf(e.getMessage()));
    }
  }

  private About known(Context context, boolean all) {
    String number = context.pathParam("question");
    return seen(all).stream()
        .filter(one -> Long.toString(one.question().number()).equals(number))
        .findFirst()
        .orElseThrow(() -> Refusal.notFound("question"));
  }

  private void question(Context context, Map<String, String> written, String message) {
    NamedReader by = requests.by(context);
    boolean all = by.role().mayDecide();
    About about = known(context, all);
    Question question = about.question();
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    List<Act> steps = new ArrayList<>();
    for (Question.Step step : question.steps()) {
      Decision decision = archive.journal().find(step.decision()).orElseThrow();
      boolean raised = step.kind() == Question.Kind.RAISED;
      steps.add(
          Act.of(
              decision,
              raised ? "raised the question" : step.told(),
              undone,
              by,
              raised ? QUESTIONS : address(question)));
    }
    pages.show(
        context,
        "question",
        Map.of(
            "question",
            new QuestionPage(
                question.number(),
                question.text(),
                question.isOpen(),
                about.marker().map(marker -> marker.id().toString()).orElse(""),
                about.marker().map(Marker::number).orElse(""),
                question.answer().map(Question.Step::words).orElse(""),
                question.answer().map(Question.Step::note).orElse(""),
                steps,
                all),
            "written",
            written,
            "message",
            message));
  }

  private void go(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    Question question = known(context, true).question();
    String words = Requests.words(form, "words");
    String note = Requests.words(form, "note");
    try {
      switch (form.getOrDefault("do", "")) {
        case "tried" -> questions.tried(question, words, note, by.name());
        case "note" -> questions.note(question, words, by.name());
        case "answer" -> questions.answer(question, words, note, by.name());
        case "reopen" -> questions.reopen(question, words, by.name());
        default -> throw Refusal.malformed("This form can't be read.");
      }
      context.redirect(address(question));
    } catch (ArchiveException e) {
      context.status(422);
      question(context, form, String.valueOf(e.getMessage()));
    }
  }
}
