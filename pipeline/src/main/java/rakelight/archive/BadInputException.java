package rakelight.archive;

/**
 * What a stage was given can't be worked on, such as a broken photograph. The message says why in
 * one line that stands after the photograph's name; the others go on.
 */
public class BadInputException extends Exception {
  public BadInputException(String message) {
    super(message);
  }
}
