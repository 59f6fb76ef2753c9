package rakelight.measure;

import java.util.List;

/**
 * How many lines follow the line that the truth has before them. Lines that weren't read, and what
 * was read where no line is, are passed over.
 *
 * @param lines of the truth that were read, but for the first of each face
 * @param followed those read next after the one before them
 */
public record ReadInOrder(int lines, int followed) {
  static final ReadInOrder NONE = new ReadInOrder(0, 0);

  /** Of one face, by which read line answers which of the truth. */
  static ReadInOrder of(List<LineMatching.Pair> pairs) {
    List<Integer> read =
        pairs.stream()
            .filter(pair -> pair.truthIndex() >= 0 && pair.readIndex() >= 0)
            .map(LineMatching.Pair::readIndex)
            .toList();
    List<Integer> sorted = read.stream().sorted().toList();
    int followed = 0;
    for (int i = 1; i < read.size(); i++) {
      if (sorted.indexOf(read.get(i)) == sorted.indexOf(read.get(i - 1)) + 1) {
        followed++;
      }
    }
    return new ReadInOrder(Math.max(0, read.size() - 1), followed);
  }

  ReadInOrder plus(ReadInOrder other) {
    return new ReadInOrder(lines + other.lines, followed + other.followed);
  }
}
