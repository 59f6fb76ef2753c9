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
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.survey.HandStore;
import rakelight.survey.SaidOfHands;
import rakelight.survey.SaidOfTwo;
import rakelight.work.Faces;
import rakelight.work.LetteringHands;
import rakelight.work.NamedReader;

/** Faces whose letters are cut like those of a marker; whether one hand cut both, people say. */
final class HandsRoutes {
  private static final int MOST = 8;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final MarkerStore markers;
  private final PhotoStore photographs;
  private final HandStore store;
  private final LetteringHands hands;

  HandsRoutes(Archive archive, Requests requests, Pages pages, Faces faces) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.markers = new MarkerStore(archive);
    this.photographs = new PhotoStore(archive);
    this.store = new HandStore(archive);
    this.hands = new LetteringHands(archive, faces);
  }

  void addTo(Javalin server) {
    server.get("/markers/{marker}/hands", this::show);
    server.post("/markers/{marker}/hands", this::say);
  }

  private static String address(Marker marker) {
    return "/markers/" + marker.id() + "/hands";
  }

  private void show(Context context) {
    NamedReader by = requests.deciding(context);
    Marker marker = requests.marker(context);
    List<HandsPage.Face> faces = new ArrayList<>();
    for (Face face : photographs.faces(marker.id())) {
      faces.add(shown(face));
    }
    pages.show(
        context,
        "hands",
        Map.of(
            "hands",
            new HandsPage(
                new FamilyPage.To(marker.number(), "/markers/" + marker.id()),
                faces,
                acts(marker, by))));
  }

  private HandsPage.Face shown(Face face) {
    try {
      List<HandsPage.Row> rows = new ArrayList<>();
      for (LetteringHands.Like like : hands.of(face, MOST)) {
        Optional<Marker> marker = markers.marker(like.face().marker());
        marker.ifPresent(one -> rows.add(row(face, like, one, rows.size() + 1)));
      }
      return new HandsPage.Face(
          face.name(),
          rows.isEmpty()
              ? "Nothing can be compared: it takes a signed reading of this face and of others on"
                  + " whose photographs a machine found the letters."
              : "",
          rows);
    } catch (BadInputException | IOException e) {
      return new HandsPage.Face(
          face.name(),
          "Its photograph can’t be looked at: " + e.getMessage() + ". Run `check`.",
          List.of());
    }
  }

  private HandsPage.Row row(Face face, LetteringHands.Like like, Marker marker, int rank) {
    return new HandsPage.Row(
        rank,
        "data:image/png;base64," + Base64.getEncoder().encodeToString(like.drawn()),
        new FamilyPage.To(marker.number(), "/markers/" + marker.id()),
        String.format(
            Locale.ROOT,
            "%s, %s: likeness %+.2f by %d letters",
            like.face().name(),
            like.mayBeOne() ? "may be one hand" : "not more alike than most",
            like.likeness(),
            like.shared().size()),
        like.face().id().toString(),
        store
            .newest(face.id(), like.face().id())
            .map(said -> said.said().label() + ", says " + said.reader())
            .orElse(""));
  }

  private List<Act> acts(Marker marker, NamedReader by) {
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    List<FaceId> own = photographs.faces(marker.id()).stream().map(Face::id).toList();
    List<Act> acts = new ArrayList<>();
    for (SaidOfTwo<FaceId, SaidOfHands> said : store.all()) {
      if (own.contains(said.one()) || own.contains(said.other())) {
        Decision decision = archive.journal().find(said.decision()).orElseThrow();
        acts.add(
            0,
            Act.of(
                decision,
                "said of its letters and another’s: " + said.said().label(),
                undone,
                by,
                address(marker)));
      }
    }
    return acts;
  }

  private void say(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    Marker marker = requests.marker(context);
    Face own =
        photographs
            .face(marker.id(), form.getOrDefault("face", ""))
            .orElseThrow(() -> Refusal.notFound("face of this marker"));
    Face other =
        Requests.known(form.getOrDefault("with", ""), FaceId::of, photographs::face, "face");
    SaidOfHands said =
        SaidOfHands.labelled(form.getOrDefault("is", ""))
            .orElseThrow(() -> Refusal.malformed("This form can't be read."));
    store.say(own.id(), other.id(), said, requests.by(context).name());
    context.redirect(address(marker));
  }
}
