package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.PhotographId;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoPart;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.StoneBeside;
import rakelight.reading.StonesBeside;
import rakelight.work.NamedReader;

/** Stones beside those that photographs are of: an archivist says which markers they are. */
final class BesideRoutes {
  private static final String ADDRESS = "/beside";
  private static final int ON_PAGE = 12;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final MarkerStore markers;
  private final PhotoStore photos;
  private final StonesBeside beside;

  BesideRoutes(Archive archive, Requests requests, Pages pages) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.markers = new MarkerStore(archive);
    this.photos = new PhotoStore(archive);
    this.beside = new StonesBeside(archive);
  }

  void addTo(Javalin server) {
    server.get(ADDRESS, context -> show(context, ""));
    server.post(ADDRESS, this::say);
  }

  private void show(Context context, String message) {
    NamedReader by = requests.archivist(context);
    Optional<Photograph> photograph =
        Optional.of(Requests.asked(context, "photograph"))
            .filter(id -> !id.isEmpty())
            .map(requests::photograph);
    List<StoneBeside> stones = photograph.map(beside::on).orElseGet(beside::open);
    Map<String, String> query =
        photograph.map(one -> Map.of("photograph", one.id().toString())).orElse(Map.of());
    Paged<StoneBeside> page =
        Paged.of(
            stones,
            Paged.page(Optional.ofNullable(context.queryParam("page"))),
            ON_PAGE,
            ADDRESS,
            query);
    pages.show(
        context,
        "beside",
        Map.of(
            "beside",
            new BesidePage(
                photograph
                    .map(one -> "Stones on " + one.originalName())
                    .orElse("Stones beside others"),
                photograph.isPresent(),
                page.map(this::shown),
                acts(by)),
            "message",
            message));
  }

  private BesidePage.Stone shown(StoneBeside stone) {
    Photograph photograph = stone.photograph();
    return new BesidePage.Stone(
        photograph.id().toString(),
        photograph.originalName(),
        stone.number(),
        photograph.uprightWidthPx(),
        photograph.uprightHeightPx(),
        stone.frame().left(),
        stone.frame().top(),
        stone.frame().widthPx(),
        stone.frame().heightPx(),
        StonePages.points(
            stone.outline().points().stream()
                .flatMap(point -> Stream.of(point.x(), point.y()))
                .toList()),
        stone.lines().orElse(List.of()),
        stone.said().map(this::inWords).orElse(""));
  }

  private String inWords(PhotoPart part) {
    return part.face()
        .flatMap(photos::face)
        .map(face -> "marker " + markers.numberOf(face.marker()) + ", " + face.name())
        .orElse("passed over");
  }

  private List<Act> acts(NamedReader by) {
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    List<Act> acts = new ArrayList<>();
    for (PhotographId id : photos.parts().stream().map(PhotoPart::photograph).distinct().toList()) {
      String name = photos.photograph(id).map(Photograph::originalName).orElse("");
      for (Decision decision : archive.journal().standing(id.value())) {
        if (PhotoStore.saysWhichStone(decision)) {
          acts.add(Act.of(decision, "said which stone is on " + name, undone, by, ADDRESS));
        }
      }
    }
    return acts;
  }

  private void say(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.archivist(context);
    Photograph photograph = requests.photograph(form.getOrDefault("photograph", ""));
    StoneBeside stone =
        beside.on(photograph).stream()
            .filter(one -> Integer.toString(one.number()).equals(form.get("stone")))
            .findFirst()
            .orElseThrow(() -> Refusal.notFound("stone on this photograph"));
    try {
      if ("pass".equals(form.get("do"))) {
        photos.passOver(photograph, stone.frame(), by.name());
      } else {
        put(photograph, stone, form, by);
      }
      context.redirect(ADDRESS);
    } catch (ArchiveException e) {
      context.status(422);
      show(context, String.valueOf(e.getMessage()));
    }
  }

  private void put(
      Photograph photograph, StoneBeside stone, Map<String, String> form, NamedReader by) {
    String number = Requests.words(form, "number");
    if (number.isEmpty()) {
      throw new ArchiveException("Say which marker it is by its number.");
    }
    if (markers.byNumber(number).isEmpty() && !form.containsKey("new")) {
      throw new ArchiveException(
          "There is no marker " + number + " here. If it is a new one, say so.");
    }
    archive
        .ledger()
        .write(
            handle -> {
              Face face = photos.faceOf(number, Requests.words(form, "face"), by.name());
              photos.alsoShows(photograph, face.id(), stone.frame(), by.name());
              return 0;
            });
  }
}
