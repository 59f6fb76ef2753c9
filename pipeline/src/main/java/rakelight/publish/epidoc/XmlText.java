package rakelight.publish.epidoc;

/** A run of text in an XML document, entities resolved. */
public record XmlText(String text) implements XmlNode {
  /**
   * @throws IllegalArgumentException if XML 1.0 can't hold it
   */
  public XmlText {
    text.codePoints()
        .filter(point -> !isAllowed(point))
        .findFirst()
        .ifPresent(
            point -> {
              throw new IllegalArgumentException(
                  String.format("XML can't hold the character U+%04X", point));
            });
  }

  private static boolean isAllowed(int point) {
    return point == '\t'
        || point == '\n'
        || point == '\r'
        || (point >= 0x20 && point < 0xD800)
        || (point >= 0xE000 && point < 0xFFFE)
        || point >= 0x10000;
  }
}
