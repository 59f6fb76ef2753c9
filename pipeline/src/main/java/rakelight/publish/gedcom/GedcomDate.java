package rakelight.publish.gedcom;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;
import rakelight.person.edtf.EdtfDate;
import rakelight.person.edtf.EdtfInterval;
import rakelight.person.edtf.EdtfSet;
import rakelight.person.edtf.Qualifier;

/**
 * A date as GEDCOM 7 writes it, in the Gregorian calendar. What the format can't say, such as one
 * of several dates, becomes the narrowest span that holds it.
 *
 * @param value a {@code DateValue} of the standard; empty where it can't write the date at all
 * @param whole whether the value says all that was known
 */
record GedcomDate(String value, boolean whole) {
  private static final List<String> MONTHS =
      List.of("JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC");

  /** The date that an EDTF text means. */
  static GedcomDate of(String edtf) {
    Edtf date = Edtf.parse(edtf);
    if (date instanceof EdtfDate one && one.isSimple()) {
      return written(one)
          .map(text -> qualified(text, one.qualifier()))
          .orElse(new GedcomDate("", false));
    }
    Optional<String> first = date.earliest().flatMap(GedcomDate::written);
    Optional<String> last = date.latest().flatMap(GedcomDate::written);
    boolean oneSpan = date instanceof EdtfInterval || isOneRun(date);
    if (first.isPresent() && last.isPresent()) {
      return new GedcomDate("BET " + first.get() + " AND " + last.get(), oneSpan);
    }
    return first
        .map(text -> new GedcomDate("AFT " + text, oneSpan))
        .or(() -> last.map(text -> new GedcomDate("BEF " + text, oneSpan)))
        .orElse(new GedcomDate("", false));
  }

  private static boolean isOneRun(Edtf date) {
    return date instanceof EdtfSet set
        && set.kind() == EdtfSet.Kind.ONE_OF
        && set.members().size() == 1;
  }

  private static GedcomDate qualified(String text, Qualifier qualifier) {
    return switch (qualifier) {
      case NONE -> new GedcomDate(text, true);
      case APPROXIMATE -> new GedcomDate("ABT " + text, true);
      case UNCERTAIN, UNCERTAIN_AND_APPROXIMATE -> new GedcomDate("ABT " + text, false);
    };
  }

  private static Optional<String> written(EdtfDate date) {
    Day first = date.earliest().orElseThrow();
    String year = String.valueOf(first.year());
    String month = MONTHS.get(first.month() - 1);
    return first.year() < 1
        ? Optional.empty()
        : Optional.of(
            date.day().isPresent()
                ? first.day() + " " + month + " " + year
                : date.month().isPresent() ? month + " " + year : year);
  }

  private static Optional<String> written(Day day) {
    return day.year() < 1
        ? Optional.empty()
        : Optional.of(
            String.format(
                Locale.ROOT, "%d %s %d", day.day(), MONTHS.get(day.month() - 1), day.year()));
  }
}
