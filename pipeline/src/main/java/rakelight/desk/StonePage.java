package rakelight.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.EmblemNote;
import rakelight.marker.Term;
import rakelight.marker.Terms;
import rakelight.survey.Making;

/**
 * A marker as a thing: what it is, when it was made, what is carved on it beside letters, when the
 * sun shows it, where a walk passes it. For its own page and the one at the stone.
 *
 * @param described what stands of it, if anybody said anything
 * @param faces its faces with the directions they look to
 * @param made when it was made, by what is known of it alone
 * @param regions whose fashions the ground follows, in words
 * @param mayDecide whether this reader may change anything
 */
public record StonePage(
    String id,
    String number,
    Optional<Described> described,
    Terms terms,
    List<FaceLine> faces,
    Optional<Making.Made> made,
    String regions,
    List<EmblemLine> emblems,
    List<PictureLine> pictures,
    List<SunFace> sun,
    int sunYear,
    List<WalkLine> walks,
    boolean mayDecide) {
  /** More parts than a marker has, so that there is always room for another. */
  private static final int PART_ROWS = 3;

  /**
   * A face.
   *
   * @param looks where to, in words
   */
  public record FaceLine(String name, String looks) {}

  /** One thing said, such as {@code material} and {@code marble}. */
  public record Row(String name, String words) {}

  /**
   * An emblem.
   *
   * @param drawing where it is on a photograph, if somebody outlined it
   */
  public record EmblemLine(EmblemNote note, Optional<Drawing> drawing) {}

  /** A photograph on which an emblem can be outlined. */
  public record PictureLine(String id, String words) {}

  /**
   * When the sun rakes a face in a year.
   *
   * @param told in a line
   * @param today the hours of today, in words
   * @param chart bars as an SVG path, a unit a day along and an hour down
   * @param days the days looked at on which it does, and when
   */
  public record SunFace(String name, String told, String today, String chart, List<Row> days) {}

  /** A walk that passes it. */
  public record WalkLine(String name, String address, int stop, int of) {}

  /** What stands, or nothing. */
  public Description description() {
    return described.map(Described::description).orElse(Description.NONE);
  }

  /** What is said of it, one below the other. */
  public List<Row> rows() {
    return description().told().stream()
        .map(line -> line.split(": ", 2))
        .map(line -> new Row(line[0], line[1]))
        .toList();
  }

  /** What stands when the form is filled in; empty where nothing does. */
  public String seen() {
    return described.map(one -> one.decision().toString()).orElse("");
  }

  /** The terms of a list, by its label. */
  public List<Term> terms(Term.Quality list) {
    return terms.of(list);
  }

  /** Its parts, with room for more. */
  public List<Optional<Description.Part>> partRows() {
    List<Optional<Description.Part>> rows = new ArrayList<>();
    description().parts().forEach(part -> rows.add(Optional.of(part)));
    for (int i = 0; i < PART_ROWS; i++) {
      rows.add(Optional.empty());
    }
    return rows;
  }

  /** A measure as a form has it. */
  public static String measure(Optional<Double> cm) {
    return cm.map(
            value -> value == Math.rint(value) ? String.valueOf(Math.round(value)) : "" + value)
        .orElse("");
  }

  /** A chance in words that a guide can say aloud. */
  public static String odds(double probability) {
    return probability >= 0.9
        ? "almost surely"
        : probability >= 0.65
            ? "probably"
            : probability >= 0.35 ? "perhaps" : probability >= 0.1 ? "hardly" : "";
  }
}
