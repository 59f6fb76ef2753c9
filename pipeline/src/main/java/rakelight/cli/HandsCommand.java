package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.time.Clock;
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
import rakelight.archive.FaceId;
import rakelight.marker.Caution;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.relief.HandsCompared;
import rakelight.relief.LetterPairs;
import rakelight.survey.HandStore;
import rakelight.survey.SaidOfHands;
import rakelight.survey.SaidOfTwo;
import rakelight.work.Faces;
import rakelight.work.Leases;
import rakelight.work.LetteringHands;

@Command(
    name = "hands",
    description = {
      "Faces whose letters are cut like those of one: letters that people read for sure, each"
          + " against the",
      "same letter of another face. They may be of one hand, or of one pattern that many cut:"
          + " whether",
      "\"one hand\", \"other hands\" or \"can't tell\", people say (--is)."
    })
final class HandsCommand extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "MARKER", description = "The marker's number.")
  private String number = "";

  @Option(
      names = "--face",
      paramLabel = "NAME",
      description = "The face; not needed where the marker has one, or one named front.")
  private Optional<String> face = Optional.empty();

  @Mixin private LikesOptions likes = new LikesOptions();

  @Option(names = "--with", paramLabel = "MARKER", description = "Another marker, for --is.")
  private Optional<String> with = Optional.empty();

  @Option(names = "--with-face", paramLabel = "NAME", description = "Its face, as --face.")
  private Optional<String> withFace = Optional.empty();

  @Override
  int run(Archive archive) throws IOException, BadInputException {
    Face asked = face(archive, number, face, "--face");
    if (with.isPresent() || likes.is().isPresent()) {
      return say(archive, asked);
    }
    List<LetteringHands.Like> found =
        new LetteringHands(archive, new Faces(archive, new Leases(Clock.systemUTC())))
            .of(asked, likes.most());
    if (found.isEmpty()) {
      err()
          .println(
              "No face can be compared: sign a reading of this one and of others of which `propose`"
                  + " found the letters; "
                  + HandsCompared.LEAST_SHARED
                  + " letters must be on both.");
      return 1;
    }
    HandStore said = new HandStore(archive);
    for (int i = 0; i < found.size(); i++) {
      LetteringHands.Like like = found.get(i);
      print(archive, i + 1, like, said.newest(asked.id(), like.face().id()));
      likes.draw("hands", i + 1, like::drawn);
    }
    err().println(Caution.LOOK_ONLY);
    return 0;
  }

  private int say(Archive archive, Face asked) {
    if (with.isEmpty() || likes.is().isEmpty() || likes.reader().isEmpty()) {
      throw wrong("To say what two are, name the other (--with), --is and --reader.");
    }
    SaidOfHands said =
        SaidOfHands.labelled(likes.is().get())
            .orElseThrow(
                () -> wrong("Two are of \"one hand\", of \"other hands\", or you \"can't tell\"."));
    Face other = face(archive, with.get(), withFace, "--with-face");
    new HandStore(archive).say(asked.id(), other.id(), said, likes.reader().get());
    err().println("Noted: " + said.label() + ". `undo` takes it back.");
    return 0;
  }

  private static Face face(Archive archive, String number, Optional<String> wanted, String option) {
    Marker marker = new MarkerStore(archive).named(number);
    List<Face> faces = new PhotoStore(archive).faces(marker.id());
    Optional<Face> named =
        faces.stream()
            .filter(one -> one.name().equals(wanted.orElse(Face.FRONT)))
            .findFirst()
            .or(
                () ->
                    wanted.isEmpty() && faces.size() == 1
                        ? Optional.of(faces.get(0))
                        : Optional.empty());
    return named.orElseThrow(
        () ->
            new ArchiveException(
                "Marker "
                    + number
                    + (faces.isEmpty()
                        ? " has no face."
                        : wanted.isEmpty()
                            ? " has several faces; give " + option + " with one of: " + names(faces)
                            : " has no face "
                                + wanted.get()
                                + "; give "
                                + option
                                + " with one of: "
                                + names(faces))));
  }

  private static String names(List<Face> faces) {
    return String.join(", ", faces.stream().map(Face::name).toList());
  }

  private void print(
      Archive archive,
      int rank,
      LetteringHands.Like like,
      Optional<SaidOfTwo<FaceId, SaidOfHands>> newest) {
    String marker = new MarkerStore(archive).numberOf(like.face().marker());
    List<String> letters = like.shared().stream().map(LetterPairs.Pair::letter).toList();
    if (likes.json()) {
      ObjectNode object =
          JsonLines.object()
              .put("rank", rank)
              .put("marker", marker)
              .put("face", like.face().name())
              .put("likeness", Math.round(100 * like.likeness()) / 100.0);
      ArrayNode array = object.putArray("letters");
      letters.forEach(array::add);
      newest.ifPresent(it -> object.put("said", it.said().label()).put("by", it.reader()));
      JsonLines.print(out(), object);
    } else {
      out()
          .printf(
              Locale.ROOT,
              "%2d  %+.2f  marker %s %s  %s, by %d letters: %s%s%n",
              rank,
              like.likeness(),
              marker,
              like.face().name(),
              like.mayBeOne() ? "may be one hand" : "not more alike than most",
              letters.size(),
              String.join(" ", letters),
              newest.map(it -> "  " + it.said().label() + ", says " + it.reader()).orElse(""));
    }
  }
}
