package rakelight.desk;

import java.util.List;

/**
 * What needs a person, in words for a page.
 *
 * @param order the order it is in, as the interface writes it
 * @param plots the plots in which something waits for this reader, in order
 * @param plot the only plot shown; empty for all
 * @param waiting those that wait for this reader in it, what comes next first
 * @param otherLight faces that wait for a visit in other light
 * @param unreadable faces not read yet of which a machine could read nothing
 * @param aside faces this reader has put off or left to another
 * @param signed how many faces he has signed since he signed in
 * @param apart for an archivist, how much was decided differently on two laptops
 */
public record QueuePage(
    String order,
    List<String> plots,
    String plot,
    Paged<Waiting> waiting,
    Some otherLight,
    Some unreadable,
    List<Waiting> aside,
    int faces,
    int read,
    int signed,
    int apart) {
  /** The orders and what the page calls them. */
  public static final List<Order> ORDERS =
      List.of(
          new Order("hardest", "Hardest first"),
          new Order("names", "Most doubt in names and dates"),
          new Order("marker", "By marker"),
          new Order("plot", "By plot"));

  public record Order(String label, String words) {}

  /** The first few of a list, and how many there are of it. */
  public record Some(List<Waiting> first, int of) {}

  /** A face with why it waits. */
  public record Waiting(String face, String marker, String name, String why) {}
}
