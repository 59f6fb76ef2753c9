package rakelight.archive;

import java.nio.ByteBuffer;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;

/**
 * Two histories of one archive that come together, each with what the other doesn't know. Which of
 * the two is merged into which can't be told from it, so nothing that is made of it depends on
 * that.
 */
public final class Meeting {
  private final Side one;
  private final Side other;

  /**
   * One of the two.
   *
   * @param archive as it was before they met
   * @param own the decisions that the other doesn't know, in order, undone ones too
   */
  public record Side(Archive archive, List<Decision> own) {
    public Side {
      own = List.copyOf(own);
    }

    /** Those of its own decisions that stand here. */
    public List<Decision> standing() {
      return own.stream().filter(decision -> archive.journal().stands(decision.id())).toList();
    }

    /** The last of its own decisions about each thing that stand and are of one of these kinds. */
    public Map<UUID, Decision> last(List<String> kinds) {
      Map<UUID, Decision> last = new LinkedHashMap<>();
      standing().stream()
          .filter(decision -> kinds.contains(decision.kind()))
          .forEach(decision -> last.put(decision.subject(), decision));
      return last;
    }

    private String lowestId() {
      return own.stream()
          .map(decision -> decision.id().toString())
          .min(String::compareTo)
          .orElse("");
    }
  }

  Meeting(Side a, Side b) {
    boolean inOrder = a.lowestId().compareTo(b.lowestId()) <= 0;
    one = inOrder ? a : b;
    other = inOrder ? b : a;
  }

  /** Whether each knows something that the other doesn't. */
  public boolean areApart() {
    return !one.own().isEmpty() && !other.own().isEmpty();
  }

  /** What stands of some kinds wherever it is known, in the order in which both will have it. */
  public List<Decision> standing(List<String> kinds) {
    Map<DecisionId, Decision> standing = new LinkedHashMap<>();
    Map<DecisionId, Long> ranks = new HashMap<>();
    for (Side side : sides()) {
      Journal journal = side.archive().journal();
      journal.standing(kinds).forEach(decision -> standing.put(decision.id(), decision));
      ranks.putAll(side.archive().ledger().read(DecisionOrder::ranks));
    }
    for (Side side : sides()) {
      Map<DecisionId, DecisionId> undone = side.archive().journal().undone();
      standing.keySet().removeAll(undone.keySet());
    }
    return standing.values().stream()
        .sorted(
            Comparator.<Decision, Long>comparing(one -> ranks.getOrDefault(one.id(), 0L))
                .thenComparing(one -> one.id().toString()))
        .toList();
  }

  public List<Side> sides() {
    return List.of(one, other);
  }

  /** Settings of one thing that both made, where they aren't the same. */
  public List<Apart> settings(List<String> kinds, String what) {
    List<Apart> apart = new ArrayList<>();
    Map<UUID, Decision> others = other.last(kinds);
    one.last(kinds)
        .forEach(
            (subject, decision) ->
                Optional.ofNullable(others.get(subject))
                    .filter(there -> !saysTheSame(decision, there))
                    .ifPresent(
                        there ->
                            apart.add(
                                Apart.of(
                                    what, decision, there, Optional.empty(), Optional.empty()))));
    return apart;
  }

  private static boolean saysTheSame(Decision a, Decision b) {
    return a.kind().equals(b.kind()) && withoutBatch(a).equals(withoutBatch(b));
  }

  private static Object withoutBatch(Decision decision) {
    var payload = decision.payload().deepCopy();
    return payload instanceof com.fasterxml.jackson.databind.node.ObjectNode object
        ? object.without("batch")
        : payload;
  }

  /** An id that follows from the two histories and a word, for what is decided because they met. */
  public UUID id(String word) {
    List<String> ids =
        Stream.of(one, other)
            .flatMap(side -> side.own().stream())
            .map(decision -> decision.id().toString())
            .sorted()
            .toList();
    return id(ids, word);
  }

  /** A UUIDv8 (RFC 9562, section 5.8) of the first bits of a SHA-256. */
  static UUID id(List<String> ids, String word) {
    ByteBuffer digest =
        ByteBuffer.wrap(
            HexFormat.of().parseHex(Sha256.of(word + "\n" + String.join("\n", ids)).hex()));
    long high = (digest.getLong() & ~0xf000L) | 0x8000L;
    long low = (digest.getLong() & 0x3fff_ffff_ffff_ffffL) | 0x8000_0000_0000_0000L;
    return new UUID(high, low);
  }

  /** When the last of the decisions was made that one of them doesn't know. */
  Instant at() {
    return Stream.of(one, other)
        .flatMap(side -> side.own().stream())
        .map(Decision::at)
        .max(Comparator.naturalOrder())
        .orElseThrow();
  }
}
