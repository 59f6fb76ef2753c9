package rakelight.work;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import rakelight.archive.Apart;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.FaceId;
import rakelight.archive.Joining;
import rakelight.archive.MarkerId;
import rakelight.archive.Meeting;
import rakelight.archive.NewDecision;
import rakelight.archive.PhotographId;
import rakelight.archive.Withdrawals;
import rakelight.archive.Withdrawals.What;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

/**
 * What was withdrawn on one laptop while the other went on with it. A withdrawal counts as made
 * last: what the other put on the marker or face, and what it found to be one marker with it, goes
 * too, in the same act, so that one undo brings all of it back. Bytes are sealed, even where the
 * act deletes, since whoever withdrew didn't know of them. Somebody is told of each.
 */
final class WithdrawalJoining implements Joining {
  private static final List<String> WHOLE = List.of(What.MARKER.kind(), What.FACE.kind());

  @Override
  public List<Apart> apart(Meeting meeting) {
    List<Apart> apart = new ArrayList<>();
    apart(meeting.sides().get(0), meeting.sides().get(1), apart);
    apart(meeting.sides().get(1), meeting.sides().get(0), apart);
    return apart;
  }

  private static void apart(Meeting.Side withdrawing, Meeting.Side other, List<Apart> apart) {
    Map<UUID, Decision> withdrawn = withdrawing.last(WHOLE);
    Map<UUID, Decision> onto = new LinkedHashMap<>();
    for (Decision decision : other.standing()) {
      PhotoStore.putsOn(decision).ifPresent(thing -> onto.put(thing, decision));
      MarkerStore.mergesInto(decision)
          .ifPresent(
              into -> {
                onto.put(into.value(), decision);
                onto.put(decision.subject(), decision);
              });
    }
    withdrawn.forEach(
        (thing, gone) ->
            Optional.ofNullable(onto.get(thing))
                .ifPresent(
                    put ->
                        apart.add(
                            Apart.of(
                                "withdrawn on the one, gone on with on the other",
                                gone,
                                put,
                                Optional.empty(),
                                Optional.empty()))));
  }

  @Override
  public List<NewDecision> follows(Archive joined, Meeting meeting) {
    return new Going(joined).all();
  }

  /** What must go with what is withdrawn already. */
  private static final class Going {
    private final Archive joined;

    /** What is withdrawn or goes, each thing with the withdrawal that it goes by. */
    private final Map<UUID, Decision> withdrawn = new LinkedHashMap<>();

    private final List<NewDecision> going = new ArrayList<>();

    Going(Archive joined) {
      this.joined = joined;
    }

    List<NewDecision> all() {
      joined
          .journal()
          .standing(List.of(What.MARKER.kind(), What.FACE.kind(), What.PHOTOGRAPH.kind()))
          .forEach(decision -> withdrawn.put(decision.subject(), decision));
      if (!withdrawn.isEmpty()) {
        Set<UUID> markers = markers();
        Set<UUID> faces = faces();
        photographs();
        proposals();
        faces.forEach(face -> goes(What.FACE, face, Optional.empty()));
        markers.forEach(marker -> goes(What.MARKER, marker, Optional.empty()));
      }
      return going;
    }

    /** Those that are one with a marker that is withdrawn, also over several steps. */
    private Set<UUID> markers() {
      List<Decision> merges = new MarkerStore(joined).merges();
      Set<UUID> markers = new LinkedHashSet<>();
      int before = -1;
      while (before < markers.size()) {
        before = markers.size();
        for (Decision merge : merges) {
          UUID into = MarkerStore.mergesInto(merge).orElseThrow().value();
          if (add(merge.subject(), into)) {
            markers.add(into);
          }
          if (add(into, merge.subject())) {
            markers.add(merge.subject());
          }
        }
      }
      return markers;
    }

    private Set<UUID> faces() {
      Set<UUID> faces = new LinkedHashSet<>();
      PhotoStore photographs = new PhotoStore(joined);
      for (UUID thing : List.copyOf(withdrawn.keySet())) {
        for (Face face : photographs.faces(new MarkerId(thing))) {
          if (add(thing, face.id().value())) {
            faces.add(face.id().value());
          }
        }
      }
      return faces;
    }

    /** Has a thing go with another that is withdrawn; whether it does so only now. */
    private boolean add(UUID with, UUID thing) {
      return Optional.ofNullable(withdrawn.get(with))
          .filter(by -> withdrawn.putIfAbsent(thing, by) == null)
          .isPresent();
    }

    private void photographs() {
      PhotoStore photographs = new PhotoStore(joined);
      for (UUID thing : List.copyOf(withdrawn.keySet())) {
        for (Photograph shot : photographs.ofFace(new FaceId(thing))) {
          if (add(thing, shot.id().value())) {
            Withdrawals.Original sealed =
                new Withdrawals.Original(
                    shot.sha256(), shot.format().extension(), shot.sizeBytes(), true);
            goes(What.PHOTOGRAPH, shot.id().value(), Optional.of(sealed));
          }
        }
      }
    }

    private void proposals() {
      for (Proposal proposal : new ProposalStore(joined).allKept()) {
        boolean goes =
            Stream.concat(
                    proposal.photographs().stream().map(PhotographId::value),
                    proposal.face().stream().map(FaceId::value))
                .anyMatch(of -> add(of, proposal.id().value()));
        if (goes) {
          goes(What.PROPOSAL, proposal.id().value(), Optional.empty());
        }
      }
    }

    private void goes(What what, UUID thing, Optional<Withdrawals.Original> original) {
      Optional<Decision> made = joined.journal().standing(thing).stream().findFirst();
      Decision by = Optional.ofNullable(withdrawn.get(thing)).orElseThrow();
      made.ifPresent(first -> going.add(Withdrawals.alsoBy(by, what, first, original)));
    }
  }
}
