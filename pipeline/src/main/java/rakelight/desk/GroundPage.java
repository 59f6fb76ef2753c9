package rakelight.desk;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * How far the ground is, in words for a page.
 *
 * @param faces how many faces there are
 * @param read how many of them have a reading that stands
 * @param counts how many faces are in each state
 * @param markers how many markers there are
 * @param plots the plot parts of their numbers, in order; empty where they have none
 * @param show which markers are shown, as {@link Show} labels them
 * @param plot the only plot shown; empty for all
 * @param find a part of the number that is looked for; may be empty
 * @param stones the markers of this page
 * @param nothing what to do where none is found, in words; empty where one is
 */
public record GroundPage(
    int faces,
    int read,
    List<Count> counts,
    int markers,
    List<String> plots,
    Show show,
    String plot,
    String find,
    Paged<Stone> stones,
    String nothing) {
  /**
   * @param state as the interface writes it
   */
  public record Count(String state, String words, int faces) {}

  /** Which markers are shown. */
  public enum Show {
    ALL("all", "all of them"),
    UNREAD("unread", "not read yet"),
    DOUBTFUL("doubtful", "with doubtful letters"),
    DIFFER("differ", "two readings differ"),
    OTHER_LIGHT("other-light", "needs other light"),
    UNSAFE("unsafe", "unsafe to stand beside"),
    READ("read", "read");

    private final String label;
    private final String words;

    Show(String label, String words) {
      this.label = label;
      this.words = words;
    }

    public String label() {
      return label;
    }

    public String words() {
      return words;
    }
  }

  /**
   * One marker as it stands in its row.
   *
   * @param plot the plot part of its number; may be empty
   * @param state of its least finished face, as the interface writes it
   * @param unsafe why nobody should stand beside it, by the newest note of its condition; may be
   *     empty
   */
  public record Stone(
      String id, String number, String plot, String state, String unsafe, List<FaceLine> faces) {}

  /**
   * @param words how far it is, and how many letters of it are doubtful
   */
  public record FaceLine(String id, String name, String words) {}

  /** Whether nothing is left out. */
  public boolean isWhole() {
    return show == Show.ALL && plot.isEmpty() && find.isEmpty();
  }

  /** The stones of this page, plot by plot. */
  public List<List<Stone>> rows() {
    Map<String, List<Stone>> rows = new LinkedHashMap<>();
    for (Stone stone : stones.rows()) {
      rows.computeIfAbsent(stone.plot(), plot -> new ArrayList<>()).add(stone);
    }
    return List.copyOf(rows.values());
  }
}
