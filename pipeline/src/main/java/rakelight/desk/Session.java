package rakelight.desk;

import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import rakelight.archive.FaceId;
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
 */
record Session(
    String id,
    String token,
    Optional<String> reader,
    Role role,
    Optional<WayIn> wayIn,
    Set<FaceId> skipped) {
  static Session of(
      String id, String token, Optional<String> reader, Role role, Optional<WayIn> wayIn) {
    return new Session(id, token, reader, role, wayIn, ConcurrentHashMap.newKeySet());
  }
}
