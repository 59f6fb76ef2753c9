package rakelight.photo;

/**
 * A file that ingest did not take.
 *
 * @param path as given
 * @param code a word for machines, such as {@code truncated}
 * @param reason what was found
 * @param advice what to do next
 */
public record RefusedFile(String path, String code, String reason, String advice) {
  /** One line for a person. */
  public String line() {
    return path + ": " + reason + " " + advice;
  }
}
