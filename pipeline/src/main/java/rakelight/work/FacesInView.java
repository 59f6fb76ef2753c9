package rakelight.work;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

/**
 * Every face of the ground with how far it is, kept in memory and brought up to date by what has
 * been decided since it was last asked for: what was decided about a face changes that face, what
 * was decided about markers, photographs and the ground has the rows put together anew from what is
 * known of each face. Thread-safe.
 */
final class FacesInView {
  /** Beyond so many decisions it is cheaper to look at everything than at each. */
  private static final int TOO_MANY = 1000;

  /**
   * The ground at one moment.
   *
   * @param items by marker, then by face
   * @param place where each face stands among them
   * @param markers by number, those without a face too
   * @param required how many readers must read each face
   */
  record View(
      List<Queue.Item> items, Map<FaceId, Integer> place, List<Marker> markers, int required) {
    Optional<Queue.Item> item(FaceId face) {
      return Optional.ofNullable(place.get(face)).map(items::get);
    }
  }

  /** What people have done about a face. */
  private record Done(
      FaceReadings.State state,
      Set<String> readBy,
      boolean signed,
      boolean heldBack,
      Set<String> begunBy) {}

  /** The markers and where every photograph is. */
  private record Layout(
      Map<MarkerId, Marker> markers,
      Map<PhotographId, Optional<FaceId>> on,
      Set<FaceId> photographed) {}

  private final Archive archive;
  private final PhotoStore photographs;
  private final MarkerStore markerStore;
  private final ReadingStore readings;
  private final LeftFaceStore leftFaces;
  private final NewestProposals newest;
  private final StakesKept stakes;
  private final Map<FaceId, Done> done = new HashMap<>();
  private long counter;
  private Layout layout = new Layout(Map.of(), Map.of(), Set.of());
  private View view = new View(List.of(), Map.of(), List.of(), 1);

  FacesInView(Archive archive) {
    this.archive = archive;
    this.photographs = new PhotoStore(archive);
    this.markerStore = new MarkerStore(archive);
    this.readings = new ReadingStore(archive);
    this.leftFaces = new LeftFaceStore(archive);
    this.newest = new NewestProposals(archive);
    this.stakes = new StakesKept(archive);
  }

  /** The ground as it is now. */
  synchronized View now() {
    return archive
        .ledger()
        .read(
            handle -> {
              Set<FaceId> changed = new HashSet<>(newest.refresh());
              long last = archive.journal().lastCounter();
              if (counter == 0 || last - counter > TOO_MANY) {
                readAll();
                layOut();
              } else if (last > counter) {
                follow(changed);
              }
              counter = last;
              if (!changed.isEmpty()) {
                put(changed);
              }
              stakes.keep();
              return view;
            });
  }

  /**
   * Takes in what was decided since the last time.
   *
   * @param changed takes the faces it was about
   */
  private void follow(Set<FaceId> changed) {
    UUID ground = archive.id();
    boolean all = false;
    boolean elsewhere = false;
    for (Decision decision : archive.journal().since(counter)) {
      FaceId face = new FaceId(decision.subject());
      all |= decision.subject().equals(ground);
      if (view.place().containsKey(face)) {
        done.remove(face);
        changed.add(face);
      } else {
        elsewhere |= movesFaces(decision);
      }
    }
    if (all) {
      readAll();
    }
    if (all || elsewhere) {
      layOut();
      changed.clear();
    }
  }

  /** Whether it may be about markers or photographs, or about a face not known yet. */
  private static boolean movesFaces(Decision decision) {
    String kind = decision.kind();
    return kind.equals(Decision.UNDONE)
        || kind.startsWith("marker.")
        || kind.startsWith("photograph.")
        || kind.startsWith("face.");
  }

  /** What people have done about every face. */
  private void readAll() {
    done.clear();
    Map<FaceId, Set<String>> drafting = readings.drafting();
    for (FaceReadings signed : readings.all()) {
      FaceId face = signed.versions().get(0).face();
      done.put(face, done(signed, drafting.getOrDefault(face, Set.of())));
    }
    boolean heldBack = readings.required() > 1;
    for (Face face : photographs.faces()) {
      done.computeIfAbsent(
          face.id(),
          id ->
              new Done(
                  FaceReadings.State.UNREAD,
                  Set.of(),
                  false,
                  heldBack,
                  drafting.getOrDefault(id, Set.of())));
    }
  }

  private Done done(FaceId face) {
    return done(readings.ofFace(face), readings.drafting(face));
  }

  private static Done done(FaceReadings signed, Set<String> begunBy) {
    Set<String> readBy =
        signed.versions().stream()
            .filter(version -> version.settles().isEmpty())
            .map(Reading::reader)
            .collect(Collectors.toUnmodifiableSet());
    return new Done(
        signed.state(), readBy, !signed.versions().isEmpty(), signed.heldBack(), begunBy);
  }

  /** Puts the rows together anew. */
  private void layOut() {
    Map<PhotographId, Optional<FaceId>> on = new HashMap<>();
    Set<FaceId> photographed = new HashSet<>();
    for (Photograph photograph : photographs.photographs()) {
      on.put(photograph.id(), photograph.face());
      photograph.face().ifPresent(photographed::add);
    }
    Map<MarkerId, Marker> markers = new HashMap<>();
    List<Marker> byNumber = markerStore.markers();
    byNumber.forEach(marker -> markers.put(marker.id(), marker));
    layout = new Layout(markers, on, photographed);
    Map<FaceId, LeftFace> left = leftFaces.all();
    List<Queue.Item> items = new ArrayList<>();
    Map<FaceId, Integer> place = new HashMap<>();
    for (Face face : photographs.faces()) {
      Marker marker = markers.get(face.marker());
      if (marker != null) {
        place.put(face.id(), items.size());
        items.add(item(face, marker, Optional.ofNullable(left.get(face.id()))));
      }
    }
    view =
        new View(
            Collections.unmodifiableList(items), place, List.copyOf(byNumber), readings.required());
  }

  /** Puts the rows of these faces together anew. */
  private void put(Set<FaceId> changed) {
    Map<FaceId, LeftFace> left = leftFaces.all();
    List<Queue.Item> items = new ArrayList<>(view.items());
    for (FaceId id : changed) {
      Integer at = view.place().get(id);
      Optional<Face> face = photographs.face(id);
      if (at != null && face.isPresent()) {
        items.set(at, item(face.get(), items.get(at).marker(), Optional.ofNullable(left.get(id))));
      }
    }
    view =
        new View(
            Collections.unmodifiableList(items), view.place(), view.markers(), view.required());
  }

  private Queue.Item item(Face face, Marker marker, Optional<LeftFace> left) {
    Optional<DerivationKey> proposal = newest.key(face.id(), this::isAnyElsewhere);
    Done of = done.computeIfAbsent(face.id(), this::done);
    FaceState state =
        FaceState.of(
            of.state(),
            !of.begunBy().isEmpty(),
            left,
            layout.photographed().contains(face.id()) || proposal.isPresent());
    return new Queue.Item(
        face,
        marker,
        Queue.plot(marker.number()),
        state,
        proposal.map(key -> stakes.of(face.id(), key)).orElse(Stakes.NONE),
        left,
        of.readBy(),
        of.signed(),
        of.heldBack(),
        of.begunBy());
  }

  private boolean isAnyElsewhere(List<PhotographId> of, FaceId face) {
    return of.stream()
        .map(layout.on()::get)
        .anyMatch(on -> on != null && !on.equals(Optional.of(face)));
  }
}
