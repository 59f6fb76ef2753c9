package rakelight.desk;

/** The footstones of which nobody has confirmed whose they are, the likeliest first. */
public record LinksPage(Paged<Row> rows) {
  /**
   * One of them.
   *
   * @param bears its letters
   * @param person whose it is taken to be
   * @param likely how likely
   * @param runnerUp who else; may be empty
   */
  public record Row(
      String number,
      String address,
      String bears,
      String person,
      String likely,
      String runnerUp,
      FamilyPage.To family) {}

  /** How many there are, in words. */
  public String count() {
    return rows.of() == 0
        ? "Nothing is proposed that nobody has settled."
        : rows.of() == 1 ? "1 footstone to settle." : rows.of() + " footstones to settle.";
  }
}
