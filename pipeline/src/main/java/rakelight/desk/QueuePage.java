package rakelight.desk;

import java.util.List;

/**
 * What needs a person, in words for a page.
 *
 * @param order the order it is in, as the interface writes it
 * @param left how many faces wait for this reader
 * @param first the next of them, at most as many as a page shows
 * @param otherLight faces that wait for a visit in other light
 * @param unreadable faces not read yet of which a machine could read nothing
 * @param aside faces this reader has put off or left to another
 */
public record QueuePage(
    String order,
    int left,
    List<Waiting> first,
    List<Waiting> otherLight,
    List<Waiting> unreadable,
    List<Waiting> aside,
    int faces,
    int read) {
  /** The orders and what the page calls them. */
  public static final List<Order> ORDERS =
      List.of(
          new Order("hardest", "Hardest first"),
          new Order("names", "Most doubt in names and dates"),
          new Order("marker", "By marker"),
          new Order("plot", "By plot"));

  public record Order(String label, String words) {}

  /** A face with why it waits. */
  public record Waiting(String face, String marker, String name, String why) {}
}
