package rakelight.person;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Locale;
import rakelight.archive.Json;
import rakelight.marker.MarkerStore;

/** A question as programs get it, at the terminal and at the desk. */
public final class QuestionJson {
  private QuestionJson() {}

  /** With the number that its marker has now. */
  public static ObjectNode of(Question question, MarkerStore markers) {
    ObjectNode object =
        Json.mapper()
            .createObjectNode()
            .put("schema", 1)
            .put("question", question.number())
            .put("id", question.id().toString())
            .put("status", question.isOpen() ? "open" : "answered")
            .put("text", question.text());
    question
        .marker()
        .flatMap(markers::marker)
        .ifPresent(marker -> object.put("marker", marker.number()));
    question
        .answer()
        .ifPresent(step -> object.put("answer", step.words()).put("citation", step.note()));
    for (Question.Step step : question.steps()) {
      ObjectNode one =
          object
              .withArray("steps")
              .addObject()
              .put("kind", step.kind().name().toLowerCase(Locale.ROOT))
              .put("words", step.words());
      if (!step.note().isEmpty()) {
        one.put("note", step.note());
      }
      one.put("reader", step.reader())
          .put("at", step.at().toString())
          .put("decision", step.decision().toString());
    }
    return object;
  }
}
