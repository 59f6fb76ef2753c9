package rakelight.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.work.NamedReader;
import rakelight.work.ReaderStore;
import rakelight.work.Regrouping;

@Command(
    name = "marker",
    description = {
      "Puts right which marker is which, under your name; one `undo` takes each back.",
      "  merge 22 --into 21         two numbers are one marker; it is found by both",
      "  split 21 --into 21a PHOTO  one marker is two; these photographs, or --face, go to a new one",
      "  move 21 --face back --into 30  a face stands on another marker, with all that is of it",
      "  move 21 --into 30 --only-reading  what was read belongs to another marker"
    })
final class MarkerCommand extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "WHAT", description = "merge, split or move.")
  private String what;

  @Parameters(index = "2", paramLabel = "NUMBER", description = "The marker.")
  private String number;

  @Parameters(
      index = "3..*",
      paramLabel = "PHOTO",
      description = "For split: id, digest, path or file name.")
  private List<String> photographs = List.of();

  @Option(
      names = "--into",
      required = true,
      paramLabel = "NUMBER",
      description = "The other marker; for split a new number.")
  private String into;

  @Option(
      names = "--face",
      paramLabel = "NAME",
      description = "The face that moves (default for move: front); of split, one or more.")
  private List<String> faces = List.of();

  @Option(
      names = "--as",
      paramLabel = "NAME",
      description = "For move: the face's name there, if it is another.")
  private Optional<String> as = Optional.empty();

  @Option(
      names = "--only-reading",
      description = "For move: only what was read on the face; photographs stay.")
  private boolean onlyReading;

  @Option(names = "--dry-run", description = "Only says what would be done.")
  private boolean dryRun;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    Regrouping.Done done = decide(archive, new Regrouping(archive));
    done.moves().forEach(out()::println);
    done.warnings().forEach(err()::println);
    out().println(dryRun ? "Nothing was changed." : "One `undo` takes it all back.");
    return 0;
  }

  private Regrouping.Done decide(Archive archive, Regrouping regrouping) {
    boolean move = what.equals("move");
    boolean split = what.equals("split");
    if (!move && !split && !what.equals("merge")) {
      throw wrong("What becomes of markers is merge, split or move, not " + what);
    }
    if (!move && (as.isPresent() || onlyReading)) {
      throw wrong("--as and --only-reading go with move.");
    }
    if ((split && photographs.isEmpty() && faces.isEmpty())
        || (!split && !photographs.isEmpty())
        || (what.equals("merge") && !faces.isEmpty())
        || (move && faces.size() > 1)) {
      throw wrong("Name photographs or faces for split, one face for move, none for merge.");
    }
    NamedReader by = new ReaderStore(archive).atTheTerminal(reader);
    MarkerStore markers = new MarkerStore(archive);
    Marker marker = markers.named(number);
    if (split) {
      List<Face> going = new ArrayList<>();
      faces.forEach(name -> going.add(face(archive, marker, name)));
      List<Photograph> shots =
          photographs.isEmpty() ? List.of() : Chosen.of(new PhotoStore(archive), photographs);
      return regrouping.split(marker, into, going, shots, dryRun, by);
    }
    Marker other = markers.named(into);
    if (!move) {
      return regrouping.merge(marker, other, dryRun, by);
    }
    Face face = face(archive, marker, faces.isEmpty() ? Face.FRONT : faces.get(0));
    String name = as.orElse(face.name());
    return onlyReading
        ? regrouping.moveReading(face, other, name, dryRun, by)
        : regrouping.move(face, other, name, dryRun, by);
  }

  private static Face face(Archive archive, Marker marker, String name) {
    return new PhotoStore(archive)
        .face(marker.id(), name)
        .orElseThrow(
            () -> new ArchiveException("Marker " + marker.number() + " has no face " + name + "."));
  }
}
