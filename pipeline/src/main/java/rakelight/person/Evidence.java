package rakelight.person;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Inscription;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Suggestion;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.calendar.CalendarChange;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

/**
 * What the faces of an archive assert: by their confirmed readings, or, where nobody has confirmed
 * one, by the machine's proposal, which is marked as such and is no fact.
 */
public final class Evidence {
  private final MarkerStore markers;
  private final PhotoStore photographs;
  private final ReadingStore readings;
  private final ProposalStore proposals;
  private final CalendarChange change;

  /**
   * A face with what it asserts.
   *
   * @param reading empty where only a machine has read the face
   * @param proposal what that was read from; empty for a confirmed reading
   */
  public record FaceStatements(
      Marker marker,
      Face face,
      Optional<Reading> reading,
      Optional<Proposal> proposal,
      Inscription inscription,
      List<Statement> statements) {
    public FaceStatements {
      statements = List.copyOf(statements);
    }
  }

  public Evidence(Archive archive) {
    markers = new MarkerStore(archive);
    photographs = new PhotoStore(archive);
    readings = new ReadingStore(archive);
    proposals = new ProposalStore(archive);
    change = CalendarChange.of(archive.ground());
  }

  /** The faces with a confirmed reading, by marker number and face name. */
  public List<FaceStatements> confirmed() {
    return statements(false);
  }

  /** The faces without a confirmed reading that a machine has read. */
  public List<FaceStatements> proposed() {
    return statements(true);
  }

  private List<FaceStatements> statements(boolean proposed) {
    Map<MarkerId, List<Face>> byMarker = new LinkedHashMap<>();
    for (Face face : photographs.faces()) {
      byMarker.computeIfAbsent(face.marker(), marker -> new ArrayList<>()).add(face);
    }
    List<FaceStatements> all = new ArrayList<>();
    byMarker.forEach(
        (id, faces) -> {
          Marker marker = markers.marker(id).orElseThrow();
          all.addAll(proposed ? proposed(marker, faces) : confirmed(marker, faces));
        });
    return List.copyOf(all);
  }

  private List<FaceStatements> confirmed(Marker marker, List<Face> faces) {
    List<Face> read = new ArrayList<>();
    List<Reading> current = new ArrayList<>();
    for (Face face : faces) {
      readings
          .current(face.id())
          .ifPresent(
              reading -> {
                read.add(face);
                current.add(reading);
              });
    }
    List<List<Statement>> statements =
        Statements.ofFaces(current.stream().map(Reading::inscription).toList(), change);
    List<FaceStatements> all = new ArrayList<>();
    for (int i = 0; i < read.size(); i++) {
      all.add(
          new FaceStatements(
              marker,
              read.get(i),
              Optional.of(current.get(i)),
              Optional.empty(),
              current.get(i).inscription(),
              statements.get(i)));
    }
    return all;
  }

  private List<FaceStatements> proposed(Marker marker, List<Face> faces) {
    List<FaceStatements> all = new ArrayList<>();
    for (Face face : faces) {
      FaceReadings signed = readings.ofFace(face.id());
      // Where two readers must read it, neither may learn what the machine takes names to be.
      boolean heldBack = signed.heldBack();
      Optional<Proposal> proposal =
          heldBack || signed.current().isPresent() ? Optional.empty() : proposals.latest(face.id());
      Optional<Inscription> inscription = proposal.flatMap(Suggestion::lattice);
      if (inscription.isPresent()) {
        all.add(
            new FaceStatements(
                marker,
                face,
                Optional.empty(),
                proposal,
                inscription.get(),
                Statements.of(inscription.get(), change)));
      }
    }
    return all;
  }
}
