package rakelight.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Sign;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

/**
 * What an answer covers: whoever isn't found may stand on a marker that nobody has photographed, or
 * read, or can read.
 *
 * @param markers on the list of the ground
 * @param photographed of them
 * @param read at least one face has a confirmed reading
 * @param illegible read, and more of its letters are gone than named
 * @param unread photographed and not read, by number: those that could still answer
 */
public record Coverage(
    int markers, int photographed, int read, int illegible, List<String> unread) {
  /** A gap of which nobody knows the length counts as so many letters. A choice. */
  private static final int GAP_OF_UNKNOWN_LENGTH = 6;

  public Coverage {
    unread = List.copyOf(unread);
  }

  /** Of an archive as it is now. */
  public static Coverage of(Archive archive) {
    PhotoStore photographs = new PhotoStore(archive);
    Set<MarkerId> photographed = new HashSet<>();
    Set<MarkerId> read = new HashSet<>();
    Set<MarkerId> illegible = new HashSet<>();
    Map<FaceId, MarkerId> ofFace = new HashMap<>();
    for (Face face : photographs.faces()) {
      ofFace.put(face.id(), face.marker());
    }
    for (Photograph photograph : photographs.photographs()) {
      photograph.face().map(ofFace::get).ifPresent(photographed::add);
    }
    for (Reading reading : new ReadingStore(archive).current()) {
      MarkerId marker = ofFace.get(reading.face());
      if (marker != null) {
        read.add(marker);
        if (isIllegible(reading)) {
          illegible.add(marker);
        }
      }
    }
    List<String> unread = new ArrayList<>();
    List<Marker> all = new MarkerStore(archive).markers();
    for (Marker marker : all) {
      if (photographed.contains(marker.id()) && !read.contains(marker.id())) {
        unread.add(marker.number());
      }
    }
    return new Coverage(all.size(), photographed.size(), read.size(), illegible.size(), unread);
  }

  private static boolean isIllegible(Reading reading) {
    int letters = 0;
    int gone = 0;
    for (Sign sign : reading.inscription().signs()) {
      if (sign instanceof Letter) {
        letters++;
      } else if (sign instanceof Gap gap && gap.reason() != Gap.Reason.BLANK) {
        boolean counted = gap.unit() == Gap.Unit.LETTERS;
        gone +=
            counted && gap.extent() instanceof Extent.Exact exact
                ? exact.count()
                : GAP_OF_UNKNOWN_LENGTH;
      }
    }
    return gone > letters;
  }
}
