package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import rakelight.archive.Json;
import rakelight.archive.PhotographId;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;

class FaceViewTest {
  private static final Polygon FACE = Polygon.rectangle(0, 0, 800, 600);

  @Test
  void aViewComesBackFromItsDocumentWithEmblemsAndOtherStones() {
    FaceView view =
        new FaceView(
            PhotographId.next(),
            FACE,
            Optional.of(1.4),
            Optional.of(Homography.identity()),
            List.of(Polygon.rectangle(300, 20, 500, 120)),
            List.of(Polygon.rectangle(820, 100, 900, 400)));

    assertThat(Json.read(Json.text(view), FaceView.class)).isEqualTo(view);
  }

  @Test
  void aViewKeptBeforeMoreThanItsOutlineWasLookedForIsStillRead() {
    FaceView view = new FaceView(PhotographId.next(), FACE, Optional.empty());
    ObjectNode earlier = (ObjectNode) Json.tree(view);
    earlier.remove(List.of("proportion", "emblems", "otherStones"));

    assertThat(Json.read(earlier.toString(), FaceView.class)).isEqualTo(view);
  }
}
