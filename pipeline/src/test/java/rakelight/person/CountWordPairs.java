package rakelight.person;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import rakelight.measure.KnownStone;
import rakelight.measure.KnownStones;
import rakelight.names.GivenNames;

/**
 * Makes {@code word-pairs.tsv} from files of whole stones: {@code OUT FILE...}. A file's stones
 * count as often as a number and {@code *} before its name say: {@code 5*everyday.txt}.
 */
final class CountWordPairs {
  /** A word must have been met so often in small letters, so that no name is taken for one. */
  private static final int LEAST_MET = 3;

  private CountWordPairs() {}

  public static void main(String[] args) throws IOException {
    Map<String, Integer> small = new TreeMap<>();
    List<List<CarvedWord>> stones = new ArrayList<>();
    for (String argument : List.of(args).subList(1, args.length)) {
      int star = argument.indexOf('*');
      int times = star < 0 ? 1 : Integer.parseInt(argument.substring(0, star));
      for (KnownStone stone : KnownStones.read(Path.of(argument.substring(star + 1)))) {
        List<CarvedWord> words = CarvedWord.of(stone.inscription());
        words.stream()
            .filter(word -> !word.isCapitalised() && word.isLetters() && !word.isDoubtful())
            .forEach(word -> small.merge(word.folded(), times, Integer::sum));
        for (int i = 0; i < times; i++) {
          stones.add(words);
        }
      }
    }
    Set<String> known = new TreeSet<>(PersonWords.OF_INSCRIPTIONS);
    small.forEach(
        (word, met) -> {
          if (met >= LEAST_MET && !GivenNames.known().isKnown(word)) {
            known.add(word);
          }
        });
    Map<String, Integer> pairs = new TreeMap<>();
    for (List<CarvedWord> words : stones) {
      String before = WordPairs.START;
      for (int i = 0; i < words.size(); i++) {
        CarvedWord word = words.get(i);
        if (word.isDoubtful() || word.folded().isEmpty()) {
          before = word.folded().isEmpty() ? before : WordPairs.SMALL;
          continue;
        }
        String next = WordPairs.classOf(words, i, known);
        pairs.merge(before + "\t" + next, 1, Integer::sum);
        before = next;
      }
    }
    StringBuilder table = new StringBuilder("# one word, the next, how often: CountWordPairs\n");
    pairs.forEach((pair, count) -> table.append(pair).append('\t').append(count).append('\n'));
    Files.writeString(Path.of(args[0]), table, StandardCharsets.UTF_8);
  }
}
