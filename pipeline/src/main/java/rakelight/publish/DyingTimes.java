package rakelight.publish;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import rakelight.person.DeathCircumstance;
import rakelight.person.Deaths;
import rakelight.person.Person;
import rakelight.person.Statement.Kind;

/** Deaths that came together, in words, as an edition tells them ({@link Edition#dyingTimes}). */
public final class DyingTimes {
  /** Said wherever they are shown. */
  public static final String NO_CAUSE =
      "That deaths come together isn’t a cause: look for one in the stones and sources, and expect"
          + " to find none sometimes.";

  /** A stretch of days with what is said of it. */
  public record DyingTime(Deaths.Cluster cluster, List<DeathCircumstance> circumstances) {
    public DyingTime {
      circumstances = List.copyOf(circumstances);
    }

    /** How many, and when. */
    public String called() {
      return cluster.count() + " deaths " + when();
    }

    /** How likely by the ground's own rate and by chance, in a sentence. */
    public String odds() {
      return "The ground’s own rate would bring "
          + expected(cluster.expected())
          + " in as many days then; chance alone brings as much together in "
          + byChance(cluster.probability())
          + ".";
    }

    /** The days in words. */
    public String when() {
      LocalDate first = cluster.first();
      LocalDate last = cluster.last();
      return first.equals(last)
          ? "on " + first
          : "in " + cluster.days() + " days, from " + first + " to " + last;
    }

    private static String expected(double expected) {
      return expected < 0.005
          ? "fewer than 0.01"
          : "about " + String.format(Locale.ROOT, expected < 0.095 ? "%.2f" : "%.1f", expected);
    }

    private static String byChance(double probability) {
      return String.format(
          Locale.ROOT, "%.0f of 1000 such grounds, or fewer", Math.ceil(1000 * probability));
    }
  }

  private DyingTimes() {}

  /** Somebody's name and death. */
  public static String line(Person person) {
    List<String> died = person.inWords(Kind.DEATH);
    return person.called() + (died.isEmpty() ? "" : ", died " + String.join(" or ", died));
  }
}
