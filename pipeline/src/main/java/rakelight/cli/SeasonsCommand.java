package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.marker.Caution;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.reading.ReaderOnDemand;
import rakelight.survey.SeasonsCompared;

@Command(
    name = "seasons",
    description = {
      "How legible each line is on the photographs of a face's last year against those of its"
          + " first: how",
      "far its letters stand out, times how many a machine and people can tell; and whether that is"
          + " less",
      "than another light alone could make it. It measures pictures; what happened to the stone,"
          + " somebody",
      "who looks at it says."
    })
final class SeasonsCommand extends ArchiveCommand {
  @Option(
      names = "--marker",
      paramLabel = "NUMBER",
      description = "This marker alone (default: all photographed in two years or more).")
  private Optional<String> number = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) throws IOException {
    MarkerStore markers = new MarkerStore(archive);
    PhotoStore photos = new PhotoStore(archive);
    List<Marker> asked = number.map(one -> List.of(markers.named(one))).orElseGet(markers::markers);
    int compared = 0;
    int failed = 0;
    try (ReaderOnDemand reader = new ReaderOnDemand()) {
      SeasonsCompared seasons = new SeasonsCompared(archive, reader);
      for (Marker marker : asked) {
        for (Face face : photos.faces(marker.id())) {
          try {
            Optional<SeasonsCompared.Compared> found = seasons.of(face);
            compared += found.isPresent() ? 1 : 0;
            found.ifPresent(one -> print(marker, one));
          } catch (BadInputException e) {
            err()
                .println(
                    "Marker " + marker.number() + ", face " + face.name() + ": " + e.getMessage());
            failed++;
          }
        }
      }
    }
    if (compared == 0 && failed == 0) {
      err()
          .println(
              "Nothing to compare: no face that was read has photographs of two years"
                  + " (`photographs` says when each was taken).");
      return number.isPresent() ? 1 : 0;
    }
    if (!json) {
      out().println(Caution.CONDITION);
    }
    return failed == 0 ? 0 : 1;
  }

  private void print(Marker marker, SeasonsCompared.Compared compared) {
    String where = "marker " + marker.number() + " " + compared.face().name();
    for (SeasonsCompared.Line line : compared.lines()) {
      if (json) {
        ObjectNode row = JsonLines.object();
        told(row.putObject("machine"), line.machine());
        line.people().ifPresent(told -> told(row.putObject("people"), told));
        JsonLines.print(
            out(),
            row.put("marker", marker.number())
                .put("face", compared.face().name())
                .put("first", compared.first())
                .put("last", compared.last())
                .put("line", line.number())
                .put("text", line.text())
                .put("contrast", rounded(line.contrast().before()))
                .put("contrastChange", rounded(line.contrast().change()))
                .put("change", rounded(line.change().change()))
                .put("uncertainty", rounded(line.change().uncertainty()))
                .put("worn", line.change().isWorn()));
      } else {
        out()
            .printf(
                Locale.ROOT,
                "%s  %d to %d  line %d  %s  %+.0f%% (%+.0f to %+.0f)  letters %.1f, then"
                    + " %.1f%s%s%n",
                where,
                compared.first(),
                compared.last(),
                line.number(),
                line.text(),
                perCent(line.change().change()),
                perCent(line.change().change() - 2 * line.change().uncertainty()),
                perCent(line.change().change() + 2 * line.change().uncertainty()),
                line.machine().before(),
                line.machine().after(),
                line.people()
                    .map(
                        told ->
                            String.format(
                                Locale.ROOT,
                                "; people told %.1f, then %.1f",
                                told.before(),
                                told.after()))
                    .orElse(""),
                line.change().isWorn() ? "  LESS LEGIBLE" : "");
      }
    }
    compared
        .notLaid()
        .forEach(
            name ->
                err().println(where + ": " + name + " doesn't fit over the one that was read."));
  }

  private static void told(ObjectNode node, SeasonsCompared.Told told) {
    node.put("before", rounded(told.before())).put("after", rounded(told.after()));
  }

  private static double perCent(double logarithm) {
    return 100 * Math.expm1(logarithm);
  }

  private static double rounded(double value) {
    return Math.round(1000 * value) / 1000.0;
  }
}
