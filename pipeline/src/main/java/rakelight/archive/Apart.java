package rakelight.archive;

import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * Two decisions about one thing, made on two laptops, neither knowing of the other. Both stay in
 * the journal; the later in order holds until somebody decides anew.
 *
 * @param what they set, in words
 * @param subject the thing they are about
 * @param one the one with the lower id
 * @param words what would be seen nowhere any more, of either; mostly empty
 */
public record Apart(
    String what, UUID subject, DecisionId one, DecisionId other, List<String> words) {
  static final String JOINED = "histories.joined";
  static final String LEFT_SO = "apart.left";

  public Apart {
    words = List.copyOf(words);
  }

  /** Version 1 of the payload of what a joining asks. */
  record Asked(List<Apart> apart) {}

  /** Version 1 of the payload by which somebody says that it may stay as it is. */
  record LeftSo(DecisionId one, DecisionId other, String note) {}

  /**
   * Two, put in order of their ids.
   *
   * @param words of the first decision given, and of the second
   */
  public static Apart of(
      String what, Decision a, Decision b, Optional<String> wordsOfA, Optional<String> wordsOfB) {
    boolean inOrder = a.id().toString().compareTo(b.id().toString()) < 0;
    List<String> words =
        java.util.stream.Stream.of(inOrder ? wordsOfA : wordsOfB, inOrder ? wordsOfB : wordsOfA)
            .flatMap(Optional::stream)
            .toList();
    return new Apart(what, a.subject(), (inOrder ? a : b).id(), (inOrder ? b : a).id(), words);
  }
}
