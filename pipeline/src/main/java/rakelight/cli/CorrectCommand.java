package rakelight.cli;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.names.NameForms;
import rakelight.person.Correction;
import rakelight.person.Correction.What;
import rakelight.person.CorrectionStore;
import rakelight.person.Evidence;
import rakelight.person.ReadWord;
import rakelight.person.Statement;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.work.Corrections;
import rakelight.work.NamedReader;
import rakelight.work.ReaderStore;
import rakelight.work.RefusedException;

@Command(
    name = "correct",
    description = {
      "Says how the words of a face are to be taken, under your name; `undo` takes it back. Without",
      "more than the archive it lists what was said and whether it still fits the reading.",
      "  name 12 front \"MARY ANN SMALLEY\"     these words are a name",
      "  not-so 12 front \"FAREWELL PARKER\"    what `statements` tells of these words isn't so",
      "  belongs 12 front \"died 1851\" --to 2  it is told of the second person of the face",
      "  verse 12 front \"Weep not for me\"     these words are verse",
      "  not-verse 12 front \"JOHN 1851\"       these words are no verse"
    })
final class CorrectCommand extends ArchiveCommand {
  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "WHAT",
      description = "name, not-so, belongs, verse or not-verse.")
  private Optional<String> what = Optional.empty();

  @Parameters(
      index = "2..*",
      arity = "0..3",
      paramLabel = "WHERE",
      description = "Marker, face, and the words as the reading has them.")
  private List<String> where = new ArrayList<>();

  @Option(
      names = "--surname-words",
      paramLabel = "N",
      description = "How many words, from the last, are the surname (1).")
  private int surnameWords = 1;

  @Option(
      names = "--to",
      paramLabel = "NUMBER",
      description = "Of whom it is told: his number on the face.")
  private Optional<Integer> to = Optional.empty();

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name.")
  private Optional<String> reader = Optional.empty();

  @Override
  int run(Archive archive) {
    if (what.isEmpty()) {
      list(archive);
      return 0;
    }
    if (where.size() != 3) {
      throw wrong("Give a marker, a face and the words, such as 12 front \"MARY ANN SMALLEY\"");
    }
    NamedReader by =
        new ReaderStore(archive)
            .atTheTerminal(
                reader.orElseThrow(() -> wrong("Give your name (--reader): it is signed.")));
    Marker marker = new MarkerStore(archive).named(where.get(0));
    Face face =
        new PhotoStore(archive)
            .faces(marker.id()).stream()
                .filter(one -> one.name().equals(where.get(1)))
                .findFirst()
                .orElseThrow(
                    () ->
                        new ArchiveException(
                            "Marker " + marker.number() + " has no face " + where.get(1) + "."));
    Reading reading =
        new ReadingStore(archive)
            .current(face.id())
            .orElseThrow(
                () ->
                    new ArchiveException(
                        "Marker "
                            + marker.number()
                            + ", "
                            + face.name()
                            + ": nobody has signed a"
                            + " reading of it. Confirm one first."));
    try {
      Correction said = say(new Corrections(archive), archive, reading, by);
      out().println(place(marker, face) + "  " + said.inWords() + "  (" + said.decision() + ")");
      return 0;
    } catch (RefusedException e) {
      throw new ArchiveException(e.refused().words());
    }
  }

  private Correction say(
      Corrections corrections, Archive archive, Reading reading, NamedReader by) {
    switch (what.orElseThrow()) {
      case "not-so", "belongs" -> {
        int which = statement(archive, reading);
        return what.orElseThrow().equals("not-so")
            ? corrections.notSo(reading.face(), reading.id(), which, by)
            : corrections.belongs(
                reading.face(),
                reading.id(),
                which,
                to.orElseThrow(() -> wrong("Say of whom it is told (--to)")),
                by);
      }
      case "name", "verse", "not-verse" -> {
        int[] words = words(reading);
        return what.orElseThrow().equals("name")
            ? corrections.name(reading.face(), reading.id(), words[0], words[1], surnameWords, by)
            : corrections.words(
                reading.face(),
                reading.id(),
                what.orElseThrow().equals("verse") ? What.VERSE : What.NOT_VERSE,
                words[0],
                words[1],
                by);
      }
      default ->
          throw wrong(
              "What is said is name, not-so, belongs, verse or not-verse, not "
                  + what.orElseThrow());
    }
  }

  /** The statement whose words were given; the only one of them. */
  private int statement(Archive archive, Reading reading) {
    List<Statement> told = new Evidence(archive).told(reading);
    List<Integer> meant = new ArrayList<>();
    for (int i = 0; i < told.size(); i++) {
      if (!told.get(i).isReckoned() && folded(told.get(i).text()).equals(folded(where.get(2)))) {
        meant.add(i);
      }
    }
    if (meant.size() != 1) {
      throw new ArchiveException(
          "“"
              + where.get(2)
              + "”: "
              + (meant.isEmpty() ? "nothing is" : "more than one thing is")
              + " told of these words. Give them as `statements` shows them, between “ and ”.");
    }
    return meant.get(0);
  }

  /** The first and the last of the words that were given; the only place where they stand. */
  private int[] words(Reading reading) {
    List<String> all =
        ReadWord.of(reading.inscription()).stream().map(word -> folded(word.shown())).toList();
    List<String> asked =
        Arrays.stream(where.get(2).strip().split("[ /]+", -1)).map(this::folded).toList();
    List<Integer> at = new ArrayList<>();
    for (int i = 0; i + asked.size() <= all.size(); i++) {
      if (all.subList(i, i + asked.size()).equals(asked)) {
        at.add(i);
      }
    }
    if (at.size() != 1) {
      throw new ArchiveException(
          "“"
              + where.get(2)
              + "” stands "
              + (at.isEmpty() ? "nowhere" : "more than once")
              + " on this face. Give the words in a row as the reading has them, "
              + (at.isEmpty() ? "? for a lost letter." : "and some beside them."));
    }
    return new int[] {at.get(0), at.get(0) + asked.size() - 1};
  }

  private String folded(String words) {
    return NameForms.fold(words.replace('?', 'ʔ').replace('…', 'ʕ'));
  }

  private void list(Archive archive) {
    PhotoStore photographs = new PhotoStore(archive);
    MarkerStore markers = new MarkerStore(archive);
    ReadingStore readings = new ReadingStore(archive);
    new CorrectionStore(archive)
        .all()
        .forEach(
            (id, all) -> {
              Face face = photographs.face(id).orElseThrow();
              Marker marker = markers.marker(face.marker()).orElseThrow();
              for (Correction said : all) {
                boolean fits =
                    readings.current(id).filter(r -> said.fits(r.inscription())).isPresent();
                out()
                    .println(
                        place(marker, face)
                            + "  "
                            + said.inWords()
                            + (fits ? "" : "  NO LONGER FITS, not used")
                            + "  "
                            + said.reader()
                            + "  ("
                            + said.decision()
                            + ")");
              }
            });
  }

  private static String place(Marker marker, Face face) {
    return marker.number() + " " + face.name();
  }
}
