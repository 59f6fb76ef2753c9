package rakelight.person;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.FaceId;
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
 * one, by the machine's proposal, which is marked as such and is no fact. A reading is parsed once
 * and what it asserts kept; a proposal is parsed each time.
 */
public final class Evidence {
  private final MarkerStore markers;
  private final PhotoStore photographs;
  private final ReadingStore readings;
  private final ProposalStore proposals;
  private final CalendarChange change;
  private final KeptStatements kept;

  /**
   * A face with what it asserts.
   *
   * @param reading empty where only a machine has read the face
   * @param proposal what that was read from; empty for a confirmed reading
   * @param letters gives what is read, letter by letter
   */
  public record FaceStatements(
      Marker marker,
      Face face,
      Optional<Reading> reading,
      Optional<Proposal> proposal,
      Supplier<Inscription> letters,
      List<Statement> statements) {
    public FaceStatements {
      statements = List.copyOf(statements);
    }

    /** What is read, letter by letter. */
    public Inscription inscription() {
      return letters.get();
    }

    /** Its words, folded as names are. */
    public Set<String> words() {
      return CarvedWord.of(inscription()).stream()
          .map(CarvedWord::folded)
          .collect(Collectors.toUnmodifiableSet());
    }
  }

  public Evidence(Archive archive) {
    markers = new MarkerStore(archive);
    photographs = new PhotoStore(archive);
    readings = new ReadingStore(archive);
    proposals = new ProposalStore(archive);
    change = CalendarChange.of(archive.ground());
    kept = new KeptStatements(archive);
  }

  /** The faces with a confirmed reading, by marker number and face name. */
  public List<FaceStatements> confirmed() {
    Map<FaceId, Reading> current = new HashMap<>();
    readings.current().forEach(reading -> current.put(reading.face(), reading));
    List<Marker> read = new ArrayList<>();
    List<List<Face>> faces = new ArrayList<>();
    byMarker()
        .forEach(
            (marker, all) -> {
              List<Face> own = all.stream().filter(f -> current.containsKey(f.id())).toList();
              if (!own.isEmpty()) {
                read.add(marker);
                faces.add(own);
              }
            });
    List<List<Reading>> readingsOf =
        faces.stream()
            .map(own -> own.stream().flatMap(f -> Stream.ofNullable(current.get(f.id()))).toList())
            .toList();
    List<List<List<Statement>>> statements = kept.ofMarkers(readingsOf);
    List<FaceStatements> all = new ArrayList<>();
    for (int i = 0; i < read.size(); i++) {
      all.addAll(confirmed(read.get(i), faces.get(i), readingsOf.get(i), statements.get(i)));
    }
    return List.copyOf(all);
  }

  /** The faces of one marker with a confirmed reading, by name. No other marker is looked at. */
  public List<FaceStatements> confirmed(Marker marker) {
    List<Face> faces = new ArrayList<>();
    List<Reading> current = new ArrayList<>();
    for (Face face : photographs.faces(marker.id())) {
      Optional<Reading> reading = readings.current(face.id());
      if (reading.isPresent()) {
        faces.add(face);
        current.add(reading.get());
      }
    }
    return confirmed(marker, faces, current, kept.ofFaces(current));
  }

  private static List<FaceStatements> confirmed(
      Marker marker, List<Face> faces, List<Reading> current, List<List<Statement>> statements) {
    List<FaceStatements> all = new ArrayList<>();
    for (int i = 0; i < faces.size(); i++) {
      all.add(
          new FaceStatements(
              marker,
              faces.get(i),
              Optional.of(current.get(i)),
              Optional.empty(),
              current.get(i).letters(),
              statements.get(i)));
    }
    return List.copyOf(all);
  }

  /** What readings of the faces of one marker assert, confirmed or not, in their order. */
  public List<List<Statement>> ofFaces(List<Reading> faces) {
    return kept.ofFaces(faces);
  }

  /**
   * What the reading of a face that stands asserts, with what the marker's other faces lend it, in
   * its order.
   */
  public List<Statement> told(Reading standing) {
    Face face = photographs.face(standing.face()).orElseThrow();
    Marker marker = markers.marker(face.marker()).orElseThrow();
    return confirmed(marker).stream()
        .filter(one -> one.face().id().equals(standing.face()))
        .findFirst()
        .map(FaceStatements::statements)
        .orElse(List.of());
  }

  /** What one reading asserts by itself, without the surname that other faces may lend it. */
  public List<Statement> of(Reading reading) {
    return kept.of(reading, "");
  }

  /**
   * Makes sure that what was concluded of somebody still holds. Call it in the transaction that
   * writes what rests on it.
   *
   * @throws ArchiveException if the reading that names him isn't the one that stands
   */
  public void requireCurrent(Mention mention) {
    Optional<Reading> concludedFrom = mention.source().reading();
    boolean stands =
        concludedFrom.isEmpty()
            || readings
                .current(mention.id().face())
                .filter(current -> current.id().equals(concludedFrom.get().id()))
                .isPresent();
    if (!stands) {
      throw new ArchiveException(
          mention.label()
              + ": the face has been read anew, or its reading taken back, in this moment. Look at"
              + " it again; nothing was decided.");
    }
  }

  /** The faces without a confirmed reading that a machine has read. */
  public List<FaceStatements> proposed() {
    List<FaceStatements> all = new ArrayList<>();
    byMarker().forEach((marker, faces) -> all.addAll(proposed(marker, faces)));
    return List.copyOf(all);
  }

  private Map<Marker, List<Face>> byMarker() {
    Map<MarkerId, List<Face>> faces = new HashMap<>();
    for (Face face : photographs.faces()) {
      faces.computeIfAbsent(face.marker(), marker -> new ArrayList<>()).add(face);
    }
    Map<Marker, List<Face>> byMarker = new LinkedHashMap<>();
    markers
        .markers()
        .forEach(marker -> byMarker.put(marker, faces.getOrDefault(marker.id(), List.of())));
    return byMarker;
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
        Inscription read = inscription.get();
        all.add(
            new FaceStatements(
                marker, face, Optional.empty(), proposal, () -> read, Statements.of(read, change)));
      }
    }
    return all;
  }
}
