package rakelight.publish.epidoc;

/** A file that isn't taken: no XML, or no edition that can be read. The message names the line. */
public final class EpidocException extends Exception {
  EpidocException(int line, String message) {
    super("line " + line + ": " + message);
  }

  /** What is wrong at an element. */
  public static EpidocException at(XmlElement element, String message) {
    return new EpidocException(element.line(), message);
  }
}
