package rakelight.ground.witness;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.names.NameForms;
import rakelight.person.Written;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;

/**
 * Which stone each row of an earlier list speaks of. Weights are round numbers set by hand, no
 * odds: nobody has a list with the truth beside it that wasn't invented. So each match says its
 * reasons, and only what is strong and has no rival counts as sure. Names and years are looked for
 * in confirmed readings alone; stones that nobody has read are matched by number and order.
 */
public final class WitnessMatches {
  private static final double NUMBER = 3;
  private static final double EARLIER_NUMBER = 2.5;
  private static final double SURNAME = 2.5;
  private static final double SURNAME_NEARLY = 1.5;
  private static final double MAY_BE = .5;
  private static final double NO_SURNAME = -3;
  private static final double NO_SURNAME_BUT_GAPS = -1;
  private static final double GIVEN = 1;
  private static final double YEAR = 2;
  private static final double NO_YEAR = -1.5;
  private static final double ROW_PLACE = 2;
  private static final double NEIGHBOURS = 1.5;
  private static final double LETTERS = 6;
  private static final double LEAST_LETTERS = .45;
  private static final double SURE = 4;
  private static final double AHEAD = 2;
  private static final double DOUBTFUL = 1.5;
  private static final int MOST_SHOWN = 5;

  private final Map<MarkerId, Stone> stones = new LinkedHashMap<>();
  private final WitnessStore store;

  /** What is known of a marker. */
  private record Stone(
      Marker marker,
      List<Face> faces,
      Map<FaceId, String> letters,
      Set<String> words,
      Set<String> years,
      boolean whole,
      Optional<RowPlace> place) {
    boolean isRead() {
      return !letters.isEmpty();
    }
  }

  public WitnessMatches(Archive archive) {
    this.store = new WitnessStore(archive);
    Map<MarkerId, RowPlace> places = new PositionStore(archive).rowPlaces();
    PhotoStore photos = new PhotoStore(archive);
    Map<FaceId, Reading> readings = new HashMap<>();
    new ReadingStore(archive).current().forEach(reading -> readings.put(reading.face(), reading));
    Map<MarkerId, List<Face>> faces = new HashMap<>();
    photos
        .faces()
        .forEach(face -> faces.computeIfAbsent(face.marker(), m -> new ArrayList<>()).add(face));
    for (Marker marker : new MarkerStore(archive).markers()) {
      Map<FaceId, String> letters = new LinkedHashMap<>();
      for (Face face : faces.getOrDefault(marker.id(), List.of())) {
        Optional.ofNullable(readings.get(face.id()))
            .ifPresent(reading -> letters.put(face.id(), StoneLetters.of(reading.inscription())));
      }
      String all = String.join(" ", letters.values());
      stones.put(
          marker.id(),
          new Stone(
              marker,
              faces.getOrDefault(marker.id(), List.of()),
              letters,
              new HashSet<>(StoneLetters.words(all)),
              new HashSet<>(StoneLetters.years(all)),
              all.indexOf(StoneLetters.GAP) < 0,
              Optional.ofNullable(places.get(marker.id()))));
    }
  }

  /** Every row of every list, list by list and in order. */
  public List<WitnessMatch> all() {
    List<WitnessMatch> all = new ArrayList<>();
    store.lists().forEach(list -> all.addAll(of(list)));
    return List.copyOf(all);
  }

  /** The rows of a list, in order. */
  public List<WitnessMatch> of(WitnessList list) {
    Map<Integer, MarkerId> decided = new HashMap<>();
    Map<Integer, Set<MarkerId>> refused = new HashMap<>();
    for (WitnessStore.Opinion opinion : store.opinions()) {
      if (opinion.source().equals(list.source())) {
        if (opinion.is()) {
          decided.put(opinion.row(), opinion.marker());
        } else {
          refused.computeIfAbsent(opinion.row(), r -> new HashSet<>()).add(opinion.marker());
          decided.remove(opinion.row(), opinion.marker());
        }
      }
    }
    List<WitnessMatch> first = new ArrayList<>();
    for (WitnessRow row : list.rows()) {
      first.add(match(list, row, decided, refused, Map.of()));
    }
    // Those in doubt once more, with the neighbours that are settled.
    Map<Integer, RowPlace> placed = new TreeMap<>();
    for (WitnessMatch match : first) {
      if (match.isSettled()) {
        Stone stone = stones.get(match.candidates().get(0).marker());
        Optional.ofNullable(stone)
            .flatMap(Stone::place)
            .ifPresent(place -> placed.put(match.row().number(), place));
      }
    }
    List<WitnessMatch> second = new ArrayList<>();
    for (WitnessMatch match : first) {
      second.add(match.isSettled() ? match : match(list, match.row(), decided, refused, placed));
    }
    return second;
  }

  private WitnessMatch match(
      WitnessList list,
      WitnessRow row,
      Map<Integer, MarkerId> decided,
      Map<Integer, Set<MarkerId>> refused,
      Map<Integer, RowPlace> placed) {
    MarkerId said = decided.get(row.number());
    if (said != null && stones.containsKey(said)) {
      return new WitnessMatch(
          list,
          row,
          WitnessMatch.State.DECIDED,
          List.of(
              new WitnessMatch.Candidate(
                  said, stones.get(said).marker().number(), 0, List.of("somebody said so"))));
    }
    List<WitnessMatch.Candidate> candidates = new ArrayList<>();
    for (Stone stone : stones.values()) {
      if (!refused.getOrDefault(row.number(), Set.of()).contains(stone.marker().id())) {
        WitnessMatch.Candidate candidate = weighed(row, stone, placed);
        if (candidate.weight() >= DOUBTFUL) {
          candidates.add(candidate);
        }
      }
    }
    candidates.sort(
        Comparator.comparingDouble((WitnessMatch.Candidate one) -> -one.weight())
            .thenComparing(WitnessMatch.Candidate::number));
    WitnessMatch.State state = WitnessMatch.State.NONE;
    if (!candidates.isEmpty()) {
      double next = candidates.size() > 1 ? candidates.get(1).weight() : 0;
      double best = candidates.get(0).weight();
      state =
          best >= SURE && best - next >= AHEAD
              ? WitnessMatch.State.SURE
              : WitnessMatch.State.DOUBTFUL;
    }
    return new WitnessMatch(
        list, row, state, candidates.subList(0, Math.min(MOST_SHOWN, candidates.size())));
  }

  private static WitnessMatch.Candidate weighed(
      WitnessRow row, Stone stone, Map<Integer, RowPlace> placed) {
    List<String> reasons = new ArrayList<>();
    double weight = 0;
    if (!row.field("number").isEmpty()) {
      String asked = plain(row.field("number"));
      if (asked.equals(plain(stone.marker().number()))) {
        weight += NUMBER;
        reasons.add("the number");
      } else if (stone.marker().earlierNumbers().stream()
          .anyMatch(number -> plain(number).equals(asked))) {
        weight += EARLIER_NUMBER;
        reasons.add("an earlier number");
      }
    }
    if (stone.isRead()) {
      weight += names(row, stone, reasons);
      weight += years(row, stone, reasons);
      weight += letters(row, stone, reasons);
    }
    weight += places(row, stone, placed, reasons);
    return new WitnessMatch.Candidate(
        stone.marker().id(), stone.marker().number(), weight, reasons);
  }

  private static double names(WitnessRow row, Stone stone, List<String> reasons) {
    String[] name =
        row.field("surname").isEmpty()
            ? Written.name(row.field("name"))
            : new String[] {row.field("given"), row.field("surname")};
    String surname = NameForms.fold(name[1]);
    if (surname.isEmpty()) {
      return 0;
    }
    double weight = 0;
    if (stone.words().contains(surname)) {
      weight += SURNAME;
      reasons.add("the surname " + name[1]);
    } else if (stone.words().stream().anyMatch(word -> nearly(word, surname))) {
      weight += SURNAME_NEARLY;
      reasons.add("nearly the surname " + name[1]);
    } else if (stone.words().stream().anyMatch(word -> fits(word, surname, 1))) {
      weight += MAY_BE;
      reasons.add("letters that may be of " + name[1]);
    } else {
      weight += stone.whole() ? NO_SURNAME : NO_SURNAME_BUT_GAPS;
      reasons.add("no " + name[1] + " on it");
    }
    List<String> given = StoneLetters.words(name[0]);
    if (!given.isEmpty() && given.get(0).length() > 1) {
      if (stone.words().contains(given.get(0))) {
        weight += GIVEN;
        reasons.add("the name " + name[0]);
      } else if (stone.words().stream().anyMatch(word -> fits(word, given.get(0), 1))) {
        weight += MAY_BE;
        reasons.add("letters that may be of " + name[0]);
      }
    }
    return weight;
  }

  private static double years(WitnessRow row, Stone stone, List<String> reasons) {
    double weight = 0;
    for (String field : List.of("died", "born")) {
      for (String year : StoneLetters.years(row.field(field))) {
        if (stone.years().contains(year)) {
          weight += YEAR;
          reasons.add("the year " + year);
        } else if (field.equals("died") && stone.whole() && !stone.years().isEmpty()) {
          weight += NO_YEAR;
          reasons.add("no " + year + " on it");
        }
      }
    }
    return weight;
  }

  private static double letters(WitnessRow row, Stone stone, List<String> reasons) {
    if (row.field("text").isEmpty()) {
      return 0;
    }
    Set<String> own = new HashSet<>(StoneLetters.words(row.field("text")));
    own.addAll(StoneLetters.years(row.field("text")));
    Set<String> both = new HashSet<>(own);
    Set<String> there = new HashSet<>(stone.words());
    there.addAll(stone.years());
    both.retainAll(there);
    double share = own.isEmpty() ? 0 : 2. * both.size() / (own.size() + there.size());
    if (share < LEAST_LETTERS) {
      return 0;
    }
    reasons.add(both.size() + " words of its text");
    return LETTERS * share;
  }

  private static double places(
      WitnessRow row, Stone stone, Map<Integer, RowPlace> placed, List<String> reasons) {
    if (stone.place().isEmpty()) {
      return 0;
    }
    RowPlace place = stone.place().get();
    double weight = 0;
    if (plain(row.field("row")).equals(plain(place.row()))
        && plain(row.field("place")).equals(String.valueOf(place.place()))) {
      weight += ROW_PLACE;
      reasons.add("row " + place.row() + ", place " + place.place());
    }
    RowPlace before = placed.get(row.number() - 1);
    RowPlace after = placed.get(row.number() + 1);
    boolean isNext =
        (before != null && isNext(before, place)) || (after != null && isNext(after, place));
    if (isNext) {
      weight += NEIGHBOURS;
      reasons.add("it stands beside the stone of the row before or after");
    }
    if (isNext
        && before != null
        && after != null
        && isNext(before, place)
        && isNext(after, place)
        && !before.equals(after)) {
      weight += NEIGHBOURS;
      reasons.add("it stands between the stones of both");
    }
    return weight;
  }

  private static boolean isNext(RowPlace one, RowPlace other) {
    return one.row().equals(other.row()) && Math.abs(one.place() - other.place()) == 1;
  }

  /**
   * A word of the stone with one letter other, more or less, or with a gap where letters may be.
   */
  private static boolean nearly(String word, String name) {
    return fits(word, name, 2)
        || (name.length() >= 4
            && Math.abs(word.length() - name.length()) <= 1
            && word.indexOf(StoneLetters.GAP) < 0
            && distance(word, name) == 1);
  }

  /** Whether a word with a gap may be a name, so many letters of which are there at least. */
  private static boolean fits(String word, String name, int least) {
    int gap = word.indexOf(StoneLetters.GAP);
    if (gap < 0) {
      return false;
    }
    String head = NameForms.fold(word.substring(0, gap));
    String tail = NameForms.fold(word.substring(word.lastIndexOf(StoneLetters.GAP) + 1));
    return head.length() + tail.length() >= least
        && name.length() >= head.length() + tail.length()
        && name.startsWith(head)
        && name.endsWith(tail);
  }

  private static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int up = row[j];
        row[j] =
            Math.min(
                Math.min(row[j] + 1, row[j - 1] + 1),
                diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1));
        diagonal = up;
      }
    }
    return row[b.length()];
  }

  /** A number or row without case, spaces and leading zeros. */
  private static String plain(String number) {
    return number
        .strip()
        .toLowerCase(Locale.ROOT)
        .replaceAll("\\s+", "")
        .replaceAll("(?<![0-9])0+(?=[0-9])", "");
  }

  /**
   * Where settled rows and the readings of their stones differ, in the order of the rows. A row is
   * laid beside the face that it is most like; what only its points and spaces differ in is left
   * out.
   */
  public List<WitnessMatch.Difference> differences(List<WitnessMatch> matches) {
    List<WitnessMatch.Difference> differences = new ArrayList<>();
    for (WitnessMatch match : matches) {
      if (!match.isSettled() || match.row().field("text").isEmpty()) {
        continue;
      }
      Stone stone = stones.get(match.candidates().get(0).marker());
      if (stone == null || !stone.isRead()) {
        continue;
      }
      String list = StoneLetters.plain(match.row().field("text"));
      stone.faces().stream()
          .filter(face -> stone.letters().containsKey(face.id()))
          .map(
              face ->
                  new WitnessMatch.Difference(
                      match,
                      face.id(),
                      face.name(),
                      SideBySide.of(stone.letters().getOrDefault(face.id(), ""), list)))
          .min(Comparator.comparingInt(one -> one.letters().differing()))
          .filter(one -> one.letters().sort() != SideBySide.Sort.SAME)
          .ifPresent(differences::add);
    }
    return List.copyOf(differences);
  }
}
