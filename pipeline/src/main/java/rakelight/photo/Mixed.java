package rakelight.photo;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Shots of what should be one camera, in the order of their times, whose files are numbered in two
 * runs that take turns: two cameras of one model without serial numbers in one folder.
 *
 * @param before the shot before the first turn back
 * @param after the shot after it
 */
record Mixed(Photograph before, Photograph after) {
  private static final Pattern NUMBER = Pattern.compile("(\\d{3,9})(?!.*\\d{3})");

  /** A camera goes back once when its counter is full, or when its card was formatted. */
  private static final int TURNS_OF_ONE_CAMERA = 1;

  /** Empty where there is one camera, as far as can be told. */
  static Optional<Mixed> of(List<Photograph> shots) {
    int turns = 0;
    Optional<Mixed> first = Optional.empty();
    for (int i = 1; i < shots.size(); i++) {
      Optional<Long> one = number(shots.get(i - 1));
      Optional<Long> next = number(shots.get(i));
      if (one.isPresent() && next.isPresent() && next.get() < one.get()) {
        turns++;
        if (first.isEmpty()) {
          first = Optional.of(new Mixed(shots.get(i - 1), shots.get(i)));
        }
      }
    }
    return turns > TURNS_OF_ONE_CAMERA ? first : Optional.empty();
  }

  private static Optional<Long> number(Photograph photograph) {
    Matcher matcher = NUMBER.matcher(photograph.originalName());
    return matcher.find() ? Optional.of(Long.valueOf(matcher.group(1))) : Optional.empty();
  }

  /** What is wrong and what to do. */
  String inWords() {
    return after.originalPath()
        + ": follows "
        + before.originalName()
        + " by its time and not by its number, and so do others: two cameras of one model may be"
        + " mixed here. Their cards aren't followed. Put the photographs of each camera in a"
        + " folder of its own and ingest that, or say where they belong with `assign`.";
  }
}
