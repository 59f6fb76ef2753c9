package rakelight.desk;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.ground.PlannedWalk;
import rakelight.ground.Walk;
import rakelight.marker.GlossaryEmblem;
import rakelight.marker.Marker;
import rakelight.survey.FirstToRecord;

/** What the pages for whoever walks the ground show. */
public final class GuidePage {
  private GuidePage() {}

  /**
   * An emblem, and where on this ground it is.
   *
   * @param name of the glossary, or in a reader's own words
   * @param entry what the glossary says of it; empty where it doesn't know it
   */
  public record EmblemHere(String name, Optional<GlossaryEmblem> entry, List<MarkerLine> markers) {}

  /** A marker with something to be said of it. */
  public record MarkerLine(String id, String number, String words) {}

  /**
   * The glossary.
   *
   * @param words that a name or what is seen must hold
   */
  public record Glossary(String words, boolean onlyHere, List<EmblemHere> emblems, int here) {}

  /**
   * One of those to record first.
   *
   * @param row of the ground where it stands; may be empty
   */
  public record FirstLine(int rank, FirstToRecord.Urgency urgency, String row) {
    /** Its reasons in a line. */
    public String why() {
      return String.join("; ", urgency.reasons());
    }
  }

  /**
   * Those to record first.
   *
   * @param row the row or plot chosen; empty for all
   * @param of how many there are in that row
   */
  public record First(String row, List<String> rows, int most, List<FirstLine> lines, int of) {
    /** The numbers of those shown, as a walk's form takes them. */
    public String numbers() {
      return lines.stream()
          .map(line -> line.urgency().marker().number())
          .collect(Collectors.joining(", "));
    }

    /** The same list at another address. */
    public String at(String path) {
      return Addresses.of(path, java.util.Map.of("row", row, "most", Integer.toString(most)));
    }
  }

  /**
   * A face on a day.
   *
   * @param at when to be there in the round; may be empty
   * @param raking from when to when the sun rakes it; may be empty
   * @param never whether no day of the year looked at does
   */
  public record SunLine(
      String marker,
      String number,
      String face,
      String looks,
      String at,
      String raking,
      boolean never,
      String unsafe) {}

  /**
   * A day's sun.
   *
   * @param lines those of the round in its order, then the other faces that it rakes
   * @param dark faces that it doesn't rake on the day
   * @param unknown so many faces of which nobody has said where they look to
   */
  public record Sun(
      LocalDate day,
      String from,
      String to,
      int minutes,
      String row,
      List<String> rows,
      List<SunLine> lines,
      List<SunLine> dark,
      int inRound,
      int unknown) {
    /** Numbers of the round's markers in its order. */
    public String numbers() {
      return lines.stream()
          .filter(line -> !line.at().isEmpty())
          .map(SunLine::number)
          .distinct()
          .collect(Collectors.joining(", "));
    }
  }

  /**
   * A stop of a walk.
   *
   * @param place from 1
   * @param metres from the stop before, in words; may be empty
   * @param known whether anybody knows where it stands
   * @param what it is, in a line; may be empty
   */
  public record Stop(
      int place,
      Marker marker,
      String metres,
      boolean known,
      String what,
      String note,
      String unsafe) {}

  /**
   * A walk in its order.
   *
   * @param planned as somebody kept it
   * @param summary how many stops, how long
   */
  public record WalkShown(PlannedWalk planned, Walk walk, List<Stop> stops, String summary) {
    /** Numbers of its markers, in order. */
    public String numbers() {
      return stops.stream().map(stop -> stop.marker().number()).collect(Collectors.joining(", "));
    }

    /** Stops at which something is unsafe. */
    public List<Stop> unsafe() {
      return stops.stream().filter(stop -> !stop.unsafe().isEmpty()).toList();
    }
  }

  /**
   * All walks, and the form of a new one.
   *
   * @param name and what follows is what somebody wrote
   */
  public record Walks(List<PlannedWalk> walks, String name, String markers, String message) {}

  /** Parts that aren't empty, side by side. */
  static String line(String... parts) {
    return Stream.of(parts).filter(part -> !part.isEmpty()).collect(Collectors.joining(", "));
  }
}
