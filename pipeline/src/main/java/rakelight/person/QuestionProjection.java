package rakelight.person;

import java.util.Arrays;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.MarkerId;
import rakelight.archive.Projection;

/** Writes the table that {@link QuestionStore} reads. */
final class QuestionProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Arrays.stream(Question.Kind.values())
        .map(Question.Kind::decisionKind)
        .collect(Collectors.toSet());
  }

  @Override
  public Set<String> tables() {
    return Set.of("question_step");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM question_step WHERE question = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
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
