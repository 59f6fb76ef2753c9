package rakelight.desk;

import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicReference;
import rakelight.archive.FaceId;
import rakelight.work.Queue;
import rakelight.work.Role;
import rakelight.work.WayIn;

/**
 * One browser at the desk. Lives in memory only: a restarted server asks everybody to sign in
 * again, and nothing decided is in here.
 *
 * @param id the cookie's value
 * @param token what a change must bring along, so that no other page can send one
 * @param reader who signed in, if anybody
 * @param wayIn how he came in; empty where nobody needs a passphrase
 * @param skipped faces put off for this session
 * @param signed faces signed in this session
 * @param chosen in what order, and of which plot, faces come next
 */
record Session(
    String id,
    String token,
    Optional<String> reader,
    Role role,
    Optional<WayIn> wayIn,
    Set<FaceId> skipped,
    Set<FaceId> signed,
    AtomicReference<Chosen> chosen) {
  /**
   * What a reader has chosen on the queue's page.
   *
   * @param plot the only plot; empty for all
   */
  record Chosen(Queue.Order order, Optional<String> plot) {}

  /** The same session of somebody who may only look. */
  Session asGuest() {
    return new Session(id, token, reader, Role.GUEST, wayIn, skipped, signed, chosen);
  }

  static Session of(
      String id, String token, Optional<String> reader, Role role, Optional<WayIn> wayIn) {
    return new Session(
        id,
        token,
        reader,
        role,
        wayIn,
        ConcurrentHashMap.newKeySet(),
        ConcurrentHashMap.newKeySet(),
        new AtomicReference<>(new Chosen(Queue.Order.HARDEST, Optional.empty())));
  }
}
