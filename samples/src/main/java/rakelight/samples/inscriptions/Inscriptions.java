package rakelight.samples.inscriptions;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.TreeSet;
import java.util.stream.Collectors;
import rakelight.samples.inscriptions.InventedStone.Tone;

/** Files of invented inscriptions with what they say, the same each time for a seed. */
public final class Inscriptions {
  private Inscriptions() {}

  /**
   * Writes {@code inscriptions-LOSS.txt} for each loss, each time of the same stones.
   *
   * @param count stones a file, at least 1
   * @param losses per cent of letters lost or misread, each 0 to 100
   */
  public static void write(Path folder, int count, long seed, List<Integer> losses)
      throws IOException {
    if (count < 1 || losses.stream().anyMatch(loss -> loss < 0 || loss > 100)) {
      throw new IllegalArgumentException("at least 1 stone, and a loss is 0 to 100 per cent");
    }
    Files.createDirectories(folder);
    for (int loss : losses) {
      List<String> lines = new ArrayList<>();
      lines.add(
          "# " + count + " invented inscriptions, seed " + seed + ", " + loss + " per cent worn");
      for (int i = 0; i < count; i++) {
        lines.add("");
        lines.addAll(stone(i, seed, loss));
      }
      Files.write(folder.resolve("inscriptions-" + loss + ".txt"), lines);
    }
  }

  /** One stone as the file has it. */
  static List<String> stone(int number, long seed, int loss) {
    InventedStone stone = InventedInscription.of(new Random(seed * 1_000_003 + number));
    Wear wear = new Wear(stone, loss / 100.0, new Random(seed * 7_000_003 + number * 101L + loss));
    List<String> lines = new ArrayList<>();
    lines.add("stone G" + number);
    lines.addAll(wear.lines());
    lines.add("--");
    stone.persons().forEach(person -> lines.add(person.line(wear)));
    stone.remarks().forEach(remark -> lines.add(remark.apply(wear)));
    addLines(lines, "verse ", stone.lines(Tone.VERSE));
    addLines(lines, "either ", stone.lines(Tone.EITHER));
    return lines;
  }

  private static void addLines(List<String> lines, String word, TreeSet<Integer> numbers) {
    if (!numbers.isEmpty()) {
      lines.add(word + numbers.stream().map(String::valueOf).collect(Collectors.joining(" ")));
    }
  }
}
