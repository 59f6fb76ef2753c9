package rakelight.inscription;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import rakelight.archive.ProposalId;

/**
 * A reading that its reader hasn't signed: kept after every step, so that nothing is lost. {@link
 * DraftEditing} changes it.
 *
 * @param lines from the top
 * @param proposal the one the lines began from
 */
public record Draft(List<Line> lines, Optional<ProposalId> proposal) {

  /**
   * One line.
   *
   * @param text in Leiden signs
   * @param places one for each letter, and for each letter of a gap whose number is known; a gap of
   *     any other extent is one place
   */
  public record Line(String text, List<Place> places) {
    public Line {
      places = List.copyOf(places);
    }

    /** Reads both forms: until version 2 a line was settled as a whole. */
    @JsonCreator
    static Line read(
        @JsonProperty("text") String text,
        @JsonProperty("settled") @Nullable Boolean settled,
        @JsonProperty("places") @Nullable List<Place> places) {
      return places != null ? new Line(text, places) : of(text, Boolean.TRUE.equals(settled));
    }

    /** A line that no proposal shows. */
    public static Line of(String text, boolean decided) {
      int count;
      try {
        count = OpenLine.of(text).size();
      } catch (LeidenException e) {
        throw new IllegalArgumentException("not a line in Leiden signs: " + text, e);
      }
      return new Line(text, Collections.nCopies(count, Place.NOWHERE.decidedIs(decided)));
    }

    /** Whether the reader has decided about all of it. */
    @JsonIgnore
    public boolean isSettled() {
      return places.stream().allMatch(Place::decided);
    }
  }

  /** What the reader has said about a letter. */
  public enum Decided {
    /** Nothing yet. */
    NOT(""),
    /** By itself, with its word, or with the rest of a line that is plain. */
    BY_ITSELF("!"),
    /** That it is right with every other letter of its line, each of which he has looked at. */
    WITH_ITS_LINE("=");

    private final String mark;

    Decided(String mark) {
      this.mark = mark;
    }
  }

  /**
   * Where a letter stands in the proposal, and whether the reader has decided about it. Written as
   * {@code 3.7} for the eighth slot of line 3, with {@code !} once decided, {@code =} once decided
   * with its line.
   *
   * @param line number of the proposed line, from 1; 0 if the proposal doesn't show the letter
   * @param slot index of its slot, from 0
   */
  public record Place(int line, int slot, Decided how) {
    /** The letter of a line that no proposal shows, undecided. */
    public static final Place NOWHERE = new Place(0, 0, Decided.NOT);

    private static final Pattern WRITTEN = Pattern.compile("(?:(\\d{1,4})\\.(\\d{1,4}))?([!=])?");

    /** Whether the proposal shows it. */
    public boolean isShown() {
      return line > 0;
    }

    /** Whether the reader has decided about it, in whichever way. */
    public boolean decided() {
      return how != Decided.NOT;
    }

    public Place decidedIs(boolean now) {
      return decided(now ? Decided.BY_ITSELF : Decided.NOT);
    }

    public Place decided(Decided now) {
      return new Place(line, slot, now);
    }

    @JsonCreator
    static Place read(String written) {
      Matcher matcher = WRITTEN.matcher(written);
      if (!matcher.matches()) {
        throw new IllegalArgumentException("not a place of a draft: " + written);
      }
      boolean shown = matcher.group(1) != null;
      return new Place(
          shown ? Integer.parseInt(matcher.group(1)) : 0,
          shown ? Integer.parseInt(matcher.group(2)) : 0,
          matcher.group(3) == null
              ? Decided.NOT
              : matcher.group(3).equals("=") ? Decided.WITH_ITS_LINE : Decided.BY_ITSELF);
    }

    @Override
    @JsonValue
    public String toString() {
      return (isShown() ? line + "." + slot : "") + how.mark;
    }
  }

  public Draft {
    lines = List.copyOf(lines);
  }

  /** Where a reader begins: the lines as they are put before him, nothing decided. */
  public static Draft begin(List<Suggestion> suggestions, Optional<ProposalId> proposal) {
    return new Draft(
        suggestions.stream().map(Suggestion::line).filter(line -> !line.text().isEmpty()).toList(),
        proposal);
  }

  /**
   * What the lines say together.
   *
   * @throws LeidenException if they can't stand below each other
   */
  public Inscription inscription() throws LeidenException {
    return Leiden.parseKept(lines.stream().map(Line::text).collect(Collectors.joining("\n")));
  }

  /** Whether the reader has decided about every line. */
  @JsonIgnore
  public boolean isSettled() {
    return !lines.isEmpty() && lines.stream().allMatch(Line::isSettled);
  }
}
