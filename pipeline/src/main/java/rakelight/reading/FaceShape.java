package rakelight.reading;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.PhotographId;
import rakelight.finding.Homography;
import rakelight.finding.PictureException;
import rakelight.finding.Polygon;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.relief.LightDirection;
import rakelight.relief.RakingSet;
import rakelight.relief.SquaredFace;

/**
 * A face squared from its leading photograph, and the shape that all its photographs show together.
 *
 * @param leading the leading photograph's
 * @param capitalPx the height of capitals on it
 * @param set empty for a single photograph, or where no second one fits
 * @param photographs those handed to the set, in its order
 */
record FaceShape(
    SquaredFace leading,
    double capitalPx,
    Optional<RakingSet> set,
    List<PhotographId> photographs) {

  /**
   * Squares the face from every view that lies over the leading one and combines them.
   *
   * @param views the leading one first
   * @param capitalPx the height of capitals on the leading photograph
   * @throws PictureException if the leading photograph can't be decoded; another one is left out
   */
  static FaceShape of(Archive archive, List<FaceView> views, double capitalPx)
      throws IOException, PictureException {
    PhotoStore photos = new PhotoStore(archive);
    Polygon outline = views.get(0).outline();
    Photograph first = photos.photograph(views.get(0).photograph()).orElseThrow();
    SquaredFace leading = SquaredFace.of(Proposer.pixels(archive, first), outline);
    List<RakingSet.Shot> shots = new ArrayList<>();
    List<PhotographId> photographs = new ArrayList<>();
    for (FaceView view : views) {
      Photograph photograph = photos.photograph(view.photograph()).orElseThrow();
      if (shots.isEmpty()) {
        shots.add(new RakingSet.Shot(leading.image(), light(photograph, photos)));
        photographs.add(photograph.id());
      } else if (view.toLeading().isPresent()) {
        // The same part of the stone from every light, however its face was outlined there.
        Homography fromLeading = view.toLeading().get().inverse();
        try {
          SquaredFace squared =
              SquaredFace.of(Proposer.pixels(archive, photograph), outline.map(fromLeading::map));
          shots.add(new RakingSet.Shot(squared.image(), light(photograph, photos)));
          photographs.add(photograph.id());
        } catch (PictureException e) {
          // The others show the face without it.
        }
      }
    }
    double scale =
        Math.sqrt(
            leading.image().widthPx()
                * (double) leading.image().heightPx()
                / Math.max(1, outline.area()));
    double capital = capitalPx * scale;
    return new FaceShape(leading, capital, RakingSet.of(shots, capital), photographs);
  }

  private static Optional<LightDirection> light(Photograph photograph, PhotoStore photos) {
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
}
