package rakelight.desk;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.ProposalId;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.Doubt;
import rakelight.reading.Field;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

/** What needs a person next, and how far the ground is. Thread-safe. */
final class Queue {
  /** In what order faces come. */
  enum By {
    HARDEST,
    NAMES,
    MARKER,
    PLOT;

    String label() {
      return name().toLowerCase(Locale.ROOT);
    }

    static Optional<By> of(String label) {
      for (By by : values()) {
        if (by.label().equals(label)) {
          return Optional.of(by);
        }
      }
      return Optional.empty();
    }
  }

  /** A face with what the lists say of it. */
  record Item(Face face, Marker marker, FaceState state, Stakes stakes, Optional<LeftFace> left) {
    /** Whether nobody has read it and a machine can't: it needs other light. */
    boolean isUnreadable() {
      return (state == FaceState.OPEN || state == FaceState.BEGUN)
          && stakes.proposed()
          && !stakes.readable();
    }

    /** Why it waits, in plain words. */
    String why() {
      if (state == FaceState.TO_SETTLE) {
        return "two readings differ";
      }
      if (!stakes.proposed()) {
        return "nobody has read it yet";
      }
      if (!stakes.readable()) {
        return "the machine could read nothing";
      }
      return switch (stakes.letters()) {
        case 0 -> "no doubtful letter";
        case 1 -> "1 doubtful letter" + (stakes.fieldLetters() == 1 ? ", in a name or a date" : "");
        default ->
            stakes.letters()
                + " doubtful letters, "
                + (stakes.fieldLetters() == 0
                    ? "none"
                    : stakes.fieldLetters() == stakes.letters() ? "all" : stakes.fieldLetters())
                + " of them in names or dates";
      };
    }
  }

  /**
   * How much the newest proposal of a face leaves open.
   *
   * @param proposed whether there is one
   * @param readable whether it has a line worth a look
   * @param letters doubtful letters
   * @param fieldLetters those of them that seem to belong to a name or a date
   * @param bits the doubt over all letters
   * @param gain what answers would be worth (see {@link Doubt})
   */
  record Stakes(
      boolean proposed, boolean readable, int letters, int fieldLetters, double bits, double gain) {
    static final Stakes NONE = new Stakes(false, false, 0, 0, 0, 0);

    static Stakes of(Proposal proposal) {
      List<Doubt> doubts = Doubt.of(proposal);
      List<Doubt> letters = doubts.stream().filter(doubt -> doubt.letter() > 0).toList();
      return new Stakes(
          true,
          proposal.readable(),
          letters.size(),
          (int)
              letters.stream()
                  .filter(doubt -> doubt.field() == Field.NAME || doubt.field() == Field.DATE)
                  .count(),
          proposal.lines().stream()
              .flatMap(line -> line.lattice().slots().stream())
              .mapToDouble(Doubt::bits)
              .sum(),
          doubts.stream().mapToDouble(Doubt::gain).sum());
    }
  }

  /**
   * @param item the face that comes next; empty when nothing is left
   * @param left how many faces are left for this reader, this one counted
   */
  record Next(Optional<Item> item, int left) {}

  /** What stands before the last hyphen of a marker's number, or its first letters. */
  private static final Pattern PLOT = Pattern.compile("(.+)-[^-]*|(\\p{L}+).*");

  private record Known(ProposalId id, Stakes stakes) {}

  private final MarkerStore markerStore;
  private final PhotoStore photographs;
  private final ProposalStore proposals;
  private final ReadingStore readings;
  private final LeftFaceStore leftFaces;
  private final Archive archive;
  private final Leases leases;
  private final Map<FaceId, Known> stakes = new HashMap<>();

  Queue(Archive archive, Leases leases) {
    this.archive = archive;
    this.leases = leases;
    this.markerStore = new MarkerStore(archive);
    this.photographs = new PhotoStore(archive);
    this.proposals = new ProposalStore(archive);
    this.readings = new ReadingStore(archive);
    this.leftFaces = new LeftFaceStore(archive);
  }

  /** Every face, by marker. */
  List<Item> all() {
    return archive
        .ledger()
        .read(
            handle -> {
              Map<MarkerId, Marker> markers =
                  markerStore.markers().stream()
                      .collect(Collectors.toMap(Marker::id, marker -> marker));
              Map<FaceId, FaceReadings> signed = signed();
              Map<FaceId, Set<String>> drafting = readings.drafting();
              Map<FaceId, LeftFace> left = leftFaces.all();
              Set<FaceId> photographed =
                  photographs.photographs().stream()
                      .flatMap(photograph -> photograph.face().stream())
                      .collect(Collectors.toSet());
              int required = readings.required();
              List<Item> items = new ArrayList<>();
              for (Face face : photographs.faces()) {
                Optional<LeftFace> aside = Optional.ofNullable(left.get(face.id()));
                FaceReadings of =
                    signed.getOrDefault(face.id(), new FaceReadings(List.of(), required, false));
                Marker marker = markers.get(face.marker());
                if (marker != null) {
                  items.add(
                      new Item(
                          face,
                          marker,
                          FaceState.of(
                              of,
                              drafting.getOrDefault(face.id(), Set.of()),
                              aside,
                              photographed.contains(face.id())
                                  || proposals.latestId(face.id()).isPresent()),
                          stakes(face),
                          aside));
                }
              }
              return items;
            });
  }

  private Map<FaceId, FaceReadings> signed() {
    Map<FaceId, FaceReadings> signed = new HashMap<>();
    for (FaceReadings of : readings.all()) {
      signed.put(of.versions().get(0).face(), of);
    }
    return signed;
  }

  /** How far one face is. */
  FaceState state(Face face) {
    return FaceState.of(
        readings.ofFace(face.id()),
        readings.drafting().getOrDefault(face.id(), Set.of()),
        leftFaces.find(face.id()),
        !photographs.ofFace(face.id()).isEmpty() || proposals.latestId(face.id()).isPresent());
  }

  /** The photographs of a face, cards left out. */
  List<Photograph> photographs(Face face) {
    return photographs.ofFace(face.id());
  }

  /** How many faces are how far. */
  static Map<FaceState, Integer> progress(List<Item> items) {
    Map<FaceState, Integer> progress = new EnumMap<>(FaceState.class);
    for (Item item : items) {
      progress.merge(item.state(), 1, Integer::sum);
    }
    return progress;
  }

  /** What comes next for a reader. */
  Next next(String reader, Set<FaceId> skipped, By by) {
    List<Item> waiting = waiting(reader, skipped, by);
    return new Next(waiting.stream().findFirst(), waiting.size());
  }

  /** All that waits for a reader, what comes next first. */
  List<Item> waiting(String reader, Set<FaceId> skipped, By by) {
    List<Item> all = all();
    Map<FaceId, FaceReadings> signed = signed();
    List<Item> open = new ArrayList<>();
    for (Item item : all) {
      FaceId face = item.face().id();
      Optional<FaceReadings> of = Optional.ofNullable(signed.get(face));
      boolean mine = of.flatMap(one -> one.by(reader)).isPresent();
      boolean leftByMe = item.left().filter(left -> left.reader().equals(reader)).isPresent();
      boolean taken =
          leases.others(face, reader) >= (of.isEmpty() && readings.required() > 1 ? 2 : 1);
      boolean waits =
          switch (item.state()) {
            case OPEN, BEGUN, ONCE_READ, TO_SETTLE -> true;
            case OTHER_LIGHT, NO_PHOTOGRAPH, SETTLED -> false;
          };
      if (waits && !mine && !leftByMe && !taken && !skipped.contains(face)) {
        open.add(item);
      }
    }
    open.sort(order(by, all));
    return open;
  }

  private static Comparator<Item> order(By by, List<Item> all) {
    Map<FaceId, Integer> place = new HashMap<>();
    for (Item item : all) {
      place.put(item.face().id(), place.size());
    }
    Comparator<Item> byMarker =
        Comparator.comparingInt(item -> place.getOrDefault(item.face().id(), 0));
    return switch (by) {
      case HARDEST ->
          // Where a machine could read nothing no doubt is known: other light may help, not an
          // hour.
          Comparator.comparing((Item item) -> !item.stakes().readable())
              .thenComparingDouble(item -> -item.stakes().bits())
              .thenComparing(byMarker);
      case NAMES ->
          Comparator.comparingDouble((Item item) -> -item.stakes().gain()).thenComparing(byMarker);
      case MARKER -> byMarker;
      case PLOT -> {
        Map<String, Double> done =
            all.stream()
                .collect(
                    Collectors.groupingBy(
                        item -> plot(item.marker().number()),
                        Collectors.averagingInt(
                            item -> item.state() == FaceState.SETTLED ? 1 : 0)));
        yield Comparator.comparingDouble(
                (Item item) -> done.getOrDefault(plot(item.marker().number()), 0.0))
            .thenComparing(item -> plot(item.marker().number()))
            .thenComparing(byMarker);
      }
    };
  }

  /** The plot part of a marker's number: {@code C} of {@code C-12} and of {@code C12}. */
  static String plot(String number) {
    Matcher matcher = PLOT.matcher(number);
    if (!matcher.matches()) {
      return "";
    }
    return matcher.group(1) != null ? matcher.group(1) : matcher.group(2);
  }

  private Stakes stakes(Face face) {
    Optional<ProposalId> id = proposals.latestId(face.id());
    if (id.isEmpty()) {
      return Stakes.NONE;
    }
    synchronized (stakes) {
      Known known = stakes.get(face.id());
      if (known != null && known.id().equals(id.get())) {
        return known.stakes();
      }
    }
    Stakes made = proposals.latest(face.id()).map(Stakes::of).orElse(Stakes.NONE);
    synchronized (stakes) {
      stakes.put(face.id(), new Known(id.get(), made));
    }
    return made;
  }
}
