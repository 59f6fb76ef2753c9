package rakelight.archive;

/**
 * Something the archive promised doesn't hold, or can't be done on it. The message is one line for
 * a person: what was being done, what was found, what to do next.
 */
public class ArchiveException extends RuntimeException {
  public ArchiveException(String message) {
    super(message);
  }

  public ArchiveException(String message, Throwable cause) {
    super(message, cause);
  }
}
