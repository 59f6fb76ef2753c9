package rakelight.desk;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;
import rakelight.reading.FacePictures;
import rakelight.reading.Proposal;
import rakelight.relief.RakingSet;
import rakelight.relief.Relief;

/** The pictures of the desk; one that can't be made is told as one that isn't there. */
final class Pictures {
  /** The sizes that are given, longest side in pixels. */
  static final Set<Integer> LONGEST_PX = Set.of(240, 800, 1600, 3200);

  private final FacePictures pictures;

  Pictures(Archive archive) {
    this.pictures = new FacePictures(archive);
  }

  Path photograph(Photograph photograph, int longestPx) {
    if (!photograph.isShown(Picture::isRead)) {
      throw Refusal.notFound("picture that can be shown");
    }
    return make(() -> pictures.smaller(photograph, longestPx));
  }

  Path relief(Proposal proposal, String name) {
    Path relief =
        Relief.NAMES.contains(name) || name.equals(RakingSet.DEPTH)
            ? make(() -> pictures.reliefs(proposal)).get(name)
            : null;
    if (relief == null) {
      throw Refusal.notFound("picture");
    }
    return relief;
  }

  Path strip(Proposal proposal, int line, String name) {
    Optional<Path> strip = make(() -> pictures.strip(proposal, line, name));
    return strip.orElseThrow(() -> Refusal.notFound("picture"));
  }

  private <T> T make(Callable<T> work) {
    try {
      return work.call();
    } catch (BadInputException | IOException e) {
      throw Refusal.of(
          404, "not-found", "This picture can't be made: " + e.getMessage() + ". Run `check`.");
    } catch (RuntimeException e) {
      throw e;
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }
}
