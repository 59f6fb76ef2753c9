package rakelight.reading;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.finding.FoundLine;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.PictureException;
import rakelight.picture.Polygon;
import rakelight.relief.LightDirection;
import rakelight.relief.RakingSet;
import rakelight.relief.SquaredFace;

/**
 * The photographs of a face that lie over the leading one, squared with the leading one's outline:
 * the same part of the stone from every light, however its face was outlined there.
 *
 * @param shots the leading one first
 * @param fromLeading from pixels of the leading photograph to those of the squared face
 * @param scale pixels of the squared face for one of the leading photograph
 */
record RakedShots(List<RakingSet.Shot> shots, Homography fromLeading, double scale) {
  /**
   * Squares them.
   *
   * @param views the leading one first
   * @throws PictureException if a photograph can't be decoded
   */
  static RakedShots of(Archive archive, PhotoStore photos, List<FaceView> views)
      throws IOException, PictureException {
    Polygon outline = views.get(0).outline();
    List<RakingSet.Shot> shots = new ArrayList<>();
    Homography toLeading = Homography.identity();
    for (FaceView view : views) {
      Optional<Homography> toThis = view.toLeading().map(Homography::inverse);
      if (toThis.isPresent()) {
        Photograph photograph = photos.photograph(view.photograph()).orElseThrow();
        SquaredFace squared =
            SquaredFace.of(
                Proposer.pixels(archive, photograph),
                outline.map(toThis.get()::map),
                views.get(0).proportion());
        if (shots.isEmpty()) {
          toLeading = squared.toPhotograph();
        }
        shots.add(new RakingSet.Shot(squared.image(), light(photos, photograph)));
      }
    }
    GrayImage first = shots.get(0).squared();
    return new RakedShots(
        List.copyOf(shots),
        toLeading.inverse(),
        Math.sqrt(first.widthPx() * (double) first.heightPx() / Math.max(1, outline.area())));
  }

  private static Optional<LightDirection> light(PhotoStore photos, Photograph photograph) {
    return photograph
        .light()
        .flatMap(
            light ->
                photograph
                    .face()
                    .flatMap(photos::face)
                    .flatMap(Face::bearingDegrees)
                    .flatMap(bearing -> LightDirection.of(light, bearing)));
  }

  /**
   * A line of the leading photograph where it lies on a picture of the squared face.
   *
   * @param pictureScale pixels of that picture for one of the squared face
   */
  FoundLine squared(FoundLine onLeading, double pictureScale) {
    Homography there =
        fromLeading.then(Homography.of(pictureScale, 0, 0, 0, pictureScale, 0, 0, 0, 1));
    return new FoundLine(
        onLeading.ribbon().map(there::map),
        onLeading.heightPx() * scale * pictureScale,
        onLeading.score());
  }
}
