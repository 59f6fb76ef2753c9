package rakelight.archive;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Pattern;
import org.jdbi.v3.core.Handle;

/**
 * Things of archives that were begun apart and are one, such as the marker that both call 12; see
 * docs/decisions/0037-archives-begun-apart.md. Decisions stay as they were made; whoever reads the
 * journal is told all that was decided about any of those things as decided about one of them, the
 * one with the lowest id. So nothing but the journal knows that there were several.
 */
final class SameThings implements Projection {
  /** Subject: the archive. */
  static final String JOINED = "archives.joined";

  private static final Pattern ID = Pattern.compile("[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}");

  /** Version 1 of the payload: the ids in each list are of one thing. */
  record Joined(List<List<UUID>> same) {}

  /** What is known of them at some time. */
  record Known(String newest, Map<String, String> now) {
    static final Known NONE = new Known("", Map.of());

    /**
     * The same, or what is known by now. Rows are only ever added, and all of them follow from
     * decisions that can't be undone.
     */
    Known upToDate(Handle handle) {
      String newestNow =
          handle
              .createQuery("SELECT id || rowid FROM same_thing ORDER BY rowid DESC LIMIT 1")
              .mapTo(String.class)
              .findOne()
              .orElse("");
      if (newestNow.equals(newest)) {
        return this;
      }
      Map<String, String> known = new HashMap<>();
      handle
          .createQuery("SELECT id, now FROM same_thing")
          .map((row, context) -> known.put(row.getString("id"), row.getString("now")))
          .list();
      return new Known(newestNow, Map.copyOf(known));
    }

    UUID of(UUID id) {
      return now.isEmpty() ? id : UUID.fromString(of(id.toString()));
    }

    private String of(String id) {
      return now.getOrDefault(id, id);
    }

    /** A payload in these terms. */
    JsonNode in(String payload) {
      String told =
          now.isEmpty() ? payload : ID.matcher(payload).replaceAll(found -> of(found.group()));
      return Json.read(told, JsonNode.class);
    }

    JsonNode in(JsonNode payload) {
      return now.isEmpty() ? payload : in(Json.text(payload));
    }
  }

  /** Works out all of them anew, before anything else is. */
  static void all(Handle handle) {
    handle.execute("DELETE FROM same_thing");
    handle
        .createQuery("SELECT payload FROM decision WHERE kind = :kind ORDER BY id")
        .bind("kind", JOINED)
        .mapTo(String.class)
        .list()
        .forEach(payload -> add(handle, Json.read(payload, Joined.class)));
  }

  @Override
  public Set<String> kinds() {
    return Set.of(JOINED);
  }

  /** None that is emptied with the others, which are told of in its terms: see {@link #all}. */
  @Override
  public Set<String> tables() {
    return Set.of();
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    // What is one stays one.
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
  }

  private static void add(Handle handle, Joined joined) {
    for (List<UUID> same : joined.same()) {
      List<String> now = same.stream().map(id -> now(handle, id.toString())).distinct().toList();
      String lowest = now.stream().min(String::compareTo).orElseThrow();
      for (String other : now) {
        if (!other.equals(lowest)) {
          handle.execute("UPDATE same_thing SET now = ? WHERE now = ?", lowest, other);
          handle.execute("INSERT INTO same_thing (id, now) VALUES (?, ?)", other, lowest);
        }
      }
    }
  }

  private static String now(Handle handle, String id) {
    return handle
        .createQuery("SELECT now FROM same_thing WHERE id = :id")
        .bind("id", id)
        .mapTo(String.class)
        .findOne()
        .orElse(id);
  }
}
