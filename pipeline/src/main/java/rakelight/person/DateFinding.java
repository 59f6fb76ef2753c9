package rakelight.person;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Statement.Kind;
import rakelight.person.StoneArithmetic.Figure;

/**
 * Something that reckoning with the dates and ages of a face brought out.
 *
 * @param person of the face, counted from 1 in the order they are named
 * @param figure what became of a worn figure
 * @param reckoned the value that is worked out
 * @param words for people
 */
public record DateFinding(
    FaceStatements face,
    int person,
    Sort sort,
    Optional<Figure> figure,
    Optional<Statement> reckoned,
    String words) {
  /** What was brought out. */
  public enum Sort {
    /** Dates and ages can't all be right. */
    CONTRADICTION,
    /** What a worn figure must be, or can't. */
    FIGURE,
    /** A date or an age that isn't carved. */
    VALUE;

    /** As documents write it. */
    public String label() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** All of a face: what its persons' dates say together, then what is worked out. */
  public static List<DateFinding> of(FaceStatements face) {
    List<DateFinding> all = new ArrayList<>();
    for (KinAgreement.Finding finding : KinAgreement.of(face.statements())) {
      all.add(
          new DateFinding(
              face,
              finding.person(),
              finding.contradiction() ? Sort.CONTRADICTION : Sort.FIGURE,
              finding.figure(),
              Optional.empty(),
              finding.words()));
    }
    for (Statement statement : face.statements()) {
      if (statement.isReckoned()) {
        all.add(
            new DateFinding(
                face,
                statement.person(),
                Sort.VALUE,
                Optional.empty(),
                Optional.of(statement),
                statement.kind().name().toLowerCase(Locale.ROOT)
                    + " "
                    + statement.valueInWords()
                    + statement.standingInWords(" (", ")")));
      }
    }
    return List.copyOf(all);
  }

  /** The name of the person as the face has it. */
  public String called() {
    return face.statements().stream()
        .filter(s -> s.kind() == Kind.NAME && s.person() == person)
        .map(Statement::valueInWords)
        .filter(name -> !name.isEmpty())
        .findFirst()
        .orElse("(unnamed)");
  }
}
