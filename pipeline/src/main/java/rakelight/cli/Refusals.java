package rakelight.cli;

import rakelight.work.Refused;

/** What {@code work} refuses, as a person at the terminal is told; the exit code is 1. */
final class Refusals {
  private Refusals() {}

  static String words(Refused refused) {
    return refused.words() + more(refused);
  }

  /** How it is answered here, where that isn't plain from the words. */
  private static String more(Refused refused) {
    if (refused instanceof Refused.LookFirst look) {
      return more(look.letters().get(0));
    }
    if (refused instanceof Refused.Doubtful doubtful) {
      String sure = doubtful.at() + "=" + doubtful.shown();
      return " Here: "
          + sure
          + " if you see that; "
          + doubtful.others().stream()
              .filter(other -> other.codePointCount(0, other.length()) == 1)
              .findFirst()
              .map(other -> sure + "/" + other)
              .orElse("unclear " + doubtful.at())
          + " to leave it open.";
    }
    if (refused instanceof Refused.DecideFirst first) {
      return " Here: clear " + first.at() + " if you see it, or N=LETTER.";
    }
    if (refused instanceof Refused.Changed) {
      return " Your last answer wasn't taken; give it again if it still holds.";
    }
    return "";
  }
}
