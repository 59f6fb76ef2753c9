package rakelight.person;

import static java.util.stream.Collectors.joining;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.marker.Marker;
import rakelight.names.NameForms;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.calendar.CalendarChange;
import rakelight.photo.Face;
import rakelight.photo.Position;
import rakelight.samples.SampleFace;
import rakelight.samples.SampleGround;
import rakelight.samples.SampleMarker;
import rakelight.samples.SamplePerson;
import rakelight.samples.SampleStatement;
import rakelight.samples.Samples;

/** The invented ground's stones as cut, with the markers where a telephone would place them. */
record SamplePeople(List<FaceStatements> faces, Map<MarkerId, Position> places) {
  private static final SampleGround GROUND = Samples.ground();
  private static final List<SampleStatement> STATEMENTS = GROUND.statements();
  private static final double METRES_PER_DEGREE_NORTH = 111_132;
  private static final double METRES_PER_DEGREE_EAST = 80_206;

  /**
   * @param errorMetres standard deviation of each marker's position
   */
  static SamplePeople of(double errorMetres, long seed) throws LeidenException {
    Random random = new Random(seed);
    List<FaceStatements> faces = new ArrayList<>();
    Map<MarkerId, Position> places = new HashMap<>();
    for (SampleMarker marker : GROUND.markers()) {
      Marker row = new Marker(MarkerId.next(), marker.id(), List.of());
      double north = marker.northM() + errorMetres * random.nextGaussian();
      double east = marker.eastM() + errorMetres * random.nextGaussian();
      places.put(
          row.id(),
          new Position(
              GROUND.latitude() + north / METRES_PER_DEGREE_NORTH,
              GROUND.longitude() + east / METRES_PER_DEGREE_EAST,
              Optional.empty(),
              Optional.empty()));
      List<Inscription> read = new ArrayList<>();
      for (SampleFace face : marker.faces()) {
        read.add(Leiden.parse(asCut(face)));
      }
      List<List<Statement>> statements = Statements.ofFaces(read, CalendarChange.BRITISH);
      for (int i = 0; i < read.size(); i++) {
        String name = marker.faces().get(i).face();
        Inscription own = read.get(i);
        faces.add(
            new FaceStatements(
                row,
                new Face(FaceId.next(), row.id(), name, Optional.empty()),
                Optional.empty(),
                Optional.empty(),
                () -> own,
                statements.get(i)));
      }
    }
    return new SamplePeople(faces, places);
  }

  private static String asCut(SampleFace face) {
    return face.lines().stream()
        .map(line -> line.asCut().replaceAll("~+", "(vac.)").strip())
        .collect(joining("\n"));
  }

  People people() {
    return People.of(faces, List.of(), places);
  }

  /** Who it is in truth: the ground's id of the person, or a name for parents without one. */
  static String truth(Mention mention) {
    String marker = mention.source().marker().number();
    String face = mention.source().face().name();
    List<SampleStatement> own =
        STATEMENTS.stream()
            .filter(s -> s.marker().equals(marker) && s.face().equals(face))
            .toList();
    if (!mention.isKinOnly()) {
      return own.stream()
          .filter(s -> s.kind().equals("name"))
          .map(SampleStatement::person)
          .distinct()
          .skip(mention.number() - 1L)
          .findFirst()
          .orElse("nobody at " + mention.label());
    }
    return GROUND.persons().stream()
        .filter(person -> own.stream().noneMatch(s -> isNamed(s, person)))
        .filter(person -> fits(person, mention))
        .map(SamplePerson::id)
        .findFirst()
        .orElse(mention.name().given() + " " + mention.name().surname());
  }

  private static boolean isNamed(SampleStatement statement, SamplePerson person) {
    return statement.kind().equals("name") && statement.person().equals(person.id());
  }

  /** By initials, since those named as kin often have no more. */
  private static boolean fits(SamplePerson person, Mention mention) {
    String[] given = mention.name().given().split("[ .]+", -1);
    String[] whole = person.given().split(" ", -1);
    boolean agree =
        NameForms.fold(person.surname()).equals(NameForms.fold(mention.name().surname()))
            && whole.length >= given.length;
    for (int i = 0; i < given.length && agree; i++) {
      String one = NameForms.fold(given[i]);
      String other = NameForms.fold(whole[i]);
      boolean initial = one.length() == 1 && other.startsWith(one);
      agree = initial || other.equals(one) || (one.length() > 3 && other.startsWith(one));
    }
    return agree;
  }
}
