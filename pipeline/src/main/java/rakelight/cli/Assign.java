package rakelight.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.archive.Uuid7;
import rakelight.photo.Face;
import rakelight.photo.Grouping;
import rakelight.photo.Light;
import rakelight.photo.Manifest;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.SetAside;
import rakelight.work.LeftBehind;
import rakelight.work.ReaderStore;
import rakelight.work.Regrouping;

@Command(
    name = "assign",
    description = "Puts photographs on faces of markers, by hand or as a table says.")
final class Assign extends ArchiveCommand {
  @Parameters(index = "1..*", paramLabel = "PHOTO", description = "Id, digest, path or file name.")
  private List<String> photographs = List.of();

  @Option(
      names = "--marker",
      paramLabel = "NUMBER",
      description = "The marker's number, present or earlier; a new one makes a new marker.")
  private Optional<String> marker;

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

  @Option(
      names = "--off",
      description = "Takes the photographs off the faces they are on; no machine puts them back.")
  private boolean off;

  @Option(
      names = "--unfit",
      description = "They show nothing that could be made out, and wait for no marker.")
  private boolean unfit;

  @Option(names = "--no-stone", description = "They show no stone, and wait for no marker.")
  private boolean noStone;

  @Option(
      names = "--from",
      paramLabel = "FILE.csv",
      description = "Moves photographs as a manifest says, wherever they are now.")
  private Optional<Path> from;

  @Option(
      names = "--with-readings",
      description = {
        "With --from: what was read on a face goes with its photographs, where all of them go to one",
        "face."
      })
  private boolean withReadings;

  @Option(names = "--dry-run", description = "With --from: only says what would move.")
  private boolean dryRun;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    long ways =
        Stream.of(marker.isPresent(), off, unfit, noStone, from.isPresent()).filter(w -> w).count();
    if (ways != 1 || from.isPresent() != photographs.isEmpty()) {
      throw wrong(
          "Say PHOTO... with --marker, --off, --unfit or --no-stone, or else --from FILE.csv.");
    }
    if ((dryRun || withReadings) && from.isEmpty()) {
      throw wrong("--dry-run and --with-readings go with --from.");
    }
    if (from.isPresent()) {
      return follow(archive, Manifest.read(from.get()));
    }
    PhotoStore store = new PhotoStore(archive);
    List<Photograph> chosen = Chosen.of(store, photographs);
    LeftBehind left = new LeftBehind(archive);
    List<PhotographId> ids = chosen.stream().map(Photograph::id).toList();
    if (unfit || noStone) {
      SetAside as = unfit ? SetAside.UNFIT : SetAside.NO_STONE;
      store.setAside(ids, as, reader);
      out().println(Counted.of(chosen.size(), "photograph") + " set aside: " + as.words() + ".");
    } else if (off) {
      store.takeOff(ids, reader);
      out().println(Counted.of(chosen.size(), "photograph") + " on no face now.");
    } else {
      put(archive, store, chosen, marker.orElseThrow());
    }
    left.lines(chosen).forEach(err()::println);
    return 0;
  }

  private void put(
      Archive archive, PhotoStore store, List<Photograph> chosen, String markerNumber) {
    Optional<Light> lit = light.map(this::light);
    bearing
        .filter(degrees -> !(degrees >= 0 && degrees <= 360))
        .ifPresent(
            degrees -> {
              throw wrong("--bearing must be 0 to 360 degrees: " + degrees);
            });
    archive
        .ledger()
        .write(
            handle -> {
              Face onto = store.faceOf(markerNumber, face, reader);
              if (bearing.isPresent() && !bearing.equals(onto.bearingDegrees())) {
                store.describeFace(onto.id(), bearing, reader);
              }
              Map<PhotographId, FaceId> faces = new LinkedHashMap<>();
              Map<PhotographId, Light> lights = new LinkedHashMap<>();
              for (Photograph photograph : chosen) {
                faces.put(photograph.id(), onto.id());
                lit.ifPresent(one -> lights.put(photograph.id(), one));
              }
              store.assignTogether(faces, lights, Uuid7.next(), reader);
              return 0;
            });
    out()
        .println(
            Counted.of(chosen.size(), "photograph")
                + " on marker "
                + markerNumber
                + ", "
                + face
                + ".");
  }

  private int follow(Archive archive, Manifest table) {
    List<String> faults = new ArrayList<>();
    Grouping grouping = new Grouping(archive, reader, faults::add);
    List<Grouping.Move> moves = grouping.moves(table);
    faults.forEach(err()::println);
    for (Grouping.Move move : moves) {
      out()
          .println(
              move.photograph().originalName()
                  + ": "
                  + move.from().map(Grouping::inWords).orElse("on no face")
                  + " -> "
                  + Grouping.inWords(move.to()));
    }
    if (dryRun) {
      out().println(Counted.of(moves.size(), "photograph") + " would move. Nothing was changed.");
      return faults.isEmpty() ? 0 : 1;
    }
    LeftBehind left = new LeftBehind(archive);
    Map<PhotographId, FaceId> before = new LinkedHashMap<>();
    for (Grouping.Move move : moves) {
      move.photograph().face().ifPresent(face -> before.put(move.photograph().id(), face));
    }
    archive
        .ledger()
        .write(
            handle -> {
              UUID batch = Uuid7.next();
              grouping.move(moves, table, batch);
              if (withReadings) {
                Regrouping.Done done =
                    new Regrouping(archive)
                        .follow(before, batch, new ReaderStore(archive).atTheTerminal(reader));
                done.moves().forEach(out()::println);
                done.warnings().forEach(err()::println);
              }
              return 0;
            });
    out().println(Counted.of(moves.size(), "photograph") + " moved. One `undo` takes it all back.");
    left.lines(moves.stream().map(Grouping.Move::photograph).toList()).forEach(err()::println);
    return faults.isEmpty() ? 0 : 1;
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
