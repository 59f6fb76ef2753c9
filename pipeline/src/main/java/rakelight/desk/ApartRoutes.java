package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import rakelight.archive.Apart;
import rakelight.archive.ApartStore;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.work.DecisionWords;

/**
 * What was decided differently on two laptops before they were brought together, for archivists:
 * decided anew where it is, or left as it stands.
 */
final class ApartRoutes {
  static final String HERE = "/apart";
  private static final int MOST_SHOWN = 50;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final ApartStore store;

  ApartRoutes(Archive archive, Requests requests, Pages pages) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.store = new ApartStore(archive);
  }

  void addTo(Javalin server) {
    server.get(HERE, context -> show(context, ""));
    server.post(HERE, this::leave);
  }

  private void show(Context context, String message) {
    requests.archivist(context);
    List<Apart> waiting = store.waiting();
    DecisionWords words = new DecisionWords(archive);
    List<ApartPage.Thing> things = new ArrayList<>();
    for (Apart apart : waiting.subList(0, Math.min(MOST_SHOWN, waiting.size()))) {
      things.add(thing(apart, words.tell(apart)));
    }
    pages.show(context, "apart", Map.of("apart", new ApartPage(things, waiting.size(), message)));
  }

  private ApartPage.Thing thing(Apart apart, DecisionWords.Told told) {
    List<ApartPage.Said> both = new ArrayList<>();
    for (DecisionWords.Said said : told.both()) {
      both.add(
          new ApartPage.Said(
              said.reader(),
              said.at().atZone(archive.ground().zone()).toLocalDate().toString(),
              said.words(),
              both.size() == told.both().size() - 1));
    }
    return new ApartPage.Thing(
        told.what(), told.about(), address(apart), key(apart), both, told.letters());
  }

  private String address(Apart apart) {
    FaceId face = new FaceId(apart.subject());
    MarkerId marker = new MarkerId(apart.subject());
    return new PhotoStore(archive).face(face).isPresent()
        ? "/faces/" + face
        : new MarkerStore(archive).marker(marker).isPresent() ? "/markers/" + marker : "";
  }

  private static String key(Apart apart) {
    return apart.what() + " " + apart.one() + " " + apart.other();
  }

  private void leave(Context context) {
    Map<String, String> form = requests.archivistsForm(context);
    try {
      Apart apart =
          store.waiting().stream()
              .filter(one -> key(one).equals(Requests.words(form, "key")))
              .findFirst()
              .orElseThrow(() -> new ArchiveException("That doesn’t wait any more."));
      store.leave(apart, Requests.words(form, "note"), requests.by(context).name());
      context.redirect(HERE, HttpStatus.SEE_OTHER);
    } catch (ArchiveException e) {
      context.status(422);
      show(context, String.valueOf(e.getMessage()));
    }
  }
}
