package rakelight.index;

/** An index that is damaged, missing, in use, or can't be written; says what to do. */
public final class IndexException extends RuntimeException {
  IndexException(String message) {
    super(message);
  }

  IndexException(String message, Throwable cause) {
    super(message, cause);
  }
}
