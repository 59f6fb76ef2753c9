package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.BadInputException;
import rakelight.archive.DecisionId;
import rakelight.marker.Caution;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Polygon;
import rakelight.survey.AlikeStore;
import rakelight.survey.CarvingsAlike;
import rakelight.survey.SaidOfCarvings;
import rakelight.survey.SaidOfTwo;

@Command(
    name = "alike",
    description = {
      "Carvings that look like one: of an emblem that somebody outlined, or of an area of a"
          + " photograph.",
      "The most alike come first, with how many places are alike. Likeness is an offer: that two"
          + " are",
      "\"same motif\", \"same hand\" or \"not\", people say (--is)."
    })
final class AlikeCommand extends ArchiveCommand {
  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "PHOTO",
      description = "A photograph's file name or id, with --area.")
  private Optional<String> photo = Optional.empty();

  @Option(
      names = "--area",
      paramLabel = "X,Y,W,H",
      description = "Where the carving is on it: left, top, width, height in upright pixels.")
  private Optional<String> area = Optional.empty();

  @Option(
      names = "--emblem",
      paramLabel = "ID",
      description = "A noted emblem that has an outline, by its decision (emblems --json).")
  private Optional<String> emblem = Optional.empty();

  @Mixin private LikesOptions likes = new LikesOptions();

  @Option(names = "--with", paramLabel = "ID", description = "Another noted emblem, for --is.")
  private Optional<String> with = Optional.empty();

  @Override
  int run(Archive archive) throws IOException, BadInputException {
    if (emblem.isPresent() == photo.isPresent() || photo.isPresent() != area.isPresent()) {
      throw wrong("Name an emblem (--emblem), or a photograph and the area on it (--area).");
    }
    if (with.isPresent() || likes.is().isPresent()) {
      return say(archive);
    }
    CarvingsAlike alike = new CarvingsAlike(archive);
    CarvingsAlike.Carving asked =
        emblem.isPresent() ? outlined(archive, alike) : area(archive, area.orElseThrow());
    List<CarvingsAlike.Like> found = alike.of(asked, likes.most());
    if (found.isEmpty()) {
      err()
          .println(
              "No other carving is known here; outline emblems, or run `propose`, which looks for"
                  + " them.");
      return 1;
    }
    List<SaidOfTwo<DecisionId, SaidOfCarvings>> said = new AlikeStore(archive).all();
    for (int i = 0; i < found.size(); i++) {
      CarvingsAlike.Like like = found.get(i);
      print(archive, i + 1, asked, like, said);
      likes.draw("alike", i + 1, () -> alike.beside(asked, like));
    }
    err().println(Caution.LOOK_ONLY);
    return 0;
  }

  private int say(Archive archive) {
    if (emblem.isEmpty() || with.isEmpty() || likes.is().isEmpty() || likes.reader().isEmpty()) {
      throw wrong("To say what two are, name both (--emblem, --with), --is and --reader.");
    }
    SaidOfCarvings said =
        SaidOfCarvings.labelled(likes.is().get())
            .orElseThrow(() -> wrong("Two are \"same motif\", \"same hand\" or not (--is)."));
    new AlikeStore(archive)
        .say(note(archive, emblem.get()), note(archive, with.get()), said, likes.reader().get());
    err().println("Noted: " + said.label() + ". `undo` takes it back.");
    return 0;
  }

  private static EmblemNote note(Archive archive, String id) {
    return new EmblemStore(archive)
        .all().stream()
            .filter(note -> note.decision().toString().equals(id.strip()))
            .findFirst()
            .orElseThrow(
                () ->
                    new ArchiveException(
                        "No emblem was noted as " + id + "; `emblems --json` lists them."));
  }

  private CarvingsAlike.Carving outlined(Archive archive, CarvingsAlike alike) {
    EmblemNote note = note(archive, emblem.orElseThrow());
    return alike
        .of(note)
        .orElseThrow(
            () ->
                new ArchiveException(
                    "That "
                        + note.name()
                        + " has no outline; name a photograph and --area instead."));
  }

  private CarvingsAlike.Carving area(Archive archive, String text) {
    double[] numbers;
    try {
      numbers = Arrays.stream(text.split(",")).mapToDouble(Double::parseDouble).toArray();
    } catch (NumberFormatException e) {
      throw wrong("--area takes four numbers, left,top,width,height, not " + text);
    }
    if (numbers.length != 4 || numbers[2] < 1 || numbers[3] < 1) {
      throw wrong("--area takes four numbers, left,top,width,height, not " + text);
    }
    String name = photo.orElseThrow();
    List<Photograph> named =
        new PhotoStore(archive)
            .photographs().stream()
                .filter(
                    shot -> shot.originalName().equals(name) || shot.id().toString().equals(name))
                .toList();
    if (named.size() != 1) {
      throw new ArchiveException(
          (named.isEmpty() ? "No photograph is called " : "Several photographs are called ")
              + name
              + "; `photographs` lists names and ids.");
    }
    Photograph shot = named.get(0);
    if (numbers[0] < 0
        || numbers[1] < 0
        || numbers[0] + numbers[2] > shot.uprightWidthPx()
        || numbers[1] + numbers[3] > shot.uprightHeightPx()) {
      throw new ArchiveException(
          "The area isn't on "
              + name
              + ", which is "
              + shot.uprightWidthPx()
              + " x "
              + shot.uprightHeightPx()
              + " pixels.");
    }
    return new CarvingsAlike.Carving(
        shot,
        Polygon.rectangle(numbers[0], numbers[1], numbers[0] + numbers[2], numbers[1] + numbers[3]),
        Optional.empty());
  }

  private void print(
      Archive archive,
      int rank,
      CarvingsAlike.Carving asked,
      CarvingsAlike.Like like,
      List<SaidOfTwo<DecisionId, SaidOfCarvings>> said) {
    CarvingsAlike.Carving carving = like.carving();
    Optional<Face> face = carving.photograph().face().flatMap(new PhotoStore(archive)::face);
    Optional<String> marker = face.map(one -> new MarkerStore(archive).numberOf(one.marker()));
    Optional<SaidOfTwo<DecisionId, SaidOfCarvings>> newest =
        asked
            .note()
            .flatMap(
                one ->
                    carving
                        .note()
                        .flatMap(
                            other ->
                                said.stream()
                                    .filter(it -> it.isOf(one.decision(), other.decision()))
                                    .reduce((a, b) -> b)));
    if (likes.json()) {
      ObjectNode object = JsonLines.object().put("rank", rank);
      marker.ifPresent(number -> object.put("marker", number));
      face.ifPresent(one -> object.put("face", one.name()));
      carving
          .note()
          .ifPresent(
              note ->
                  object.put("emblem", note.name()).put("decision", note.decision().toString()));
      object.put("photograph", carving.photograph().originalName());
      ArrayNode corners = object.putArray("outline");
      carving.outline().points().forEach(p -> corners.add(p.x()).add(p.y()));
      object
          .put("likeness", Math.round(1000 * like.match().likeness()) / 1000.0)
          .put("mirrored", like.match().mirrored())
          .put("places", like.match().places().size());
      newest.ifPresent(it -> object.put("said", it.said().label()).put("by", it.reader()));
      JsonLines.print(out(), object);
    } else {
      out()
          .printf(
              Locale.ROOT,
              "%2d  %.2f  %s  %s  %d places alike%s%s%n",
              rank,
              like.match().likeness(),
              marker
                  .map(number -> "marker " + number + " " + face.map(Face::name).orElse(""))
                  .orElse(carving.photograph().originalName()),
              carving.note().map(EmblemNote::name).orElse("an area that may be an emblem"),
              like.match().places().size(),
              like.match().mirrored() ? ", mirrored" : "",
              newest.map(it -> "  " + it.said().label() + ", says " + it.reader()).orElse(""));
    }
  }
}
