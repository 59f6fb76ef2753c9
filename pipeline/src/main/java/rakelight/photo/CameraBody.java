package rakelight.photo;

import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What tells a camera from every other: make, model and serial number; where files don't say the
 * number, the folder they came from.
 *
 * @param model maker and model, if known
 * @param serial which one of that model
 * @param folder where its files lay; empty where the serial number is known
 */
public record CameraBody(Optional<String> model, Optional<String> serial, Optional<String> folder) {
  /** The one that took a photograph. */
  static CameraBody of(Optional<String> model, Optional<String> serial, String path) {
    return new CameraBody(
        model,
        serial,
        serial.isPresent()
            ? Optional.empty()
            : Optional.of(path.substring(0, Math.max(0, path.lastIndexOf('/')))));
  }

  /** As people would name it. */
  public String inWords() {
    return Stream.of(
            model.or(() -> Optional.of("a camera without a name")),
            serial.map(number -> "number " + number),
            folder.map(path -> "in " + path))
        .flatMap(Optional::stream)
        .collect(Collectors.joining(", "));
  }
}
