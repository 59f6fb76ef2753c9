package rakelight.search;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;
import rakelight.archive.Ground;
import rakelight.inscription.Gap;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.Standing;

/** A hit as somebody cites it: where it stands, who read it from what, and how sure it is. */
public final class Citation {
  private Citation() {}

  /**
   * One face of a hit in a line.
   *
   * @param searched the day of the search, if it is to be named
   */
  public static String of(
      Ground ground, String marker, GroundSearch.AnsweringFace face, Optional<LocalDate> searched) {
    StringBuilder cited = new StringBuilder();
    cited.append(ground.name()).append(", marker ").append(marker).append(", ").append(face.name());
    face.photographs().stream()
        .flatMap(photograph -> photograph.taken().stream())
        .map(taken -> taken.local().toLocalDate())
        .min(Comparator.naturalOrder())
        .ifPresent(day -> cited.append("; photograph of ").append(day));
    if (face.photographs().stream().allMatch(each -> each.taken().isEmpty())) {
      cited.append(
          face.photographs().isEmpty() ? "; no photograph" : "; photograph without a date");
    }
    face.reading()
        .ifPresent(
            reading ->
                cited
                    .append("; read by ")
                    .append(reading.reader())
                    .append(", basis ")
                    .append(reading.basis().kind().label())
                    .append(standing(reading)));
    searched.ifPresent(day -> cited.append("; searched ").append(day));
    return cited.append('.').toString();
  }

  private static String standing(Reading reading) {
    long letters = 0;
    long doubtful = 0;
    boolean gaps = false;
    for (var sign : reading.inscription().signs()) {
      if (sign instanceof Letter letter) {
        letters++;
        boolean clear = letter.standing() == Standing.CLEAR && letter.candidates().isEmpty();
        doubtful += clear ? 0 : 1;
      }
      gaps |= sign instanceof Gap gap && gap.reason() != Gap.Reason.BLANK;
    }
    String read =
        doubtful == 0
            ? "all letters clear"
            : String.format(Locale.ROOT, "%d of %d letters not clear", doubtful, letters);
    return "; " + (gaps ? read + ", others lost or illegible" : read);
  }
}
