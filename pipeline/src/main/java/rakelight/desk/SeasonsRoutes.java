package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.marker.Marker;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.reading.ReaderOnDemand;
import rakelight.survey.SeasonsCompared;

/** How a marker's lines stood out in its first season and in its last, side by side. */
final class SeasonsRoutes {
  private final Archive archive;
  private final ReaderOnDemand reader;
  private final Requests requests;
  private final Pages pages;
  private final PhotoStore photographs;

  SeasonsRoutes(Archive archive, ReaderOnDemand reader, Requests requests, Pages pages) {
    this.archive = archive;
    this.reader = reader;
    this.requests = requests;
    this.pages = pages;
    this.photographs = new PhotoStore(archive);
  }

  void addTo(Javalin server) {
    server.get("/markers/{marker}/seasons", this::show);
  }

  private void show(Context context) {
    requests.deciding(context);
    Marker marker = requests.marker(context);
    List<SeasonsPage.Face> faces = new ArrayList<>();
    SeasonsCompared seasons = new SeasonsCompared(archive, reader);
    for (Face face : photographs.faces(marker.id())) {
      try {
        seasons.of(face).map(SeasonsRoutes::face).ifPresent(faces::add);
      } catch (BadInputException | IOException e) {
        faces.add(
            new SeasonsPage.Face(
                face.name(), "", "", "", List.of(), String.valueOf(e.getMessage())));
      }
    }
    pages.show(
        context,
        "seasons",
        Map.of(
            "seasons",
            new SeasonsPage(new FamilyPage.To(marker.number(), "/markers/" + marker.id()), faces)));
  }

  private static SeasonsPage.Face face(SeasonsCompared.Compared compared) {
    return new SeasonsPage.Face(
        compared.face().name(),
        compared.first() + " and " + compared.last(),
        String.valueOf(compared.first()),
        String.valueOf(compared.last()),
        compared.lines().stream()
            .map(
                line ->
                    new SeasonsPage.Line(
                        line.number(),
                        line.text(),
                        picture(line.before()),
                        picture(line.after()),
                        change(line),
                        letters(line),
                        line.change().isWorn()))
            .toList(),
        compared.notLaid().isEmpty()
            ? ""
            : "These photographs don’t fit over the one that was read: "
                + String.join(", ", compared.notLaid()));
  }

  private static String picture(Optional<byte[]> strip) {
    return strip
        .map(png -> "data:image/png;base64," + Base64.getEncoder().encodeToString(png))
        .orElse("");
  }

  private static String change(SeasonsCompared.Line line) {
    double change = line.change().change();
    double twice = 2 * line.change().uncertainty();
    return String.format(
        Locale.ROOT,
        "%+.0f %% (between %+.0f and %+.0f)",
        100 * Math.expm1(change),
        100 * Math.expm1(change - twice),
        100 * Math.expm1(change + twice));
  }

  private static String letters(SeasonsCompared.Line line) {
    return told("A machine tells", line.machine())
        + line.people().map(told -> "; " + told("people told", told)).orElse("");
  }

  private static String told(String who, SeasonsCompared.Told told) {
    return String.format(
        Locale.ROOT, "%s %.1f letters, then %.1f", who, told.before(), told.after());
  }
}
