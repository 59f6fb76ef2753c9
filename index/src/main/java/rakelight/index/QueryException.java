package rakelight.index;

/** A query that can't be understood: what, and how to write it. */
public final class QueryException extends Exception {
  /** With what can't be understood and what to write instead. */
  public QueryException(String message) {
    super(message);
  }
}
