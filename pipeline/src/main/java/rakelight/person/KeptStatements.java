package rakelight.person;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.Conclusions;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.inscription.Reading;
import rakelight.inscription.SignId;
import rakelight.person.calendar.CalendarChange;

/**
 * Statements of signed readings, each reading parsed once. A version of a reading never changes, so
 * what it asserts follows from its id, the grammar's version, the calendar of the ground and the
 * surname that other faces of the marker lend it, and is kept under these.
 */
final class KeptStatements {
  static final Conclusions.Kind KIND = new Conclusions.Kind("statements", Statements.GRAMMAR);

  private final Conclusions conclusions;
  private final CalendarChange change;
  private final CorrectionStore corrections;

  /** A statement as it is written down. */
  private record Written(
      List<Integer> persons,
      Statement.Kind kind,
      int firstLine,
      int lastLine,
      String text,
      String value,
      Optional<Detail> detail,
      Optional<String> supplied,
      double odds,
      List<Integer> signs) {
    static Written of(Statement statement) {
      return new Written(
          statement.persons(),
          statement.kind(),
          statement.firstLine(),
          statement.lastLine(),
          statement.text(),
          statement.value(),
          statement.detail(),
          statement.supplied(),
          statement.odds(),
          statement.signs().stream().map(SignId::number).toList());
    }

    Statement statement() {
      return new Statement(
          persons,
          kind,
          firstLine,
          lastLine,
          text,
          value,
          detail,
          supplied,
          odds,
          signs.stream().map(SignId::of).toList());
    }
  }

  KeptStatements(Archive archive) {
    conclusions = archive.conclusions();
    change = CalendarChange.of(archive.ground());
    corrections = new CorrectionStore(archive);
  }

  /**
   * What one reading asserts.
   *
   * @param familyName the surname that the marker's other faces bear; empty where there is none
   */
  List<Statement> of(Reading reading, String familyName) {
    List<Correction> said = fitting(reading, corrections.of(reading.face()));
    String key = key(reading, familyName, said);
    Optional<String> kept = conclusions.find(KIND, key);
    if (kept.isPresent()) {
      return read(kept.get());
    }
    List<Statement> parsed = parse(reading, familyName, said);
    conclusions.keep(KIND, Map.of(key, write(parsed)));
    return parsed;
  }

  /** What the readings of the faces of one marker assert. */
  List<List<Statement>> ofFaces(List<Reading> faces) {
    return Statements.ofFaces(faces, this::of);
  }

  /** What the readings of many markers assert, fetched and kept in one go. */
  List<List<List<Statement>>> ofMarkers(List<List<Reading>> markers) {
    Map<String, String> all = conclusions.all(KIND);
    Map<String, String> made = new HashMap<>();
    Map<FaceId, List<Correction>> corrected = corrections.all();
    List<List<List<Statement>>> statements =
        markers.stream()
            .map(
                faces ->
                    Statements.ofFaces(
                        faces,
                        (reading, familyName) -> {
                          List<Correction> said =
                              fitting(reading, corrected.getOrDefault(reading.face(), List.of()));
                          String key = key(reading, familyName, said);
                          String kept = all.get(key);
                          if (kept != null) {
                            return read(kept);
                          }
                          List<Statement> parsed = parse(reading, familyName, said);
                          made.put(key, write(parsed));
                          return parsed;
                        }))
            .toList();
    conclusions.keep(KIND, made);
    return statements;
  }

  /** What people said of this reading's words, as far as they still say what was meant. */
  private static List<Correction> fitting(Reading reading, List<Correction> corrections) {
    return corrections.stream().filter(one -> one.fits(reading.inscription())).toList();
  }

  private List<Statement> parse(Reading reading, String familyName, List<Correction> corrections) {
    return Statements.of(
        reading.inscription(),
        change,
        familyName,
        corrections.stream().map(Correction::said).toList());
  }

  private String key(Reading reading, String familyName, List<Correction> corrections) {
    StringBuilder key = new StringBuilder();
    key.append(reading.id())
        .append(' ')
        .append(change.firstGregorianDay())
        .append(' ')
        .append(change.firstYearFromJanuary())
        .append(' ')
        .append(familyName);
    corrections.forEach(one -> key.append(' ').append(one.decision()));
    return key.toString();
  }

  static String write(List<Statement> statements) {
    return Json.text(statements.stream().map(Written::of).toList());
  }

  static List<Statement> read(String document) {
    return List.of(Json.read(document, Written[].class)).stream().map(Written::statement).toList();
  }
}
