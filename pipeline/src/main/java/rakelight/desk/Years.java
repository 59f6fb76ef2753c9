package rakelight.desk;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Years that somebody asks for: one, or from one to another. */
record Years(int first, int last) {
  private static final Pattern WRITTEN =
      Pattern.compile("([12][0-9]{3})(?:\\s*(?:-|–|\\.\\.|to)\\s*([12][0-9]{3}))?");

  /** Empty if it can't be understood. */
  static Optional<Years> of(String written) {
    Matcher years = WRITTEN.matcher(written.strip());
    if (!years.matches()) {
      return Optional.empty();
    }
    int first = Integer.parseInt(years.group(1));
    int last = years.group(2) == null ? first : Integer.parseInt(years.group(2));
    return first <= last ? Optional.of(new Years(first, last)) : Optional.empty();
  }

  /** What is said to somebody who wrote something else. */
  static String refused(String written) {
    return "“" + written + "” is no year; write 1848, or 1840-1860.";
  }
}
