package rakelight.person;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import rakelight.inscription.Break;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.person.calendar.MonthName;

/** Dates of which the words don't say what happened then. */
final class BareDate {
  private static final Pattern DASH = Pattern.compile("[-–—]");

  /** What a date is made of beside figures. */
  private static final Set<String> OF_DATES =
      Set.copyOf(
          Arrays.asList(
              ("st nd rd th d of the ye day in on year january february march april may june july"
                      + " august september october november december jan feb mar apr jun jul aug sep"
                      + " sept oct nov dec jany feby febr mch apl augt septr sepr octr novr decr"
                      + " monday tuesday wednesday thursday friday saturday sunday")
                  .split(" ")));

  private BareDate() {}

  /** Whether nothing but the date is carved: no word for dying, being born or buried. */
  static boolean isBare(Statement date) {
    return Arrays.stream(date.text().toLowerCase(Locale.ROOT).split("[^\\p{L}]+"))
        .allMatch(
            word -> word.isEmpty() || OF_DATES.contains(word) || MonthName.parse(word).isPresent());
  }

  /** Whether a dash follows after which nothing is carved on the line: "1942 –". */
  static boolean isLeftOpen(Inscription inscription, Statement date) {
    List<Sign> signs = inscription.signs();
    List<SignId> order = signs.stream().map(Sign::id).toList();
    int last = date.signs().stream().mapToInt(order::indexOf).max().orElseThrow();
    boolean dash = signs.get(last) instanceof Letter own && DASH.matcher(own.text()).matches();
    for (Sign sign : signs.subList(last + 1, signs.size())) {
      if (sign instanceof Break) {
        break;
      }
      if (sign instanceof Letter letter) {
        if (!DASH.matcher(letter.text()).matches()) {
          return false;
        }
        dash = true;
      }
    }
    return dash;
  }
}
