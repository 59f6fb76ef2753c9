package rakelight.person;

import java.util.Arrays;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.MarkerId;
import rakelight.archive.Projection;

/** Writes the table that {@link QuestionStore} reads. */
final class QuestionProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Stream.concat(
            Arrays.stream(Question.Kind.values()).map(Question.Kind::decisionKind),
            Stream.of(QuestionStore.NUMBERED))
        .collect(Collectors.toSet());
  }

  @Override
  public Set<String> tables() {
    return Set.of("question_step", "question_number");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(
        Question.Kind.ANSWERED.decisionKind(),
        "the answer",
        Question.Kind.REOPENED.decisionKind(),
        "the answer");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM question_step WHERE question = ?", subject.toString());
    handle.execute("DELETE FROM question_number WHERE question = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    if (decision.kind().equals(QuestionStore.NUMBERED)) {
      handle.execute(
          "INSERT OR REPLACE INTO question_number (question, number) VALUES (?, ?)",
          decision.subject().toString(),
          decision.payload(QuestionStore.Numbered.class).number());
      return;
    }
    QuestionStore.Said said = decision.payload(QuestionStore.Said.class);
    handle.execute(
        "INSERT INTO question_step (decision_id, question, kind, words, note, marker, reader, at,"
            + " counter) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        decision.kind(),
        said.words(),
        said.note(),
        said.marker().map(MarkerId::toString).orElse(null),
        decision.reader(),
        decision.at().toString(),
        decision.counter());
  }
}
