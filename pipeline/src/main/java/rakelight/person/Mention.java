package rakelight.person;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import rakelight.inscription.SignId;
import rakelight.names.NameForms;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Statement.Kind;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;

/**
 * One person as one face speaks of him.
 *
 * @param number among the persons of the face; 0 for somebody only named as another's kin
 * @param name as the stone gives it; parts may be empty
 * @param about the statements about him; for somebody named as another's kin, that kinship
 * @param kin names of his kin, {@code given|surname}
 */
public record Mention(
    MentionId id,
    FaceStatements source,
    int number,
    Detail.Name name,
    List<Statement> about,
    List<Kin> kin) {
  /**
   * Somebody's kin.
   *
   * @param relation of the kin to this person: wife, husband, parent, child, ...
   * @param name {@code given|surname}
   */
  public record Kin(String relation, String name) {}

  /** What the stone itself says of where the body is. */
  public enum Role {
    BURIED_HERE,
    COMMEMORATED,
    REBURIED;

    public String label() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  public Mention {
    about = List.copyOf(about);
    kin = List.copyOf(kin);
  }

  /**
   * How people and commands name it: marker, face and number, parted by colons; those named as kin
   * have a letter after the number of the one they are kin of.
   */
  public String label() {
    String place = id.place() == 0 ? "" : String.valueOf((char) ('a' + id.place() - 1));
    return source.marker().number() + ":" + source.face().name() + ":" + number + place;
  }

  /** Given name and surname, or what he is called by without. */
  public String called() {
    String whole = (name.given() + " " + name.surname()).strip();
    if (!name.given().isEmpty()) {
      return whole;
    }
    String unnamed = statements(Kind.NAME).map(Statement::text).findFirst().orElse("");
    boolean worded = unnamed.matches(".*\\p{L}{2,}.*");
    String word = worded ? unnamed.replace(" / ", " ") : "unnamed";
    return name.surname().isEmpty() ? "(" + word + ")" : "(" + word + ") " + name.surname();
  }

  /** The given name, or the word a nameless child goes by. */
  String goesBy() {
    boolean baby =
        name.given().isEmpty()
            && statements(Kind.NAME).anyMatch(s -> NameForms.fold(s.text()).contains("baby"));
    return baby ? "baby" : name.given();
  }

  /** Whether there is anything he could be known again by. */
  boolean isNamed() {
    return !name.surname().isEmpty() || !goesBy().isEmpty();
  }

  /** Whether it is somebody who is only named as another's kin. */
  public boolean isKinOnly() {
    return id.place() > 0;
  }

  Stream<Statement> statements(Kind kind) {
    return isKinOnly() ? Stream.of() : about.stream().filter(s -> s.kind() == kind);
  }

  /**
   * The value of the only statement of this kind, the reckoned one where figures are lost; empty
   * where there is none or more than one.
   */
  public Optional<String> value(Kind kind) {
    List<String> values = fullest(kind).map(Statement::value).distinct().toList();
    return values.size() == 1 ? Optional.of(values.get(0)) : Optional.empty();
  }

  /** The statements of a kind; those reckoned in place of those read where there are such. */
  Stream<Statement> fullest(Kind kind) {
    boolean reckoned = statements(kind).anyMatch(Statement::isReckoned);
    return statements(kind).filter(s -> !reckoned || s.isReckoned());
  }

  /** The date of this kind. */
  Optional<Edtf> date(Kind kind) {
    return value(kind).filter(v -> !v.isEmpty()).map(Edtf::parse);
  }

  /** The days between which the birth lies, carved or reckoned from death and age. */
  Optional<Day[]> born() {
    return date(Kind.BIRTH).flatMap(Mention::span);
  }

  /** The days between which the death lies. */
  Optional<Day[]> died() {
    return date(Kind.DEATH).flatMap(Mention::span);
  }

  private static Optional<Day[]> span(Edtf date) {
    return date.earliest().isPresent() && date.latest().isPresent()
        ? Optional.of(new Day[] {date.earliest().get(), date.latest().get()})
        : Optional.empty();
  }

  /** What the words of the stone say of where the body is. */
  public Role role() {
    boolean moved = statements(Kind.REMOVAL).findAny().isPresent();
    if (moved) {
      return Role.REBURIED;
    }
    boolean lost =
        statements(Kind.CAUSE)
            .anyMatch(s -> NameForms.fold(s.value()).matches(".*(lost|drown|atsea).*"));
    boolean here =
        CarvedWord.of(source.inscription()).stream()
            .anyMatch(word -> PersonWords.LYING.contains(word.folded()));
    return lost || !here || isKinOnly() ? Role.COMMEMORATED : Role.BURIED_HERE;
  }

  /** The signs of the name, and of the kinship in which somebody is named. */
  public List<SignId> nameSigns() {
    return about.stream()
        .filter(s -> s.kind() == Kind.NAME || isKinOnly())
        .flatMap(s -> s.signs().stream())
        .toList();
  }
}
