package rakelight.publish.epidoc;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.inscription.Inscription;
import rakelight.inscription.SignId;

/**
 * Readings as the edition of an EpiDoc document (TEI P5, EpiDoc Guidelines, ed. 9, release 9.8).
 * Lossless: for every reading, parsing what was printed gives it back, save for the ids of signs,
 * which {@link #signIds} writes and {@link #withSignIds} puts back. The elements are described in
 * docs/epidoc.md.
 */
public final class Epidoc {
  private Epidoc() {}

  /**
   * Something that a reading has no place for.
   *
   * @param line of the file, from 1
   */
  public record Remark(int line, String text) {}

  /**
   * What was read from an edition.
   *
   * @param lineZones for each line of the inscription, what its {@code lb} points to on a
   *     photograph
   * @param lineNumbers for each line, the number its {@code lb} has; empty where it has none
   * @param remarks what isn't carried, each once
   */
  public record Edition(
      Inscription inscription,
      List<Optional<String>> lineZones,
      List<String> lineNumbers,
      List<Remark> remarks) {
    public Edition {
      lineNumbers = List.copyOf(lineNumbers);
      lineZones = List.copyOf(lineZones);
      remarks = List.copyOf(remarks);
    }
  }

  /** The reading as an {@code ab}. */
  public static XmlElement print(Inscription inscription) {
    return print(inscription, List.of(), Map.of());
  }

  /**
   * The reading as an {@code ab}.
   *
   * @param lineZones for each line, what its {@code lb} shall point to
   * @param withheld why, in words, for gaps that stand for what may not be published; they are
   *     printed as left out by the editor
   */
  public static XmlElement print(
      Inscription inscription, List<Optional<String>> lineZones, Map<SignId, String> withheld) {
    return new EpidocPrinter(inscription, lineZones, withheld).print();
  }

  /**
   * Reads the content of an element: a {@code div} of type edition, an {@code ab}, a {@code lem}.
   *
   * @throws EpidocException if it holds no letter, or its elements contradict each other
   */
  public static Edition parse(XmlElement edition) throws EpidocException {
    return new EpidocParser().parse(edition);
  }

  /** The ids of the signs in reading order, runs of consecutive ones as {@code 3-7}. */
  public static String signIds(Inscription inscription) {
    List<Integer> ids = inscription.signs().stream().map(sign -> sign.id().number()).toList();
    List<String> runs = new ArrayList<>();
    int at = 0;
    while (at < ids.size()) {
      int end = at;
      while (end + 1 < ids.size() && ids.get(end + 1) == ids.get(end) + 1) {
        end++;
      }
      runs.add(end == at ? ids.get(at).toString() : ids.get(at) + "-" + ids.get(end));
      at = end + 1;
    }
    return String.join(" ", runs);
  }

  /**
   * The reading under the ids that {@link #signIds} wrote; empty if they aren't ids, or not as many
   * as there are signs.
   */
  public static Optional<Inscription> withSignIds(Inscription inscription, String signIds) {
    Map<SignId, SignId> newIds = new HashMap<>();
    int sign = 0;
    for (String run : signIds.strip().split("\\s+")) {
      if (!run.matches("[1-9][0-9]{0,8}(-[1-9][0-9]{0,8})?")) {
        return Optional.empty();
      }
      String[] ends = run.split("-");
      int last = Integer.parseInt(ends[ends.length - 1]);
      for (int id = Integer.parseInt(ends[0]); id <= last; id++) {
        if (sign == inscription.signs().size()) {
          return Optional.empty();
        }
        newIds.put(inscription.signs().get(sign++).id(), new SignId(id));
      }
    }
    boolean all = sign == inscription.signs().size();
    boolean different = newIds.values().stream().distinct().count() == sign;
    return all && different ? Optional.of(inscription.withIds(newIds)) : Optional.empty();
  }
}
