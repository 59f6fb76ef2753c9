package rakelight.person;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.archive.MarkerId;
import rakelight.archive.Projection;
import rakelight.ground.LinkStore;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.calendar.CalendarChange;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.reading.ProposalStore;

/** An archive for tests whose stones are read as the test says. */
final class ReadGround implements AutoCloseable {
  private static final List<Projection> PROJECTIONS =
      List.of(
          MarkerStore.projection(),
          PhotoStore.projection(),
          ProposalStore.projection(),
          ReadingStore.projection(),
          PersonStore.projection(),
          CorrectionStore.projection(),
          QuestionStore.projection(),
          SourceStore.projection(),
          LinkStore.projection());

  private final Archive archive;

  ReadGround(Path folder) {
    archive =
        Files.exists(folder)
            ? Archive.open(folder, PROJECTIONS)
            : Archive.init(
                folder, new Ground("Thornbeck", 54.1, -3.2, ZoneId.of("UTC")), PROJECTIONS);
  }

  Archive archive() {
    return archive;
  }

  Reading sign(String marker, String face, String leiden, String reader) {
    FaceId id = new PhotoStore(archive).faceOf(marker, face, reader).id();
    try {
      return new ReadingStore(archive)
          .sign(
              id,
              Leiden.parse(leiden),
              new Basis(
                  Basis.Kind.of("photographs").orElseThrow(),
                  Optional.empty(),
                  Optional.empty(),
                  Optional.empty()),
              Optional.empty(),
              reader);
    } catch (LeidenException e) {
      throw new IllegalArgumentException(leiden, e);
    }
  }

  Marker marker(String number) {
    return new MarkerStore(archive).byNumber(number).orElseThrow();
  }

  /** What the confirmed readings assert, each parsed anew and nothing kept. */
  List<FaceStatements> fromNothing() {
    PhotoStore photographs = new PhotoStore(archive);
    ReadingStore readings = new ReadingStore(archive);
    List<FaceStatements> all = new ArrayList<>();
    for (Marker marker : new MarkerStore(archive).markers()) {
      List<Face> faces = new ArrayList<>();
      List<Reading> current = new ArrayList<>();
      for (Face face : photographs.faces(marker.id())) {
        readings
            .current(face.id())
            .ifPresent(
                reading -> {
                  faces.add(face);
                  current.add(reading);
                });
      }
      List<List<Statement>> statements =
          Statements.ofFaces(
              current.stream().map(Reading::inscription).toList(),
              CalendarChange.of(archive.ground()));
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
    }
    return all;
  }

  /** The persons, concluded from nothing. */
  People peopleFromNothing() {
    return People.of(fromNothing(), new PersonStore(archive).opinions(), Map.of());
  }

  /** Makes the reading of every other marker such that nobody can parse it. */
  void spoilAllBut(String marker) {
    MarkerId kept = marker(marker).id();
    archive
        .ledger()
        .write(
            handle ->
                handle.execute(
                    "UPDATE reading SET text = '[' WHERE face_id NOT IN (SELECT id FROM face WHERE"
                        + " marker_id = ?)",
                    kept.toString()));
  }

  Map<String, String> keptStatements() {
    return new HashMap<>(archive.conclusions().all(KeptStatements.KIND));
  }

  @Override
  public void close() {
    archive.close();
  }
}
