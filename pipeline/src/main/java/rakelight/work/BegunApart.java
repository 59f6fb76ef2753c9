package rakelight.work;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import rakelight.archive.Apart;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.ArchivePairing;
import rakelight.archive.Decision;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.archive.MarkerId;
import rakelight.archive.Sha256;
import rakelight.ground.MarkerPosition;
import rakelight.ground.PositionStore;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Position;

/**
 * What is one in two archives of one ground that were begun apart: photographs of the same bytes;
 * markers of one number, unless their letters or places contradict it; faces of one name on one
 * marker. What was withdrawn is paired too, so that it is withdrawn in both.
 *
 * <p>Two markers are contradicted where every face that was read in both says something else, or
 * where both places are known and lie further apart than they can be off.
 */
public final class BegunApart implements ArchivePairing {
  /** Grounds whose datum points lie further apart are two; a churchyard is seldom so long. */
  private static final double SAME_GROUND_METRES = 1000;

  /** Letters that both must have before anything is concluded from them. */
  static final int FEWEST_LETTERS = 12;

  /**
   * Letters in common, in order, as a share of the shorter reading's: below it two readings aren't
   * of one face. See docs/measurements.md, "Archives begun apart".
   */
  static final double LEAST_IN_COMMON = 0.75;

  /** Added to what both places may be off: telephones among trees don't know their own error. */
  private static final double PLACES_METRES = 25;

  private final Set<String> toldApart;

  /**
   * @param toldApart numbers of markers that somebody says aren't one, though both archives have
   *     the number
   */
  public BegunApart(List<String> toldApart) {
    this.toldApart = new HashSet<>(toldApart.stream().map(MarkerStore::likeNumber).toList());
  }

  @Override
  public Pairs of(Archive one, Archive other) {
    requireOneGround(one.ground(), other.ground());
    List<List<UUID>> same = new ArrayList<>();
    List<String> keptApart = new ArrayList<>();
    List<Apart> apart = new ArrayList<>();
    Map<String, MarkerId> numbers = new MarkerStore(one).byLikeNumber();
    Map<MarkerId, MarkerId> markers = new LinkedHashMap<>();
    new MarkerStore(other)
        .byLikeNumber()
        .forEach(
            (number, there) ->
                Optional.ofNullable(numbers.get(number))
                    .ifPresent(
                        here -> {
                          Optional<String> against = against(number, one, here, other, there);
                          if (against.isEmpty()) {
                            markers.put(here, there);
                            same.add(List.of(here.value(), there.value()));
                          } else {
                            keptApart.add(
                                "marker "
                                    + new MarkerStore(one).numberGiven(here).orElse(number)
                                    + ": "
                                    + against.get());
                            apart.add(
                                Apart.of(
                                    "a marker of that number",
                                    first(one, here.value()),
                                    first(other, there.value()),
                                    against,
                                    Optional.empty()));
                          }
                        }));
    faces(one, other, markers, same);
    int photographs = photographs(one, other, same);
    return new Pairs(same, markers.size(), photographs, keptApart, apart);
  }

  private static void requireOneGround(Ground one, Ground other) {
    double metres = place(one).metresTo(place(other));
    String grounds = "\"" + one.name() + "\" and \"" + other.name() + "\"";
    if (metres > SAME_GROUND_METRES) {
      throw new ArchiveException(
          String.format(
              Locale.ROOT,
              "%s are two grounds: their datum points lie %.0f m apart. Nothing was merged. If one"
                  + " of them is wrong, put it right with `ground` first.",
              grounds,
              metres));
    }
    if (!letters(one.name()).equals(letters(other.name()))) {
      throw new ArchiveException(
          grounds
              + " have different names. Nothing was merged. If they are one ground, give both"
              + " archives one name with `ground` first.");
    }
  }

  private static Position place(Ground ground) {
    return new Position(
        ground.latitudeDegrees(), ground.longitudeDegrees(), Optional.empty(), Optional.empty());
  }

  private static String letters(String text) {
    return text.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]", "");
  }

  private static Decision first(Archive archive, UUID thing) {
    return archive.journal().standing(thing).get(0);
  }

  private Optional<String> against(
      String number, Archive one, MarkerId here, Archive other, MarkerId there) {
    if (toldApart.contains(number)) {
      return Optional.of("somebody says that these are two markers");
    }
    return letters(one, here, other, there).or(() -> places(one, here, other, there));
  }

  /** What contradicts by its letters, if something does and nothing agrees. */
  private static Optional<String> letters(
      Archive one, MarkerId here, Archive other, MarkerId there) {
    Map<String, String> readThere = read(other, there);
    Optional<String> against = Optional.empty();
    for (Map.Entry<String, String> face : read(one, here).entrySet()) {
      String a = face.getValue();
      String b = readThere.getOrDefault(face.getKey(), "");
      if (Math.min(a.length(), b.length()) >= FEWEST_LETTERS) {
        if (inCommon(a, b) >= LEAST_IN_COMMON) {
          return Optional.empty();
        }
        against =
            Optional.of(
                "its face "
                    + face.getKey()
                    + " says different things, "
                    + shortened(a)
                    + " and "
                    + shortened(b));
      }
    }
    return against;
  }

  private static String shortened(String letters) {
    return letters.length() <= 2 * FEWEST_LETTERS
        ? letters
        : letters.substring(0, 2 * FEWEST_LETTERS) + "...";
  }

  /** The letters of the last reading of each face of a marker, by the face's name. */
  private static Map<String, String> read(Archive archive, MarkerId marker) {
    Map<String, String> read = new TreeMap<>();
    ReadingStore readings = new ReadingStore(archive);
    for (Face face : new PhotoStore(archive).faces(marker)) {
      List<Reading> versions = readings.versions(face.id());
      if (!versions.isEmpty()) {
        read.put(
            face.name().toLowerCase(Locale.ROOT),
            letters(versions.get(versions.size() - 1).inscription()));
      }
    }
    return read;
  }

  static String letters(Inscription inscription) {
    StringBuilder letters = new StringBuilder();
    inscription.signs().stream()
        .filter(sign -> sign instanceof Letter)
        .forEach(sign -> letters.append(((Letter) sign).text()));
    return letters(letters.toString());
  }

  /** Letters that two texts have in common, in order, as a share of the shorter one's. */
  static double inCommon(String a, String b) {
    int[] common = new int[b.length() + 1];
    for (int i = 0; i < a.length(); i++) {
      int diagonal = 0;
      for (int j = 0; j < b.length(); j++) {
        int above = common[j + 1];
        common[j + 1] = a.charAt(i) == b.charAt(j) ? diagonal + 1 : Math.max(above, common[j]);
        diagonal = above;
      }
    }
    return common[b.length()] / (double) Math.max(1, Math.min(a.length(), b.length()));
  }

  private static Optional<String> places(
      Archive one, MarkerId here, Archive other, MarkerId there) {
    List<MarkerPosition> a = new PositionStore(one).evidence(here);
    List<MarkerPosition> b = new PositionStore(other).evidence(there);
    if (a.isEmpty() || b.isEmpty()) {
      return Optional.empty();
    }
    double metres = a.get(0).place().metresTo(b.get(0).place());
    double off = a.get(0).errorMetres() + b.get(0).errorMetres();
    return metres > PLACES_METRES + 2 * off
        ? Optional.of(String.format(Locale.ROOT, "its places lie %.0f m apart", metres))
        : Optional.empty();
  }

  private static void faces(
      Archive one, Archive other, Map<MarkerId, MarkerId> markers, List<List<UUID>> same) {
    Map<MarkerId, Map<String, FaceId>> here = new PhotoStore(one).placedFaces();
    Map<MarkerId, Map<String, FaceId>> there = new PhotoStore(other).placedFaces();
    markers.forEach(
        (a, b) -> {
          Map<String, FaceId> ofB = there.getOrDefault(b, Map.of());
          here.getOrDefault(a, Map.of())
              .forEach(
                  (name, face) ->
                      Optional.ofNullable(ofB.get(name))
                          .ifPresent(other1 -> same.add(List.of(face.value(), other1.value()))));
        });
  }

  private static int photographs(Archive one, Archive other, List<List<UUID>> same) {
    Map<Sha256, List<UUID>> here = new PhotoStore(one).takenIn();
    Map<Sha256, List<UUID>> there = new PhotoStore(other).takenIn();
    int both = 0;
    for (Map.Entry<Sha256, List<UUID>> taken : here.entrySet()) {
      List<UUID> again = there.getOrDefault(taken.getKey(), List.of());
      if (!again.isEmpty()) {
        List<UUID> all = new ArrayList<>(taken.getValue());
        all.addAll(again);
        same.add(all);
        both++;
      }
    }
    return both;
  }
}
