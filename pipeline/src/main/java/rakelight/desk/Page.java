package rakelight.desk;

/**
 * What every page knows.
 *
 * @param ground the ground's name
 * @param reader who is at the desk; empty if nobody has signed in
 * @param token to be sent with every change, against forged requests
 */
public record Page(String ground, String reader, String token) {
  public boolean signedIn() {
    return !reader.isEmpty();
  }
}
