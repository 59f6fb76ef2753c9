package rakelight.photo;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.archive.Apart;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.Joining;
import rakelight.archive.MarkerId;
import rakelight.archive.Meeting;
import rakelight.archive.NewDecision;
import rakelight.archive.PhotographId;
import rakelight.archive.Sha256;
import rakelight.archive.Withdrawals;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

/**
 * Photographs and faces of two laptops. The same bytes taken in on both are one photograph; what
 * was decided of the one that is later in order is said of the other, where it says nothing of that
 * yet. Of two faces of one name on one marker the later gets a name of its own. A face on a marker
 * that was made part of another follows it.
 */
final class PhotoJoining implements Joining {
  private static final Set<String> PLACING =
      Set.of(PhotoDecisions.ASSIGNED, PhotoDecisions.TAKEN_OFF, PhotoDecisions.SET_ASIDE);

  /** Two photographs of the same bytes. */
  private record TakenTwice(PhotographId kept, PhotographId gone) {}

  @Override
  public List<Apart> apart(Meeting meeting) {
    List<Apart> apart = new ArrayList<>();
    Map<List<Object>, Decision> made = facesMade(meeting.sides().get(0));
    facesMade(meeting.sides().get(1))
        .forEach(
            (place, there) ->
                Optional.ofNullable(made.get(place))
                    .filter(here -> !here.subject().equals(there.subject()))
                    .ifPresent(
                        here ->
                            apart.add(
                                Apart.of(
                                    "a face of that name",
                                    here,
                                    there,
                                    Optional.empty(),
                                    Optional.empty()))));
    return apart;
  }

  private static Map<List<Object>, Decision> facesMade(Meeting.Side side) {
    Map<List<Object>, Decision> made = new HashMap<>();
    side.standing().stream()
        .filter(decision -> decision.kind().equals(PhotoDecisions.FACE_CREATED))
        .forEach(
            decision -> {
              var face = decision.payload(PhotoDecisions.FaceCreated.class);
              made.put(List.of(face.marker(), face.name().toLowerCase(Locale.ROOT)), decision);
            });
    return made;
  }

  @Override
  public List<NewDecision> follows(Archive joined, Meeting meeting) {
    List<NewDecision> follows = new ArrayList<>();
    doubles(joined, meeting).forEach(two -> sayAgain(joined, two, follows));
    names(joined, meeting, follows);
    return follows;
  }

  private static List<TakenTwice> doubles(Archive joined, Meeting meeting) {
    Map<Sha256, PhotographId> taken = takenIn(meeting.sides().get(0));
    List<TakenTwice> doubles = new ArrayList<>();
    takenIn(meeting.sides().get(1))
        .forEach(
            (digest, there) -> {
              PhotographId here = taken.get(digest);
              if (here != null && !here.equals(there)) {
                boolean firstKept = place(joined, here) < place(joined, there);
                doubles.add(firstKept ? new TakenTwice(here, there) : new TakenTwice(there, here));
              }
            });
    doubles.sort(Comparator.comparing(two -> two.kept().toString()));
    return doubles;
  }

  private static long place(Archive joined, PhotographId photograph) {
    return joined.journal().bySubject(photograph.value()).get(0).counter();
  }

  private static Map<Sha256, PhotographId> takenIn(Meeting.Side side) {
    Map<Sha256, PhotographId> taken = new HashMap<>();
    side.standing().stream()
        .filter(decision -> decision.kind().equals(PhotoDecisions.INGESTED))
        .forEach(
            decision ->
                taken.put(
                    decision.payload(PhotoDecisions.Ingested.class).sha256(),
                    new PhotographId(decision.subject())));
    return taken;
  }

  private static void sayAgain(Archive joined, TakenTwice two, List<NewDecision> follows) {
    Set<String> saidOfKept = new HashSet<>();
    List<Decision> ofKept = joined.journal().bySubject(two.kept().value());
    ofKept.forEach(decision -> saidOfKept.add(slot(decision.kind())));
    List<Decision> ofGone = joined.journal().standing(two.gone().value());
    DecisionId made = ofKept.get(0).id();
    DecisionId madeGone = joined.journal().bySubject(two.gone().value()).get(0).id();
    for (Decision decision : ofGone) {
      boolean keeps =
          decision.kind().equals("photograph.withheld")
              || decision.kind().equals(PhotoDecisions.ALSO_SHOWS)
              || Withdrawals.isWithdrawal(decision);
      if (decision.kind().equals(PhotoDecisions.INGESTED)
          || (!keeps && saidOfKept.contains(slot(decision.kind())))) {
        continue;
      }
      List<DecisionId> rests = new ArrayList<>();
      decision.restsOn().forEach(id -> rests.add(id.equals(madeGone) ? made : id));
      follows.add(
          new NewDecision(
              decision.reader(),
              decision.kind(),
              decision.version(),
              two.kept().value(),
              decision.payload(),
              rests));
    }
  }

  /** The face that a photograph, or a stone on it, was said to show. */
  private static Optional<FaceId> shownFace(Decision decision) {
    return switch (decision.kind()) {
      case PhotoDecisions.ASSIGNED ->
          Optional.of(decision.payload(PhotoDecisions.Assigned.class).face());
      case PhotoDecisions.ALSO_SHOWS -> decision.payload(PhotoDecisions.AlsoShows.class).face();
      default -> Optional.empty();
    };
  }

  private static String slot(String kind) {
    return PLACING.contains(kind) ? PhotoDecisions.ASSIGNED : kind;
  }

  /** Faces that share a name on a marker, or are left on one that is part of another now. */
  private static void names(Archive joined, Meeting meeting, List<NewDecision> follows) {
    PhotoStore photos = new PhotoStore(joined);
    MarkerStore markers = new MarkerStore(joined);
    Set<FaceId> touched = new HashSet<>();
    for (Decision decision :
        Stream.concat(
                meeting.sides().get(0).standing().stream(),
                meeting.sides().get(1).standing().stream())
            .toList()) {
      touched.add(new FaceId(decision.subject()));
      shownFace(decision).ifPresent(touched::add);
    }
    Map<MarkerId, Set<String>> taken = new HashMap<>();
    List<Face> inOrder =
        touched.stream()
            .flatMap(id -> photos.face(id).stream())
            .sorted(
                Comparator.comparing(
                    face -> joined.journal().bySubject(face.id().value()).get(0).counter()))
            .toList();
    for (Face face : inOrder) {
      Optional<Marker> marker = markers.marker(face.marker());
      if (marker.isEmpty()) {
        continue;
      }
      MarkerId now = marker.get().id();
      boolean left = !now.equals(face.marker());
      Set<String> names =
          taken.computeIfAbsent(
              now,
              id ->
                  photos.faces(id).stream()
                      .filter(there -> !touched.contains(there.id()))
                      .map(there -> there.name().toLowerCase(Locale.ROOT))
                      .collect(Collectors.toCollection(HashSet::new)));
      boolean isEmpty = left && photos.ofFace(face.id()).isEmpty() && !isSaidOf(joined, face);
      boolean isFree = !isEmpty && names.add(face.name().toLowerCase(Locale.ROOT));
      if (isEmpty || (isFree && !left)) {
        continue;
      }
      String name = isFree ? face.name() : free(face.name(), names);
      follows.add(
          NewDecision.of(
                  Decision.PROGRAM,
                  PhotoDecisions.FACE_MOVED,
                  1,
                  face.id().value(),
                  new PhotoDecisions.FaceMoved(
                      now, name, face.bearingDegrees(), meeting.id("face " + face.id())))
              .restingOn(List.of(photos.madeBy(face.id()), markers.madeBy(now))));
    }
  }

  /** Whether anything was decided of a face but where it stands. */
  private static boolean isSaidOf(Archive joined, Face face) {
    return joined.journal().standing(face.id().value()).stream()
        .anyMatch(decision -> !decision.kind().startsWith("face."));
  }

  private static String free(String name, Set<String> names) {
    String free = name + " bis";
    for (int i = 2; !names.add(free.toLowerCase(Locale.ROOT)); i++) {
      free = name + " bis " + i;
    }
    return free;
  }
}
