package rakelight.desk;

import java.util.List;
import java.util.Map;

/**
 * What is lent, and what may be lent, taken back or brought in.
 *
 * @param part whether this archive is itself a part that was lent
 * @param lent what was lent, the last first
 * @param offers some markers that wait to be read and aren't out
 * @param more how many wait beside those
 * @param apart how much was decided differently on two laptops, and waits
 * @param given what stood in the form, to be put right
 * @param of for which form a folder was chosen, or which was refused
 * @param entrance the address of the start page, where folders are chosen
 * @param message what can't be done, and why; empty if nothing
 */
public record LendingPage(
    boolean part,
    List<Lent> lent,
    List<Offer> offers,
    int more,
    int apart,
    Map<String, String> given,
    String of,
    String entrance,
    String message) {
  /** How a form names the box of a marker. */
  static final String BOX = "m-";

  public LendingPage {
    lent = List.copyOf(lent);
    offers = List.copyOf(offers);
    given = Map.copyOf(given);
  }

  /**
   * A lending.
   *
   * @param markers their numbers
   * @param back when it came back; empty while it is out
   */
  public record Lent(String borrower, String markers, String on, String back) {}

  /**
   * A marker that may be lent.
   *
   * @param why it waits
   */
  public record Offer(String number, String why, boolean chosen) {
    public String box() {
      return BOX + number;
    }
  }

  /** What stands in a field of a form. */
  public String given(String form, String field) {
    return of.equals(form) ? given.getOrDefault(field, "") : "";
  }

  /** Where a folder is chosen for a form. */
  public String chooser(String form) {
    return entrance + "folders?for=" + form;
  }
}
