package rakelight;

import java.util.regex.Pattern;

/** What differs from one run to the next and could look like a year by chance. */
public final class Chance {
  private static final Pattern RANDOM =
      Pattern.compile(
          "[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}|[0-9a-f]{64}|junit-?[0-9]+"
              + "|T[0-9]{2}:[0-9]{2}:[0-9]{2}\\.[0-9]+");

  private Chance() {}

  /** The text without identifiers, digests, times of day and the names of temporary folders. */
  public static String leftOut(String printed) {
    return RANDOM.matcher(printed).replaceAll("");
  }
}
