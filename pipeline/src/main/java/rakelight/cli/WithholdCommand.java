package rakelight.cli;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.People;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.publish.Withholding;
import rakelight.publish.Withholding.Cause;
import rakelight.publish.Withholding.Subject;
import rakelight.publish.WithholdingStore;

@Command(
    name = "withhold",
    description = {
      "Keeps something from whatever is published, under your name; `undo` lets it be told again,",
      "`withheld` lists what is kept back. The archive and its desk stay complete.",
      "  marker 14              a marker with all its faces and photographs",
      "  face 14 back           one face of it",
      "  photograph IMG_7.jpg   one photograph",
      "  person 14:front:2      a person wherever he is named, as `persons` lists him",
      "With --why no-permission only the photographs are kept back."
    })
final class WithholdCommand extends ArchiveCommand {
  private static final String CAUSES =
      Arrays.stream(Cause.values()).map(Cause::label).collect(Collectors.joining(", "));

  @Parameters(index = "1", paramLabel = "WHAT", description = "marker, face, photograph or person.")
  private String what;

  @Parameters(
      index = "2..*",
      arity = "1..2",
      paramLabel = "WHICH",
      description = "The marker's number, for a face also its name; the photograph; the mention.")
  private List<String> which;

  @Option(
      names = "--why",
      required = true,
      paramLabel = "CAUSE",
      description = "family, keeper or rule (whose wish it is), taken-down, no-permission.")
  private String why;

  @Option(
      names = "--reason",
      required = true,
      paramLabel = "WORDS",
      description = "The reason in words; it isn't published.")
  private String reason;

  @Option(
      names = "--asked-by",
      paramLabel = "NAME",
      description = "Who asked for it; not published either.")
  private Optional<String> askedBy = Optional.empty();

  @Option(
      names = "--on",
      required = true,
      paramLabel = "DAY",
      description = "The day it was asked for or ruled.")
  private LocalDate on;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    Cause cause =
        Cause.of(why).orElseThrow(() -> wrong("--why must be one of " + CAUSES + ", not " + why));
    if (!List.of("marker", "face", "photograph", "person").contains(what)) {
      throw wrong("What is withheld is a marker, face, photograph or person, not " + what);
    }
    if (which.size() != (what.equals("face") ? 2 : 1)) {
      throw wrong(
          what.equals("face")
              ? "A face is named by its marker and its name, such as: face 14 back"
              : "Name one " + what + " at a time");
    }
    Withholding made =
        new WithholdingStore(archive)
            .withhold(subject(archive), cause, reason, askedBy, on, reader);
    out()
        .println(
            what
                + " "
                + String.join(" ", which)
                + " is withheld: "
                + cause.words()
                + "  ("
                + made.decision()
                + ")");
    return 0;
  }

  private Subject subject(Archive archive) {
    return switch (what) {
      case "marker" -> new Subject.OfMarker(new MarkerStore(archive).named(which.get(0)).id());
      case "face" -> new Subject.OfFace(face(archive).id());
      case "photograph" ->
          new Subject.OfPhotograph(Chosen.of(new PhotoStore(archive), which).get(0).id());
      default -> new Subject.OfPerson(People.mention(archive, which.get(0)).id());
    };
  }

  private Face face(Archive archive) {
    Marker marker = new MarkerStore(archive).named(which.get(0));
    return new PhotoStore(archive)
        .face(marker.id(), which.get(1))
        .orElseThrow(
            () ->
                new ArchiveException(
                    "Marker " + marker.number() + " has no face " + which.get(1) + "."));
  }
}
