package rakelight.index;

/** A query that can't be understood: what, and how to write it. */
public final class QueryException extends Exception {
  QueryException(String message) {
    super(message);
  }
}
