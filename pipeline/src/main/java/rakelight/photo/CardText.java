package rakelight.photo;

import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * What the code on a field card says: {@code rakelight-card/1;NUMBER;FACE}, number and face
 * percent-encoded as in a web form.
 */
public final class CardText {
  private static final String HEAD = "rakelight-card/1;";

  private CardText() {}

  public static String of(CardLabel label) {
    return HEAD
        + URLEncoder.encode(label.markerNumber(), StandardCharsets.UTF_8)
        + ";"
        + URLEncoder.encode(label.faceName(), StandardCharsets.UTF_8);
  }

  /** The label; empty for a code that is no card's. */
  static Optional<CardLabel> read(String text) {
    String[] parts = text.split(";", -1);
    if (!text.startsWith(HEAD) || parts.length != 3) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          new CardLabel(
              URLDecoder.decode(parts[1], StandardCharsets.UTF_8),
              URLDecoder.decode(parts[2], StandardCharsets.UTF_8)));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }
}
