package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Apart;
import rakelight.archive.ApartStore;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.work.ReaderStore;

@Command(
    name = "apart",
    description = {
      "Lists what was decided differently on two laptops before their archives were merged. The"
          + " one",
      "that says [holds] holds, until somebody decides anew in the usual way, undoes one of the"
          + " two, or",
      "says with --leave that it may stay so."
    })
final class ApartCommand extends ArchiveCommand {
  private static final int SAID_CHARS = 160;

  @Option(
      names = "--leave",
      paramLabel = "N",
      description = "The N-th in the list may stay as it is.")
  private Optional<Integer> leave = Optional.empty();

  @Option(names = "--note", paramLabel = "TEXT", description = "Why it may.")
  private String note = "";

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name; with --leave.")
  private Optional<String> reader = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    ApartStore store = new ApartStore(archive);
    List<Apart> waiting = store.waiting();
    if (leave.isPresent()) {
      if (reader.isEmpty()) {
        throw wrong("Give your name with --leave (--reader).");
      }
      if (leave.get() < 1 || leave.get() > waiting.size()) {
        throw new ArchiveException(
            "There is no number " + leave.get() + " in the list of `apart`.");
      }
      new ReaderStore(archive).atTheTerminal(reader.get()).requireDeciding();
      Apart apart = waiting.get(leave.get() - 1);
      store.leave(apart, note, reader.get());
      out().println("Left so: " + apart.what() + ", " + about(archive, apart) + ".");
      return 0;
    }
    for (int i = 0; i < waiting.size(); i++) {
      Apart apart = waiting.get(i);
      List<Decision> both = new ArrayList<>();
      archive.journal().find(apart.one()).ifPresent(both::add);
      archive.journal().find(apart.other()).ifPresent(both::add);
      both.sort(java.util.Comparator.comparing(Decision::counter));
      if (json) {
        JsonLines.print(out(), object(archive, i + 1, apart, both));
      } else {
        print(archive, i + 1, apart, both);
      }
    }
    if (waiting.isEmpty() && !json) {
      out().println("Nothing waits.");
    }
    return 0;
  }

  private void print(Archive archive, int number, Apart apart, List<Decision> both) {
    out().println(number + "  " + apart.what() + ": " + about(archive, apart));
    boolean areOfOne = both.stream().map(Decision::subject).distinct().count() == 1;
    for (int i = 0; i < both.size(); i++) {
      Decision decision = both.get(i);
      String said = Json.text(decision.payload());
      out()
          .println(
              "    "
                  + decision.reader()
                  + ", "
                  + decision.at()
                  + (i == both.size() - 1 && areOfOne ? " [holds] " : " ")
                  + decision.id()
                  + "  "
                  + (said.length() > SAID_CHARS ? said.substring(0, SAID_CHARS) + "…" : said));
    }
    String of = areOfOne ? "letters: " : "";
    apart.words().forEach(words -> out().println("    " + of + words));
  }

  private static ObjectNode object(Archive archive, int number, Apart apart, List<Decision> both) {
    ObjectNode object =
        JsonLines.object()
            .put("number", number)
            .put("what", apart.what())
            .put("about", about(archive, apart));
    for (Decision decision : both) {
      object
          .withArray("decisions")
          .addObject()
          .put("id", decision.id().toString())
          .put("reader", decision.reader())
          .put("at", decision.at().toString())
          .put("kind", decision.kind())
          .put("said", Json.text(decision.payload()));
    }
    apart.words().forEach(words -> object.withArray("letters").add(words));
    return object;
  }

  /** What a thing is called: a marker or face by its number, a photograph by its file's name. */
  static String about(Archive archive, Apart apart) {
    MarkerStore markers = new MarkerStore(archive);
    PhotoStore photos = new PhotoStore(archive);
    return photos
        .face(new FaceId(apart.subject()))
        .map(face -> "marker " + markers.numberOf(face.marker()) + ", face " + face.name())
        .or(
            () ->
                markers
                    .marker(new MarkerId(apart.subject()))
                    .map(marker -> "marker " + marker.number()))
        .or(
            () ->
                photos
                    .photograph(new PhotographId(apart.subject()))
                    .map(photograph -> "photograph " + photograph.originalName()))
        .or(() -> aboutWithdrawn(archive, apart))
        .orElse(apart.subject().equals(archive.id()) ? "the ground" : apart.subject().toString());
  }

  private static Optional<String> aboutWithdrawn(Archive archive, Apart apart) {
    MarkerStore markers = new MarkerStore(archive);
    return markers
        .numberGiven(new MarkerId(apart.subject()))
        .map(number -> "marker " + number)
        .or(
            () ->
                new PhotoStore(archive)
                    .facePlaced(new FaceId(apart.subject()))
                    .map(
                        face ->
                            "marker "
                                + markers.numberGiven(face.marker()).orElse("?")
                                + ", face "
                                + face.name()));
  }
}
