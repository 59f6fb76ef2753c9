package rakelight.work;

import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
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
import rakelight.marker.Marker;
import rakelight.photo.Face;

/** What needs a person next, and how far the ground is. Thread-safe. */
public final class Queue {
  /** In what order faces come. */
  public enum Order {
    HARDEST,
    NAMES,
    MARKER,
    PLOT;

    /** As the interface writes it. */
    public String label() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** The order with this label, if there is one. */
    public static Optional<Order> of(String label) {
      for (Order order : values()) {
        if (order.label().equals(label)) {
          return Optional.of(order);
        }
      }
      return Optional.empty();
    }
  }

  /**
   * A face with what the lists say of it.
   *
   * @param plot the plot part of the marker's number; may be empty
   * @param readBy who has signed a reading of it, sealed or not; settlements aside
   * @param signed whether anything was signed of it
   * @param heldBack whether the machine's names and dates aren't shown of it
   * @param begunBy who has a draft of it
   */
  public record Item(
      Face face,
      Marker marker,
      String plot,
      FaceState state,
      Stakes stakes,
      Optional<LeftFace> left,
      Set<String> readBy,
      boolean signed,
      boolean heldBack,
      Set<String> begunBy) {
    /** The letters that ask for a look of whoever begins with it. */
    public Doubts asShown() {
      return heldBack ? stakes.heldBack() : stakes.open();
    }

    /** Whether nobody has read it and a machine can't: it needs other light. */
    public boolean isUnreadable() {
      return (state == FaceState.OPEN || state == FaceState.BEGUN)
          && stakes.proposed()
          && !stakes.readable();
    }
  }

  /** What stands before the last hyphen of a marker's number, or its first letters. */
  private static final Pattern PLOT = Pattern.compile("(.+)-[^-]*|(\\p{L}+).*");

  private final FacesInView view;
  private final Leases leases;
  private final Faces faces;

  public Queue(Archive archive, Leases leases, Faces faces) {
    this.view = new FacesInView(archive);
    this.leases = leases;
    this.faces = faces;
  }

  /** Every marker, by number, those without a face too. */
  public List<Marker> markers() {
    return view.now().markers();
  }

  /** Every face, by marker. */
  public List<Item> all() {
    return view.now().items();
  }

  /** How far one face is. */
  public FaceState state(Face face) {
    return view.now().item(face.id()).map(Item::state).orElse(FaceState.NO_PHOTOGRAPH);
  }

  /** How many faces are how far. */
  public static Map<FaceState, Integer> progress(Collection<Item> items) {
    Map<FaceState, Integer> progress = new EnumMap<>(FaceState.class);
    for (Item item : items) {
      progress.merge(item.state(), 1, Integer::sum);
    }
    return progress;
  }

  /**
   * How many letters of a face ask this reader for a look: in his draft, if he has begun; between
   * two readings, if he is to settle them; else in what a machine proposes. The same as the face
   * itself says when he opens it.
   */
  public Doubts doubts(Item item, NamedReader by) {
    boolean his = item.begunBy().contains(by.name()) || item.state() == FaceState.TO_SETTLE;
    if (his) {
      return Doubts.of(Place.of(faces.look(item.face(), by)));
    }
    return item.asShown();
  }

  /** Why a face waits for this reader, in plain words. */
  public String why(Item item, NamedReader by) {
    if (item.state() == FaceState.TO_SETTLE) {
      int places = doubts(item, by).letters();
      return "two readings differ"
          + (places == 0 ? "" : places == 1 ? " in one place" : " in " + places + " places");
    }
    return item.begunBy().contains(by.name())
        ? "begun; " + doubts(item, by).words()
        : unseen(item).orElseGet(() -> doubts(item, by).words());
  }

  /** The same in short: how many letters ask for a look. */
  public String left(Item item, NamedReader by) {
    return item.begunBy().contains(by.name())
        ? doubts(item, by).number()
        : unseen(item).orElseGet(() -> doubts(item, by).number());
  }

  /** Why no doubt is known of a face, if none is. */
  private static Optional<String> unseen(Item item) {
    if (!item.stakes().proposed()) {
      return Optional.of("no machine has read it");
    }
    return item.stakes().readable()
        ? Optional.empty()
        : Optional.of("the machine could read nothing");
  }

  /** All that waits for a reader, what comes next first. */
  public List<Item> waiting(String reader, Set<FaceId> skipped, Order order) {
    FacesInView.View now = view.now();
    return now.items().stream()
        .filter(item -> waitsFor(reader, item, now.required()))
        .filter(item -> !skipped.contains(item.face().id()))
        .sorted(comparator(order, now.items()))
        .toList();
  }

  private boolean waitsFor(String reader, Item item, int required) {
    boolean open =
        switch (item.state()) {
          case OPEN, BEGUN, ONCE_READ, TO_SETTLE -> true;
          case OTHER_LIGHT, NO_PHOTOGRAPH, SETTLED -> false;
        };
    int most = !item.signed() && required > 1 ? 2 : 1;
    return open
        && !item.readBy().contains(reader)
        && item.left().filter(left -> left.reader().equals(reader)).isEmpty()
        && leases.others(item.face().id(), reader) < most;
  }

  /** Items that are the same by it stay as they are: by marker. */
  private static Comparator<Item> comparator(Order order, List<Item> all) {
    return switch (order) {
      case HARDEST ->
          // Where a machine could read nothing no doubt is known: other light may help, not an
          // hour.
          Comparator.comparing((Item item) -> !item.stakes().readable())
              .thenComparingDouble(item -> -item.stakes().bits());
      case NAMES -> Comparator.comparingDouble(item -> -item.stakes().gain());
      case MARKER -> (one, other) -> 0;
      case PLOT -> {
        Map<String, Double> done =
            all.stream()
                .collect(
                    Collectors.groupingBy(
                        Item::plot,
                        Collectors.averagingInt(
                            item -> item.state() == FaceState.SETTLED ? 1 : 0)));
        yield Comparator.comparingDouble((Item item) -> done.getOrDefault(item.plot(), 0.0))
            .thenComparing(Item::plot);
      }
    };
  }

  /** The plot part of a marker's number: {@code C} of {@code C-12} and of {@code C12}. */
  public static String plot(String number) {
    Matcher matcher = PLOT.matcher(number);
    if (!matcher.matches()) {
      return "";
    }
    return matcher.group(1) != null ? matcher.group(1) : matcher.group(2);
  }
}
