package rakelight.ground.removal;

import com.fasterxml.jackson.annotation.JsonAutoDetect;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.names.NameForms;

/**
 * One row of a register of removals, as it is written.
 *
 * @param number of the row, from 1 for the first after the header
 * @param oldGround where the grave was
 * @param given name; may be empty
 * @param surname may be empty; both are where the name isn't known
 * @param died as written; may be empty
 * @param diedOn EDTF; empty where nothing is written or what is written is no day
 * @param oldRow may be empty, as {@code oldNumber}, {@code newRow}, {@code newNumber}
 * @param moved as written; may be empty
 * @param movedOn EDTF
 * @param stone what stone marks the grave now, as written
 * @param note may be empty
 */
@JsonAutoDetect(isGetterVisibility = JsonAutoDetect.Visibility.NONE)
public record Removal(
    int number,
    String oldGround,
    String given,
    String surname,
    String died,
    Optional<String> diedOn,
    String oldRow,
    String oldNumber,
    String newRow,
    String newNumber,
    String moved,
    Optional<String> movedOn,
    String stone,
    String note) {

  /** What stone marks a moved grave. */
  public enum StoneKind {
    /** The stone of the old ground, carried over. */
    ORIGINAL("original", "carried over", "old"),
    /** One of many alike, set up after the removal. */
    REPLACEMENT("replacement", "uniform", "uniform replacement", "new"),
    UNKNOWN("unknown", "not known", "?", "");

    private final String[] words;

    StoneKind(String... words) {
      this.words = words;
    }

    /** As registers and commands write it. */
    public String label() {
      return words[0];
    }

    /** The kind that a register means. */
    public static Optional<StoneKind> of(String cell) {
      String plain = cell.strip().toLowerCase(Locale.ROOT).replaceFirst("\\s*stone$", "");
      return Arrays.stream(values())
          .filter(kind -> Arrays.asList(kind.words).contains(plain))
          .findFirst();
    }
  }

  /** What stone marks the grave now, as far as the word is known. */
  public StoneKind stoneKind() {
    return StoneKind.of(stone).orElse(StoneKind.UNKNOWN);
  }

  /** Whether the register knows who it was. */
  public boolean isNamed() {
    return !(given + surname).isEmpty();
  }

  /** Given name and surname; {@code name not known} without. */
  public String called() {
    return isNamed() ? (given + " " + surname).strip() : "name not known";
  }

  /** Whether it says that the grave was moved: when, or where to. */
  public boolean isMoved() {
    return !moved.isEmpty() || hasTarget();
  }

  /** Whether it says where the grave is now. */
  public boolean hasTarget() {
    return !newNumber.isEmpty();
  }

  /** Where the grave was, such as {@code row 3, 14}. */
  public String oldPlace() {
    return place(oldRow, oldNumber);
  }

  /** Where the register says it is now. */
  public String newPlace() {
    return place(newRow, newNumber);
  }

  private static String place(String row, String number) {
    return Stream.of(row.isEmpty() ? "" : "row " + row, number)
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining(", "));
  }

  /** The place in the old ground, however it is written; without a number it says nothing. */
  Optional<String> oldKey() {
    return oldNumber.isEmpty()
        ? Optional.empty()
        : Optional.of(fold(oldGround) + "|" + fold(oldRow) + "|" + fold(oldNumber));
  }

  /** Who it was, as far as the register tells persons apart: name and death. */
  Optional<String> personKey() {
    return !isNamed()
        ? Optional.empty()
        : Optional.of(
            fold(oldGround) + "|" + fold(given) + "|" + fold(surname) + "|" + diedOn.orElse(died));
  }

  /** The same for one who is looked for once; of two without a death the place decides. */
  Optional<String> personAsked() {
    return personKey()
        .map(key -> died.isEmpty() ? key + "|" + oldKey().orElse("row " + number) : key);
  }

  String targetKey() {
    return fold(newRow) + "|" + fold(newNumber);
  }

  /** Everything it says but its number, however it is written. */
  String content() {
    return Stream.of(
            oldGround, given, surname, died, oldRow, oldNumber, newRow, newNumber, moved, stone,
            note)
        .map(Removal::fold)
        .collect(Collectors.joining("|"));
  }

  private static String fold(String text) {
    return NameForms.fold(text.strip());
  }
}
