package rakelight.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.Optional;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.publish.LetterPlaces;
import rakelight.publish.ReadFrom;
import rakelight.publish.ToldFace;
import rakelight.publish.iiif.Manifests;
import rakelight.publish.iiif.PictureFile;

/**
 * What viewers of pictures read: the manifests and annotations of an export, as of today and under
 * the desk's own address. Everybody who has signed in gets what everybody may be told.
 */
final class ManifestRoutes {
  private static final int LONGEST_PX = 3200;

  private final Requests requests;
  private final Concluding concluding;
  private final Reach reach;
  private final LetterPlaces letters;

  ManifestRoutes(Requests requests, Concluding concluding, Reach reach, LetterPlaces letters) {
    this.requests = requests;
    this.concluding = concluding;
    this.reach = reach;
    this.letters = letters;
  }

  void addTo(Javalin server) {
    server.get("/" + Manifests.COLLECTION, this::collection);
    server.get("/iiif/{marker}/{name}", this::ofMarker);
    server.get("/annotations/{name}", this::ofFace);
  }

  private Manifests manifests(Context context, Conclusion now) {
    requests.by(context);
    String base = (reach.behindTls() ? "https://" : "http://") + context.header("Host") + "/";
    return new Manifests(
        now.edition(),
        now.edition().faces(),
        now.around().byId(),
        base,
        shot -> now.edition().shows(shot) ? Optional.of(picture(base, shot)) : Optional.empty(),
        letters);
  }

  private static PictureFile picture(String base, ReadFrom.Shot shot) {
    return PictureFile.jpeg(
        base + "images/photographs/" + shot.id() + "?longest=" + LONGEST_PX, shot, LONGEST_PX);
  }

  private void collection(Context context) {
    Conclusion now = concluding.now();
    Pages.json(context, manifests(context, now).collection(now.pictured()));
  }

  private void ofMarker(Context context) {
    Manifests manifests = manifests(context, concluding.now());
    MarkerId marker = requests.marker(context).id();
    String name = context.pathParam("name");
    ObjectNode found =
        name.equals("manifest.json")
            ? manifests.manifest(marker).orElseThrow(() -> Refusal.notFound("manifest"))
            : manifests.pages(marker).stream()
                .filter(page -> page.name().equals(name))
                .map(Manifests.Page::json)
                .findFirst()
                .orElseThrow(() -> Refusal.notFound("page"));
    Pages.json(context, found);
  }

  private void ofFace(Context context) {
    Conclusion now = concluding.now();
    Manifests manifests = manifests(context, now);
    FaceId id = requests.faceOf(context.pathParam("name").replaceFirst("\\.json$", "")).id();
    ToldFace face =
        now.edition().faces().stream()
            .filter(one -> one.says().face().id().equals(id))
            .findFirst()
            .orElseThrow(() -> Refusal.notFound("face"));
    Pages.json(
        context, manifests.annotations(face).orElseThrow(() -> Refusal.notFound("annotation")));
  }
}
