package rakelight.person.edtf;

import static java.util.stream.Collectors.joining;

import java.util.List;
import java.util.Objects;
import java.util.Optional;

/** Several dates: one of them is meant, or all of them are. */
public record EdtfSet(Kind kind, List<Member> members) implements Edtf {

  /** What the list says. */
  public enum Kind {
    ONE_OF,
    ALL_OF
  }

  /**
   * One date, or a run of them with both ends included. A run without beginning can only be the
   * first member, one without end the last.
   *
   * @param first empty for a run without beginning
   * @param last equal to {@code first} for a single date; empty for a run without end
   */
  public record Member(Optional<EdtfDate> first, Optional<EdtfDate> last) {
    public Member {
      if (first.isEmpty() && last.isEmpty()) {
        throw new IllegalArgumentException("a run needs one end");
      }
      if (first.isPresent() && last.isPresent() && !first.equals(last)) {
        requireRun(first.get(), last.get());
      }
    }

    private static void requireRun(EdtfDate first, EdtfDate last) {
      if (first.precision() != last.precision()) {
        throw new IllegalArgumentException("both ends of a run need the same precision");
      }
      if (first.earliest().orElseThrow().compareTo(last.latest().orElseThrow()) > 0) {
        throw new IllegalArgumentException("the run ends before it begins");
      }
    }

    public static Member of(EdtfDate date) {
      return new Member(Optional.of(date), Optional.of(date));
    }

    Optional<Day> earliest() {
      return first.flatMap(EdtfDate::earliest);
    }

    Optional<Day> latest() {
      return last.flatMap(EdtfDate::latest);
    }

    boolean touches(Day from, Day to) {
      return earliest().map(day -> day.compareTo(to) <= 0).orElse(true)
          && latest().map(day -> day.compareTo(from) >= 0).orElse(true);
    }

    boolean admits(Day day) {
      return first.isPresent() && first.equals(last) ? first.get().admits(day) : touches(day, day);
    }

    @Override
    public String toString() {
      if (first.isPresent() && first.equals(last)) {
        return first.get().toString();
      }
      return first.map(Objects::toString).orElse("")
          + ".."
          + last.map(Objects::toString).orElse("");
    }
  }

  public EdtfSet {
    members = List.copyOf(members);
    if (members.isEmpty()) {
      throw new IllegalArgumentException("a set needs a member");
    }
    for (int i = 0; i < members.size(); i++) {
      if ((members.get(i).first().isEmpty() && i > 0)
          || (members.get(i).last().isEmpty() && i < members.size() - 1)) {
        throw new IllegalArgumentException("only the first and last member may be without end");
      }
    }
  }

  public static EdtfSet oneOf(List<EdtfDate> dates) {
    return new EdtfSet(Kind.ONE_OF, dates.stream().map(Member::of).toList());
  }

  @Override
  public Optional<Day> earliest() {
    if (members.get(0).first().isEmpty()) {
      return Optional.empty();
    }
    return members.stream().flatMap(member -> member.earliest().stream()).min(Day::compareTo);
  }

  @Override
  public Optional<Day> latest() {
    if (members.get(members.size() - 1).last().isEmpty()) {
      return Optional.empty();
    }
    return members.stream().flatMap(member -> member.latest().stream()).max(Day::compareTo);
  }

  @Override
  public boolean admits(Day day) {
    return members.stream().anyMatch(member -> member.admits(day));
  }

  @Override
  public boolean mayTouch(Day first, Day last) {
    return members.stream().anyMatch(member -> member.touches(first, last));
  }

  @Override
  public int level() {
    return 2;
  }

  @Override
  public String toString() {
    String list = members.stream().map(Member::toString).collect(joining(","));
    return kind == Kind.ONE_OF ? "[" + list + "]" : "{" + list + "}";
  }
}
