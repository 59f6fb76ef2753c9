package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.Frame;
import rakelight.photo.PhotoPart;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.MachineReader;
import rakelight.reading.Proposer;
import rakelight.reading.StoneBeside;
import rakelight.reading.StonesBeside;

@Command(
    name = "beside",
    description = {
      "Inscribed stones beside those that photographs are of. Without PHOTO those of which nobody has said",
      "which they are; with PHOTO all on it. --marker says which one is: it is a face of its own then,",
      "read like any other."
    })
final class BesideCommand extends ArchiveCommand {
  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "PHOTO",
      description = "Id, digest, path or file name.")
  private Optional<String> photo = Optional.empty();

  @Option(
      names = "--stone",
      paramLabel = "N",
      description = "Which of them, by its number on the photograph, from the left.")
  private Optional<Integer> stone = Optional.empty();

  @Option(
      names = "--area",
      paramLabel = "LEFT,TOP,WIDTH,HEIGHT",
      description = "Or where it is, in pixels of the upright photograph, if no machine saw it.")
  private Optional<String> area = Optional.empty();

  @Option(
      names = "--marker",
      paramLabel = "NUMBER",
      description = "The marker it is, by present or earlier number; a new one makes a new marker.")
  private Optional<String> marker = Optional.empty();

  @Option(
      names = "--face",
      defaultValue = Face.FRONT,
      paramLabel = "NAME",
      description = "The side of the marker (default: ${DEFAULT-VALUE}).")
  private String face = Face.FRONT;

  @Option(names = "--pass-over", description = "It isn't asked after again.")
  private boolean passOver;

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name, to say something.")
  private Optional<String> reader = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    PhotoStore photos = new PhotoStore(archive);
    Optional<Photograph> photograph = photo.map(name -> Chosen.of(photos, List.of(name)).get(0));
    if (stone.isPresent() || area.isPresent() || marker.isPresent() || passOver) {
      return say(archive, photos, photograph);
    }
    StonesBeside beside = new StonesBeside(archive);
    if (!archive.isOnlyLookedAt()) {
      readNew(archive, beside, photograph);
    }
    List<StoneBeside> stones = photograph.map(beside::on).orElseGet(beside::open);
    stones.forEach(one -> print(archive, photos, one));
    if (!json) {
      out()
          .println(
              Counted.of(stones.size(), "stone")
                  + (photograph.isPresent() ? " beside others on it." : " to be said of."));
    }
    return 0;
  }

  /** What earlier programs proposed had nothing read beside it; the networks load only for that. */
  private static void readNew(
      Archive archive, StonesBeside beside, Optional<Photograph> photograph) {
    boolean isRead =
        photograph.map(beside::on).orElseGet(beside::open).stream()
            .allMatch(one -> one.said().isPresent() || one.lines().isPresent());
    if (!isRead) {
      try (MachineReader machine = MachineReader.standard()) {
        new Proposer(archive, machine).readBeside(Proposer.workersHere());
      }
    }
  }

  private int say(Archive archive, PhotoStore photos, Optional<Photograph> chosen) {
    if (chosen.isEmpty()
        || stone.isPresent() == area.isPresent()
        || marker.isPresent() == passOver
        || reader.isEmpty()) {
      throw wrong(
          "To say which a stone is: PHOTO, --stone or --area, --marker or --pass-over, and --reader.");
    }
    Photograph photograph = chosen.get();
    Frame frame =
        area.map(text -> frame(photograph, text)).orElseGet(() -> frame(archive, photograph));
    if (passOver) {
      photos.passOver(photograph, frame, reader.get());
      err().println("Passed over. `undo` takes it back.");
      return 0;
    }
    archive
        .ledger()
        .write(
            handle -> {
              Face onto = photos.faceOf(marker.get(), face, reader.get());
              photos.alsoShows(photograph, onto.id(), frame, reader.get());
              return 0;
            });
    err()
        .println(
            photograph.originalName()
                + " also shows marker "
                + marker.get()
                + ", "
                + face
                + ". `propose` reads it there; `undo` takes it back.");
    return 0;
  }

  private Frame frame(Archive archive, Photograph photograph) {
    List<StoneBeside> stones = new StonesBeside(archive).on(photograph);
    return stones.stream()
        .filter(one -> stone.filter(number -> number == one.number()).isPresent())
        .findFirst()
        .map(StoneBeside::frame)
        .orElseThrow(
            () ->
                new ArchiveException(
                    photograph.originalName()
                        + ": "
                        + (stones.isEmpty()
                            ? "no stone was seen beside another on it. Run `propose` if it hasn't been"
                                + " read, or say where it is with --area."
                            : "its stones have the numbers 1 to " + stones.size() + ".")));
  }

  private Frame frame(Photograph photograph, String text) {
    List<Integer> numbers =
        Stream.of(text.split(",", -1))
            .map(String::strip)
            .map(part -> part.matches("\\d{1,6}") ? Integer.parseInt(part) : -1)
            .toList();
    boolean isOnIt =
        numbers.size() == 4
            && numbers.stream().allMatch(n -> n >= 0)
            && numbers.get(2) > 0
            && numbers.get(3) > 0
            && numbers.get(0) + numbers.get(2) <= photograph.uprightWidthPx()
            && numbers.get(1) + numbers.get(3) <= photograph.uprightHeightPx();
    if (!isOnIt) {
      throw wrong(
          "--area must be LEFT,TOP,WIDTH,HEIGHT within the photograph's "
              + photograph.uprightWidthPx()
              + " x "
              + photograph.uprightHeightPx()
              + " pixels: "
              + text);
    }
    return new Frame(numbers.get(0), numbers.get(1), numbers.get(2), numbers.get(3));
  }

  private void print(Archive archive, PhotoStore photos, StoneBeside one) {
    Optional<Face> said = one.said().flatMap(PhotoPart::face).flatMap(photos::face);
    Optional<String> number = said.map(shown -> new MarkerStore(archive).numberOf(shown.marker()));
    if (json) {
      ObjectNode row =
          JsonLines.object()
              .put("photograph", one.photograph().id().toString())
              .put("path", one.photograph().originalPath())
              .put("number", one.number())
              .put("left", one.frame().left())
              .put("top", one.frame().top())
              .put("width", one.frame().widthPx())
              .put("height", one.frame().heightPx())
              .put("passedOver", one.said().isPresent() && said.isEmpty());
      number.ifPresent(marker -> row.put("marker", marker));
      said.ifPresent(shown -> row.put("face", shown.name()));
      row.put("read", one.lines().isPresent());
      one.lines().orElse(List.of()).forEach(row.putArray("lines")::add);
      JsonLines.print(out(), row);
      return;
    }
    String is =
        number
            .map(marker -> "marker " + marker + ", " + said.orElseThrow().name())
            .orElse(one.said().isPresent() ? "passed over" : "which?");
    out().println(one.photograph().originalName() + ", stone " + one.number() + ": " + is);
    one.lines()
        .ifPresentOrElse(
            lines ->
                out()
                    .println(
                        "    "
                            + (lines.isEmpty() ? "nothing readable" : String.join(" / ", lines))),
            () -> out().println("    not read yet"));
  }
}
