package rakelight.marker;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.Joining;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;

/**
 * The markers of the ground and their numbers, present and earlier. Everything that changes is a
 * decision under a reader's name.
 */
public final class MarkerStore {
  /** Subject: the marker. */
  static final String CREATED = "marker.created";

  /** Subject: the marker. The number it had becomes an earlier one. */
  static final String RENUMBERED = "marker.renumbered";

  /** Subject: the marker that turned out to be another one. Both are found under that one. */
  static final String MERGED = "marker.merged";

  /** The order of every list of markers: by number, figures by their value. */
  public static final Comparator<Marker> BY_NUMBER =
      Comparator.comparing(Marker::number, new NaturalOrder());

  /** As the index of migration 91 has it: the same for all numbers that may be alike. */
  private static final String ALIKE = "replace(replace(lower(number), ' ', ''), '0', '')";

  /** The markers, as they are now, of those that fit what follows. */
  private static final String NOW_OF =
      "SELECT coalesce(n.now, k.id) FROM marker k LEFT JOIN marker_now n ON n.id = k.id WHERE ";

  private final Archive archive;

  /** Version 1 of both payloads. */
  record Numbered(String number) {}

  /** Version 1 of the payload. */
  record Merged(MarkerId into, UUID batch) {}

  public MarkerStore(Archive archive) {
    this.archive = archive;
  }

  /** The state tables of this store. */
  public static Projection projection() {
    return new MarkerProjection();
  }

  /** What to see to when histories come together. */
  public static List<Joining> joinings() {
    return List.of(new MergedMarkersJoining(), new MarkerJoining());
  }

  /** Every marker, by number, figures by their value; one that was merged is part of the other. */
  public List<Marker> markers() {
    return select("").stream().sorted(BY_NUMBER).toList();
  }

  /** The marker with this id; of one that was merged, the one it is part of now. */
  public Optional<Marker> marker(MarkerId id) {
    return select(
            "AND m.id = coalesce((SELECT now FROM marker_now WHERE id = ?), ?)", now(id), now(id))
        .stream()
        .findFirst();
  }

  private String now(MarkerId id) {
    return archive.journal().now(id.value()).toString();
  }

  /** The markers that were merged into this one. */
  public List<MarkerId> mergedInto(MarkerId marker) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT id FROM marker_now WHERE now = :now ORDER BY id")
                    .bind("now", marker.toString())
                    .mapTo(String.class)
                    .map(MarkerId::of)
                    .list());
  }

  /**
   * The marker with this number now; else the only one that had it earlier. A number that differs
   * only in case, spaces or leading zeros will do where none is written just so.
   */
  public Optional<Marker> byNumber(String number) {
    List<Marker> now = withNumberNow(number);
    if (now.isEmpty()) {
      now = alikeNow(number);
    }
    List<Marker> found = now.isEmpty() ? withNumberEarlier(number) : now;
    if (found.isEmpty()) {
      return pattern()
          .flatMap(pattern -> pattern.follow(number))
          .filter(written -> !written.equals(number))
          .flatMap(this::byNumber);
    }
    return found.size() == 1 ? Optional.of(found.get(0)) : Optional.empty();
  }

  /** Why no marker of this number can be made or found; empty if one can. */
  public Optional<String> refusal(String number) {
    return pattern()
        .filter(pattern -> byNumber(number).isEmpty() && pattern.follow(number).isEmpty())
        .map(pattern -> pattern.refusal(number.strip()));
  }

  private Optional<NumberPattern> pattern() {
    return archive.ground().numbers().map(NumberPattern::of);
  }

  /** The markers that had a number earlier and have another now. */
  public List<Marker> withNumberEarlier(String number) {
    return select(
            "AND m.id IN (SELECT marker_id FROM marker_other_number WHERE "
                + ALIKE
                + " IN (?, ?, ?))",
            likeness(number))
        .stream()
        .filter(
            marker ->
                marker.earlierNumbers().stream().anyMatch(had -> NumberForm.areAlike(had, number)))
        .filter(marker -> !NumberForm.areAlike(marker.number(), number))
        .toList();
  }

  /**
   * The marker that somebody names by its number, present or earlier.
   *
   * @throws ArchiveException if there is none, or several had the number earlier
   */
  public Marker named(String number) {
    return byNumber(number)
        .orElseThrow(
            () ->
                new ArchiveException(
                    "There is no marker "
                        + number
                        + " here. Ingest its photographs or confirm a reading of it first."));
  }

  /** What to call a marker: its present number, or its id where it isn't here any more. */
  public String numberOf(MarkerId id) {
    return marker(id).map(Marker::number).orElse(id.toString());
  }

  /** The number that a marker itself has; of one that was merged, the one it had then. */
  public String ownNumberOf(MarkerId id) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select("SELECT number FROM marker WHERE id = ?", id.toString())
                    .mapTo(String.class)
                    .findOne())
        .orElse(id.toString());
  }

  /**
   * A new marker.
   *
   * @throws ArchiveException if the number is blank, isn't how the ground numbers its markers, or
   *     another marker has it now, or one like it
   */
  public Marker create(String number, String reader) {
    String clean = patterned(number);
    return archive
        .ledger()
        .write(
            handle -> {
              requireFree(clean, List.of());
              Marker marker = new Marker(MarkerId.next(), clean, List.of());
              archive
                  .journal()
                  .append(
                      NewDecision.of(reader, CREATED, 1, marker.id().value(), new Numbered(clean)));
              return marker;
            });
  }

  /** The marker of that number, present or earlier; made if there is none. */
  public Marker foundOrCreated(String number, String reader) {
    String clean = cleaned(number);
    return archive.ledger().write(handle -> byNumber(clean).orElseGet(() -> create(clean, reader)));
  }

  /**
   * Gives a marker another number; the one it had is kept as an earlier one.
   *
   * @throws ArchiveException if the number is blank, isn't how the ground numbers its markers, or
   *     another marker has it now, or one like it
   */
  public void renumber(MarkerId marker, String number, String reader) {
    String clean = patterned(number);
    archive
        .ledger()
        .write(
            handle -> {
              requireFree(clean, List.of(marker));
              return archive
                  .journal()
                  .append(
                      NewDecision.of(reader, RENUMBERED, 1, marker.value(), new Numbered(clean))
                          .restingOn(List.of(madeBy(marker))));
            });
  }

  /**
   * Makes a marker part of another one. Its number, and those it had, lead there from now on; what
   * was noted of it, links and questions are the other's. Its faces must have been seen to before.
   *
   * @param batch what is decided in one act shares it
   * @throws ArchiveException if they are one already
   */
  public void merge(MarkerId gone, MarkerId into, UUID batch, String reader) {
    archive
        .ledger()
        .write(
            handle ->
                archive
                    .journal()
                    .append(
                        NewDecision.of(reader, MERGED, 1, gone.value(), new Merged(into, batch))
                            .restingOn(List.of(madeBy(gone), madeBy(into)))));
  }

  /** The decisions that stand by which markers are part of others, in order. */
  public List<Decision> merges() {
    return archive.journal().standing(List.of(MERGED));
  }

  /** The number that was given to a marker last, also where it was withdrawn. */
  public Optional<String> numberGiven(MarkerId marker) {
    return archive.journal().standing(marker.value()).stream()
        .filter(decision -> decision.kind().equals(CREATED) || decision.kind().equals(RENUMBERED))
        .reduce((earlier, later) -> later)
        .map(decision -> decision.payload(Numbered.class).number());
  }

  /**
   * Every marker that was ever made and not taken back, also those that were withdrawn or are part
   * of others, by its number as {@link #likeNumber} gives it.
   */
  public Map<String, MarkerId> byLikeNumber() {
    Map<MarkerId, String> numbers = new LinkedHashMap<>();
    archive
        .journal()
        .standing(List.of(CREATED, RENUMBERED))
        .forEach(
            decision ->
                numbers.put(
                    new MarkerId(decision.subject()), decision.payload(Numbered.class).number()));
    Map<String, MarkerId> markers = new TreeMap<>();
    numbers.forEach((marker, number) -> markers.putIfAbsent(likeNumber(number), marker));
    return markers;
  }

  /** What is the same for numbers that differ only in case, spaces and leading zeros. */
  public static String likeNumber(String number) {
    return NumberForm.of(number);
  }

  /** The marker a decision merges another into, if it does. */
  public static Optional<MarkerId> mergesInto(Decision decision) {
    return decision.kind().equals(MERGED)
        ? Optional.of(decision.payload(Merged.class).into())
        : Optional.empty();
  }

  /**
   * The decision a marker follows from, for what is decided about it to rest on.
   *
   * @throws ArchiveException if there is no such marker
   */
  public DecisionId madeBy(MarkerId marker) {
    return archive.journal().madeBy("marker", marker.value());
  }

  private List<Marker> withNumberNow(String number) {
    return select("AND m.id IN (" + NOW_OF + "k.number = ?)", number);
  }

  private List<Marker> alikeNow(String number) {
    return select("AND m.id IN (" + NOW_OF + ALIKE + " IN (?, ?, ?))", likeness(number)).stream()
        .filter(
            marker ->
                Stream.concat(Stream.of(marker.number()), marker.earlierNumbers().stream())
                    .anyMatch(has -> NumberForm.areAlike(has, number)))
        .toList();
  }

  /** What {@link #ALIKE} gives for numbers like this one; SQLite knows the case of a to z alone. */
  private static Object[] likeness(String number) {
    return Stream.of(number, number.toLowerCase(Locale.ROOT), number.toUpperCase(Locale.ROOT))
        .map(
            one ->
                one.chars()
                    .filter(c -> c != '0' && c != ' ')
                    .map(c -> c >= 'A' && c <= 'Z' ? c + ('a' - 'A') : c)
                    .collect(
                        StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                    .toString())
        .toArray();
  }

  /**
   * @param self markers that may have it
   */
  private void requireFree(String number, List<MarkerId> self) {
    for (Marker marker : alikeNow(number)) {
      if (!NumberForm.areAlike(marker.number(), number)) {
        throw new ArchiveException(
            "Marker "
                + number
                + " was merged into "
                + marker.number()
                + ", which is found by that number too; give another number.");
      }
      if (!self.contains(marker.id())) {
        throw new ArchiveException(
            "There is a marker " + marker.number() + " already; give another number.");
      }
    }
  }

  /** As the ground writes it. */
  private String patterned(String number) {
    String clean = cleaned(number);
    Optional<NumberPattern> pattern = pattern();
    return pattern.isEmpty()
        ? clean
        : pattern
            .get()
            .follow(clean)
            .orElseThrow(() -> new ArchiveException(pattern.get().refusal(clean)));
  }

  private static String cleaned(String number) {
    String clean = number.strip();
    if (clean.isEmpty()) {
      throw new ArchiveException("a marker needs a number.");
    }
    return clean;
  }

  private List<Marker> select(String where, Object... values) {
    Map<MarkerId, Marker> markers = new LinkedHashMap<>();
    archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT m.id, m.number, e.number AS earlier FROM marker m LEFT JOIN"
                            + " marker_other_number e ON e.marker_id = m.id WHERE m.id NOT IN"
                            + " (SELECT marker_id FROM marker_merged) "
                            + where
                            + " ORDER BY m.id, e.merged, e.place",
                        values)
                    .map(
                        (row, context) ->
                            new Marker(
                                MarkerId.of(row.getString("id")),
                                row.getString("number"),
                                Optional.ofNullable(row.getString("earlier")).stream().toList()))
                    .list())
        .forEach(row -> markers.merge(row.id(), row, MarkerStore::withMoreEarlier));
    return List.copyOf(markers.values());
  }

  private static Marker withMoreEarlier(Marker marker, Marker next) {
    List<String> earlier = new ArrayList<>(marker.earlierNumbers());
    earlier.addAll(next.earlierNumbers());
    return new Marker(marker.id(), marker.number(), earlier);
  }
}
