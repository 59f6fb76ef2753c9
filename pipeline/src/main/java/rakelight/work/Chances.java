package rakelight.work;

/** Probabilities in plain words. */
public final class Chances {
  private record InWords(double p, String words) {}

  private static final InWords[] ALL = {
    new InWords(0.1, "one in ten"),
    new InWords(0.2, "one in five"),
    new InWords(0.25, "one in four"),
    new InWords(1 / 3.0, "one in three"),
    new InWords(0.4, "two in five"),
    new InWords(0.5, "as likely as not"),
    new InWords(0.6, "three in five"),
    new InWords(2 / 3.0, "two in three"),
    new InWords(0.75, "three in four"),
    new InWords(0.8, "four in five"),
    new InWords(0.9, "nine in ten")
  };

  private Chances() {}

  /**
   * About how often it comes true, such as "one in three".
   *
   * @param p 0 to 1; beyond nine in ten nothing surer is said
   */
  public static String words(double p) {
    InWords nearest = ALL[0];
    for (InWords said : ALL) {
      if (Math.abs(said.p() - p) < Math.abs(nearest.p() - p)) {
        nearest = said;
      }
    }
    return nearest.words();
  }
}
