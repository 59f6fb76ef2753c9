package rakelight.person;

import java.time.LocalDate;
import java.util.Optional;
import java.util.stream.Stream;
import rakelight.archive.SourceId;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;

/**
 * Somebody whom a roll or register says is buried here somewhere.
 *
 * @param sourceNumber how people name the source
 * @param born EDTF, as {@code died} and {@code buried}
 * @param age ISO 8601 duration
 * @param kin in words; may be empty
 * @param unit under arms, in words; may be empty
 */
public record Sought(SourceId source, long sourceNumber, Row row) {
  /** How it is named to people, such as {@code source 5, row 3}. */
  public String label() {
    return "source " + sourceNumber + ", row " + row.number();
  }

  /** What commands take for it: number of the source, a point, number of the row. */
  public String place() {
    return sourceNumber + "." + row.number();
  }

  /**
   * One row of a list, as it was imported.
   *
   * @param number of the row, from 1 for the first after the header
   */
  public record Row(
      int number,
      String given,
      String surname,
      Optional<String> born,
      Optional<String> died,
      Optional<String> buried,
      Optional<String> age,
      String kin,
      String unit,
      String reference,
      String note) {

    /** The same under another number. */
    Row numbered(int other) {
      return new Row(other, given, surname, born, died, buried, age, kin, unit, reference, note);
    }

    /** Given name and surname. */
    public String called() {
      return (given + " " + surname).strip();
    }
  }

  /** Nobody is buried longer than this after he died; a choice, no source. */
  private static final int MOST_DAYS_TO_BURIAL = 30;

  /** The days between which the death lies, by the death or the burial. */
  Optional<Day[]> died() {
    Optional<Day[]> died = row.died().flatMap(Sought::span);
    Optional<Day[]> buried = row.buried().flatMap(Sought::span);
    return died.or(
        () ->
            buried.map(
                span ->
                    new Day[] {
                      Day.of(span[0].toLocalDate().minusDays(MOST_DAYS_TO_BURIAL)), span[1]
                    }));
  }

  /** The days between which the birth lies, given or reckoned from the age. */
  Optional<Day[]> born() {
    Optional<Day[]> born = row.born().flatMap(Sought::span);
    if (born.isPresent() || died().isEmpty() || row.age().isEmpty()) {
      return born;
    }
    String years = row.age().get().replaceFirst("P([0-9]+)Y.*", "$1");
    int completed = years.matches("[0-9]+") ? Integer.parseInt(years) : 0;
    LocalDate first = died().get()[0].toLocalDate().minusYears(completed + 1L);
    LocalDate last = died().get()[1].toLocalDate().minusYears(completed);
    return Optional.of(new Day[] {Day.of(first), Day.of(last)});
  }

  /** Whether the birth, the death or the burial may lie in these years. */
  public boolean mayTouch(int first, int last) {
    return Stream.concat(born().stream(), died().stream())
        .anyMatch(span -> span[0].year() <= last && span[1].year() >= first);
  }

  /**
   * Whether nothing says that he is dead: neither a death nor a burial is given, nor a birth of
   * longer ago than people live.
   */
  public boolean mayBeLiving(LocalDate asOf) {
    Day longAgo = Day.of(asOf.minusYears(LivingRule.LONGEST_LIFE_YEARS));
    return died().isEmpty() && born().filter(span -> span[1].compareTo(longAgo) < 0).isEmpty();
  }

  private static Optional<Day[]> span(String value) {
    Edtf date = Edtf.parse(value);
    return date.earliest().isPresent() && date.latest().isPresent()
        ? Optional.of(new Day[] {date.earliest().get(), date.latest().get()})
        : Optional.empty();
  }
}
