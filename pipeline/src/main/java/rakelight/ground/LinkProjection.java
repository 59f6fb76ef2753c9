package rakelight.ground;

import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.MarkerId;
import rakelight.archive.Projection;
import rakelight.person.MentionId;

/** Writes the table that {@link LinkStore} reads. */
final class LinkProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(LinkStore.CONFIRMED, LinkStore.REFUSED);
  }

  @Override
  public Set<String> tables() {
    return Set.of("link", "link_refused");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM link WHERE from_marker = ?", subject.toString());
    handle.execute("DELETE FROM link_refused WHERE from_marker = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    if (decision.kind().equals(LinkStore.REFUSED)) {
      refused(handle, decision);
      return;
    }
    LinkStore.Confirmed link = decision.payload(LinkStore.Confirmed.class);
    handle.execute(
        "INSERT INTO link (decision_id, from_marker, kind, to_marker, to_words, to_face, to_sign,"
            + " to_place, note, reader, at, counter) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        link.kind().label(),
        link.toMarker().map(MarkerId::toString),
        link.toWords(),
        link.toPerson().map(person -> person.face().toString()),
        link.toPerson().map(MentionId::sign),
        link.toPerson().map(MentionId::place),
        link.note(),
        decision.reader(),
        decision.at().toString(),
        decision.counter());
  }

  private static void refused(Handle handle, Decision decision) {
    LinkStore.RefusedLink refused = decision.payload(LinkStore.RefusedLink.class);
    handle.execute(
        "INSERT INTO link_refused VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        refused.toPerson().face().toString(),
        refused.toPerson().sign(),
        refused.toPerson().place(),
        refused.toWords(),
        refused.note(),
        decision.reader(),
        decision.at().toString(),
        decision.counter());
  }
}
