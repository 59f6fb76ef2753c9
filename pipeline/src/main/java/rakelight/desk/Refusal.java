package rakelight.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import rakelight.archive.Json;
import rakelight.work.Refused;

/** A request that is refused, with the status, a code for programs and a line for people. */
final class Refusal extends RuntimeException {
  private final int status;
  private final String code;
  private final transient ObjectNode more;

  private Refusal(int status, String code, String message, ObjectNode more) {
    super(message);
    this.status = status;
    this.code = code;
    this.more = more;
  }

  static Refusal of(int status, String code, String message) {
    return new Refusal(status, code, message, Json.mapper().createObjectNode());
  }

  /** What {@code work} refuses, as a reply. */
  static Refusal of(Refused refused) {
    if (refused instanceof Refused.OnlyLooks
        || refused instanceof Refused.NoArchivist
        || refused instanceof Refused.NotYours) {
      return of(403, "role", refused.words());
    }
    if (refused instanceof Refused.Changed) {
      return of(409, "changed", refused.words());
    }
    if (refused instanceof Refused.Superseded) {
      return of(409, "superseded", refused.words());
    }
    if (refused instanceof Refused.Taken taken) {
      return of(409, "taken", refused.words()).with("by", taken.by()).with("until", taken.until());
    }
    Refusal reply = refused(refused.words());
    if (refused instanceof Refused.AtPlace place) {
      reply = reply.with("line", place.line()).with("at", place.at());
    }
    return refused instanceof Refused.LookFirst look
        ? reply.with("places", look.letters().stream().map(Refused.AtPlace::at).toList())
        : reply;
  }

  static Refusal malformed(String message) {
    return of(400, "malformed", message);
  }

  static Refusal notFound(String what) {
    return of(404, "not-found", "There is no such " + what + " here.");
  }

  /** The change can't be made; the message says why and what to do. */
  static Refusal refused(String message) {
    return of(422, "refused", message);
  }

  /** The same refusal with more fields in its answer. */
  Refusal with(String field, Object value) {
    ObjectNode wider = more.deepCopy();
    wider.set(field, Json.tree(value));
    return new Refusal(status, code, String.valueOf(getMessage()), wider);
  }

  int status() {
    return status;
  }

  ObjectNode body() {
    ObjectNode body =
        Json.mapper()
            .createObjectNode()
            .put("schema", 1)
            .put("error", code)
            .put("message", getMessage());
    body.setAll(more);
    return body;
  }
}
