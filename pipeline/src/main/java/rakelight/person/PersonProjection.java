package rakelight.person;

import java.util.Arrays;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import rakelight.archive.Decision;
import rakelight.archive.MarkerId;
import rakelight.archive.Projection;

/** Writes the table that {@link PersonStore} reads. */
final class PersonProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Arrays.stream(Opinion.Kind.values())
        .map(Opinion.Kind::decisionKind)
        .collect(Collectors.toSet());
  }

  @Override
  public Set<String> tables() {
    return Set.of("person_opinion");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM person_opinion WHERE subject = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    PersonStore.Said said = decision.payload(PersonStore.Said.class);
    handle.execute(
        "INSERT INTO person_opinion (subject, kind, one_face, one_sign, one_place, other_face,"
            + " other_sign, other_place, marker, note, reader, at, decision_id, counter)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        decision.subject().toString(),
        decision.kind(),
        face(said.one()),
        sign(said.one()),
        place(said.one()),
        face(said.other()),
        sign(said.other()),
        place(said.other()),
        said.marker().map(MarkerId::toString).orElse(null),
        said.note(),
        decision.reader(),
        decision.at().toString(),
        decision.id().toString(),
        decision.counter());
  }

  private static @Nullable String face(Optional<MentionId> mention) {
    return mention.map(m -> m.face().toString()).orElse(null);
  }

  private static @Nullable Integer sign(Optional<MentionId> mention) {
    return mention.map(MentionId::sign).orElse(null);
  }

  private static @Nullable Integer place(Optional<MentionId> mention) {
    return mention.map(MentionId::place).orElse(null);
  }
}
