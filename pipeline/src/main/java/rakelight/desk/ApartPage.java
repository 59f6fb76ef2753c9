package rakelight.desk;

import java.util.List;
import java.util.Locale;

/**
 * What was decided differently on two laptops.
 *
 * @param waiting the first of it
 * @param inAll how much waits
 * @param message what went wrong; empty if nothing
 */
public record ApartPage(List<Thing> waiting, int inAll, String message) {
  public ApartPage {
    waiting = List.copyOf(waiting);
  }

  /**
   * One thing.
   *
   * @param address its page; empty if it has none
   * @param key names the two decisions
   * @param letters that would be seen nowhere any more
   */
  public record Thing(
      String what,
      String about,
      String address,
      String key,
      List<Said> both,
      List<String> letters) {
    public Thing {
      both = List.copyOf(both);
      letters = List.copyOf(letters);
    }

    /** What stands above it. */
    public String title() {
      String title = about + ": " + what;
      return title.substring(0, 1).toUpperCase(Locale.ROOT) + title.substring(1);
    }
  }

  /** What one of two said. */
  public record Said(String reader, String on, String words, boolean holds) {}
}
