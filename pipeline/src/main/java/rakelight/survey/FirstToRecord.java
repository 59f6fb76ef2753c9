package rakelight.survey;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.inscription.Gap;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Sign;
import rakelight.inscription.Standing;
import rakelight.marker.Condition;
import rakelight.marker.Condition.Concern;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.marker.NaturalOrder;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

/**
 * Which markers to record first: those that may lose soonest what nobody has read yet.
 *
 * <p>Sudden loss (laminated flagstone, delaminating slate, scaling, marble under a crust) comes
 * before steady wear (clean marble, limestone), that before hard sandstone and sound slate, granite
 * last. The order follows A. Geikie, Pop. Sci. Monthly 18, 1881, and T. Meierding, Annals AAG 83,
 * 1993; that water stands in the cuts of a stone lying face up is GSA abstract 393237, 2023. The
 * chances are ours: orders of magnitude, good for ranking and for nothing else.
 */
public final class FirstToRecord {
  /**
   * What is known of a marker that bears on its loss.
   *
   * @param notes of its condition, one a day, the newest first
   * @param photographs how many show it
   * @param unread how much of what can still be read on it nobody has read, 0 to 1
   * @param seasons of its faces that were compared between two years
   */
  public record Known(
      Marker marker,
      Optional<Description> description,
      List<ConditionNote> notes,
      int photographs,
      double unread,
      List<Seasons> seasons) {
    public Known {
      notes = List.copyOf(notes);
      seasons = List.copyOf(seasons);
    }
  }

  /**
   * What two seasons showed of a face.
   *
   * @param first year
   * @param last year
   * @param worn how many of its lines stand out less than another light could make them
   * @param lines how many were compared
   */
  public record Seasons(int first, int last, long worn, int lines) {
    private String told() {
      return worn
          + (lines == 1 ? " line" : " of " + lines + " lines")
          + (worn == 1 ? " stands" : " stand")
          + " out less on photographs of "
          + last
          + " than of "
          + first;
    }
  }

  /**
   * @param expectedLoss how much of it may go unread within ten years, 0 to 1; for ranking
   * @param reasons in words, the weightiest first
   * @param unsafe why nobody should stand beside it; empty if nothing says so
   */
  public record Urgency(Marker marker, double expectedLoss, List<String> reasons, String unsafe) {
    public Urgency {
      reasons = List.copyOf(reasons);
    }
  }

  private static final double SUDDEN = 0.5;
  private static final double QUICK = 0.2;
  private static final double STEADY = 0.05;
  private static final double SLOW = 0.01;
  private static final double SLOWEST = 0.002;

  /** What grows goes sooner, by so much. A choice. */
  private static final double GROWING = 1.5;

  private static final Set<Condition> COMES_OFF =
      EnumSet.of(
          Condition.DELAMINATING, Condition.EXFOLIATING, Condition.SCALING, Condition.BLISTERING);
  private static final Set<Condition> MAY_FALL =
      EnumSet.of(
          Condition.BROKEN,
          Condition.FALLEN,
          Condition.LOOSE,
          Condition.UNDERMINED,
          Condition.DEAD_BRANCH);
  private static final Set<String> LIME = Set.of("marble", "limestone");
  private static final Map<String, Double> SOUND =
      Map.ofEntries(
          Map.entry("wood", QUICK),
          Map.entry("marble", STEADY),
          Map.entry("limestone", STEADY),
          Map.entry("concrete", STEADY),
          Map.entry("cast iron", STEADY),
          Map.entry("flagstone", STEADY),
          Map.entry("sandstone", SLOW),
          Map.entry("slate", SLOW),
          Map.entry("schist", SLOW),
          Map.entry("zinc", SLOW),
          Map.entry("bronze", SLOWEST),
          Map.entry("granite", SLOWEST));

  private FirstToRecord() {}

  /** The markers of an archive, the most urgent first; of equal ones, by number. */
  public static List<Urgency> of(Archive archive) {
    PhotoStore photographs = new PhotoStore(archive);
    Map<FaceId, Integer> shown = new HashMap<>();
    for (Photograph photograph : photographs.photographs()) {
      photograph.face().ifPresent(face -> shown.merge(face, 1, Integer::sum));
    }
    Map<MarkerId, List<Face>> faces = new HashMap<>();
    photographs
        .faces()
        .forEach(face -> faces.computeIfAbsent(face.marker(), m -> new ArrayList<>()).add(face));
    Map<FaceId, Double> unread = new HashMap<>();
    new ReadingStore(archive).current().forEach(one -> unread.put(one.face(), unread(one)));
    Map<FaceId, SeasonsCompared.Compared> compared = SeasonsCompared.known(archive);
    Map<MarkerId, Described> described = new DescriptionStore(archive).all();
    Map<MarkerId, List<ConditionNote>> notes = new ConditionStore(archive).all();
    List<Known> known = new ArrayList<>();
    for (Marker marker : new MarkerStore(archive).markers()) {
      List<Face> own = faces.getOrDefault(marker.id(), List.of());
      known.add(
          new Known(
              marker,
              Optional.ofNullable(described.get(marker.id())).map(Described::description),
              ConditionNote.byDay(notes.getOrDefault(marker.id(), List.of())),
              own.stream().mapToInt(face -> shown.getOrDefault(face.id(), 0)).sum(),
              own.stream()
                  .mapToDouble(face -> unread.getOrDefault(face.id(), 1.0))
                  .average()
                  .orElse(1),
              own.stream()
                  .flatMap(face -> Optional.ofNullable(compared.get(face.id())).stream())
                  .map(one -> new Seasons(one.first(), one.last(), one.worn(), one.lines().size()))
                  .toList()));
    }
    return ranked(known);
  }

  /** The most urgent first; of equal ones, by number. */
  public static List<Urgency> ranked(List<Known> markers) {
    return markers.stream()
        .map(FirstToRecord::urgency)
        .sorted(
            Comparator.comparingDouble(Urgency::expectedLoss)
                .reversed()
                .thenComparing(one -> one.marker().number(), new NaturalOrder()))
        .toList();
  }

  /**
   * Of the letters that can be seen, the share that nobody could make out for sure; what is lost
   * can't be read any more.
   */
  static double unread(Reading reading) {
    double all = 0;
    double open = 0;
    for (Sign sign : reading.inscription().signs()) {
      if (sign instanceof Letter letter && letter.standing() != Standing.SUPPLIED) {
        all++;
        open += letter.standing() == Standing.UNCLEAR ? 1 : 0;
      } else if (sign instanceof Gap gap && gap.reason() == Gap.Reason.ILLEGIBLE) {
        all++;
        open++;
      }
    }
    return all == 0 ? 1 : open / all;
  }

  private static Urgency urgency(Known known) {
    List<String> reasons = new ArrayList<>();
    double chance = chance(known, reasons);
    Optional<Description> said = known.description();
    if (said.filter(one -> one.hasState("lying face up")).isPresent()) {
      chance *= 2;
      reasons.add("lies face up: water stands in the cuts");
    }
    List<String> grown = grown(known.notes());
    if (!grown.isEmpty()) {
      chance *= GROWING;
      reasons.add("new since the note before: " + String.join(", ", grown));
    }
    List<String> spread = spread(known.notes());
    if (!spread.isEmpty()) {
      chance *= GROWING;
      reasons.add("damage reaches further than in the note before: " + String.join(", ", spread));
    }
    List<Seasons> worn = known.seasons().stream().filter(one -> one.worn() > 0).toList();
    if (!worn.isEmpty()) {
      // Loss that was seen counts for at least as much as loss that its looks let expect.
      chance = Math.max(QUICK, chance * GROWING);
      worn.forEach(one -> reasons.add(one.told()));
    }
    double worth = known.unread();
    if (known.photographs() == 0) {
      worth = Math.max(worth, 0.5);
      reasons.add("no photograph of it");
    }
    if (known.unread() == 1) {
      reasons.add("nothing of it is read");
    } else if (known.unread() > 0) {
      reasons.add(Math.round(100 * known.unread()) + " per cent of its letters are doubtful");
    } else {
      reasons.add("all of it is read; a reading may be wrong");
    }
    worth = Math.max(worth, 0.05);
    return new Urgency(
        known.marker(),
        Math.min(1, chance) * worth,
        reasons,
        known.notes().stream().findFirst().map(ConditionNote::unsafe).orElse(""));
  }

  /** The chance that it loses its text within ten years, and what says so. */
  private static double chance(Known known, List<String> reasons) {
    Set<Condition> seen = new HashSet<>();
    known.notes().stream().findFirst().ifPresent(note -> seen.addAll(note.words()));
    String material = known.description().flatMap(Description::material).orElse("");
    double chance = SOUND.getOrDefault(material, STEADY);
    if (seen.stream().anyMatch(COMES_OFF::contains)) {
      reasons.add("its face may come off at once: it is splitting or scaling");
      return SUDDEN;
    }
    if (seen.contains(Condition.CRUST) && LIME.contains(material)) {
      reasons.add(
          "a crust over " + material + ": letters may look whole over loose grains and go with it");
      return SUDDEN;
    }
    if (seen.stream()
        .anyMatch(word -> word.concerns().contains(Concern.FADING) && !isCrack(word))) {
      reasons.add("its letters wear away now");
      return Math.max(QUICK, chance);
    }
    if (seen.stream().anyMatch(MAY_FALL::contains)) {
      reasons.add("it may fall, or pieces be lost or moved");
      return Math.max(QUICK, chance);
    }
    if (seen.contains(Condition.CRACKED)) {
      reasons.add("a crack lets water and frost in");
      return Math.max(2 * STEADY, chance);
    }
    if (SOUND.containsKey(material)) {
      reasons.add(material + (chance >= STEADY ? ": wears steadily" : ": wears slowly"));
    }
    return chance;
  }

  /** Areas and parts in the newest note that the one before, which names some, doesn't have. */
  private static List<String> spread(List<ConditionNote> notes) {
    if (notes.size() < 2 || notes.get(0).unsafe().isEmpty() && notes.get(0).fading().isEmpty()) {
      return List.of();
    }
    List<String> before = places(notes.get(1));
    return before.isEmpty()
        ? List.of()
        : places(notes.get(0)).stream().filter(place -> !before.contains(place)).toList();
  }

  private static List<String> places(ConditionNote note) {
    List<String> places = new ArrayList<>(note.where().parts());
    note.where().areas().forEach(area -> places.add(area.label()));
    return places;
  }

  private static boolean isCrack(Condition word) {
    return word == Condition.CRACKED;
  }

  /** Words of concern in the newest note that the one before doesn't have. */
  private static List<String> grown(List<ConditionNote> notes) {
    if (notes.size() < 2) {
      return List.of();
    }
    return notes.get(0).words().stream()
        .filter(word -> !word.concerns().isEmpty())
        .filter(word -> !notes.get(1).words().contains(word))
        .map(Condition::label)
        .toList();
  }
}
