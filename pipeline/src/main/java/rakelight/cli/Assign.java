package rakelight.cli;

import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.photo.Face;
import rakelight.photo.Light;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

@Command(name = "assign", description = "Puts photographs on a face of a marker.")
final class Assign extends ArchiveCommand {
  @Parameters(
      index = "1..*",
      arity = "1..*",
      paramLabel = "PHOTO",
      description = "Id, digest, path or file name.")
  private List<String> photographs;

  @Option(
      names = "--marker",
      required = true,
      paramLabel = "NUMBER",
      description = "The marker's number, present or earlier; a new one makes a new marker.")
  private String marker;

  @Option(
      names = "--face",
      defaultValue = Face.FRONT,
      paramLabel = "NAME",
      description = "The side of the marker (default: ${DEFAULT-VALUE}).")
  private String face;

  @Option(
      names = "--bearing",
      paramLabel = "DEGREES",
      description = "Where the face looks to, clockwise from true north.")
  private Optional<Double> bearing;

  @Option(
      names = "--light",
      paramLabel = "AZIMUTH[,ELEVATION]",
      description = "Where the light came from, degrees.")
  private Optional<String> light;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    Optional<Light> from = light.map(this::light);
    bearing
        .filter(degrees -> !(degrees >= 0 && degrees <= 360))
        .ifPresent(
            degrees -> {
              throw wrong("--bearing must be 0 to 360 degrees: " + degrees);
            });
    PhotoStore store = new PhotoStore(archive);
    List<Photograph> chosen = Chosen.of(store, photographs);
    archive
        .ledger()
        .write(
            handle -> {
              Face onto = store.faceOf(marker, face, reader);
              if (bearing.isPresent() && !bearing.equals(onto.bearingDegrees())) {
                store.describeFace(onto.id(), bearing, reader);
              }
              chosen.forEach(
                  photograph -> store.assign(photograph.id(), onto.id(), from, "person", reader));
              return 0;
            });
    out().println(chosen.size() + " photographs on marker " + marker + ", " + face + ".");
    return 0;
  }

  private Light light(String text) {
    String[] parts = text.split(",", -1);
    try {
      if (parts.length <= 2) {
        return new Light(
            Double.parseDouble(parts[0].strip()),
            parts.length == 1
                ? Optional.empty()
                : Optional.of(Double.parseDouble(parts[1].strip())));
      }
    } catch (NumberFormatException e) {
      // Told below.
    } catch (IllegalArgumentException e) {
      throw wrong(String.valueOf(e.getMessage()));
    }
    throw wrong("--light must be AZIMUTH or AZIMUTH,ELEVATION in degrees: " + text);
  }
}
