package rakelight.photo;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;

/** Where the picture that can be read is found in an original. */
public enum PictureKind {
  /** The whole file is the picture. */
  ITSELF("itself"),
  /** A JPEG preview inside the file: camera raw and HEIC. */
  EMBEDDED_PREVIEW("embedded preview"),
  /** The file is kept and described, but nothing in it can be read here. */
  NONE("none");

  private final String label;

  PictureKind(String label) {
    this.label = label;
  }

  @JsonValue
  public String label() {
    return label;
  }

  static PictureKind of(String label) {
    return Arrays.stream(values())
        .filter(kind -> kind.label.equals(label))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no kind of picture: " + label));
  }
}
