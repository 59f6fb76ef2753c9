package rakelight.desk;

/**
 * What every page knows.
 *
 * @param ground the ground's name
 * @param reader who is at the desk; empty if nobody has signed in
 * @param token to be sent with every change, against forged requests
 * @param archivist whether the reader may do everything
 * @param guest whether the reader only looks
 * @param application whether the program was started from its entrance, by whoever sits here
 * @param onlyLooking whether nothing can be changed, since the archive can't be written
 */
public record Page(
    String ground,
    String reader,
    String token,
    boolean archivist,
    boolean guest,
    boolean application,
    boolean onlyLooking) {
  public boolean signedIn() {
    return !reader.isEmpty();
  }
}
