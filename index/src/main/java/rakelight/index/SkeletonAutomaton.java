package rakelight.index;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.apache.lucene.util.automaton.Automaton;
import org.apache.lucene.util.automaton.CompiledAutomaton;
import org.apache.lucene.util.automaton.Operations;

/**
 * Accepts the {@link Skeleton} terms that may say a word, with up to so many letters wrong, added,
 * dropped or swapped besides what is doubtful or lost: at each place the letter or the sign for one
 * that isn't known, a loop where nobody knows how many are lost. Loss and slip are taken together.
 *
 * <p>A state is the sets of letters passed with no, one and two slips, bits of three numbers, and
 * the halves of swaps; a step is a few shifts, as S. Wu and U. Manber, "Fast text searching
 * allowing errors", Communications of the ACM 35 (1992), 83-91, do it. States are made as they are
 * reached.
 */
final class SkeletonAutomaton {
  /** In a word asked for, any letter. */
  static final char ANY = '?';

  /** Longer words aren't looked for. */
  static final int LONGEST = 60;

  private static final String SIGNS = "?%*[{~^|";
  private static final int LONGEST_TEXT = 3;
  private static final int OTHER = 0;
  private static final int BEYOND = 0x80;

  /** Nothing is left to be determinised. */
  private static final int WORK = Operations.DEFAULT_DETERMINIZE_WORK_LIMIT;

  /**
   * What has been passed: bit i says that i letters have.
   *
   * @param half letters passed when the second of two swapped ones was met
   */
  private record Passed(long none, long one, long two, long half) {
    boolean isEmpty() {
      return (none | one | two | half) == 0;
    }
  }

  /** Signs that lead alike, all as one of them; {@link #OTHER} for letters not in the word. */
  private record Symbols(int low, int high, int as) {}

  private final int[] word;
  private final int slips;
  private final boolean openEnd;
  private final long all;
  private final Symbols[] alphabet;

  private SkeletonAutomaton(int[] word, int slips, boolean openEnd) {
    this.word = word.clone();
    this.slips = slips;
    this.openEnd = openEnd;
    this.all = (1L << (word.length + 1)) - 1;
    this.alphabet = alphabet(word);
  }

  /**
   * @param word folded; {@value #ANY} for any letter
   * @param slips 0 to 2
   */
  static CompiledAutomaton of(String word, int slips) {
    return compiled(word, slips, false);
  }

  /** Those that may begin with these letters. */
  static CompiledAutomaton beginning(String letters) {
    return compiled(letters, 0, true);
  }

  private static CompiledAutomaton compiled(String word, int slips, boolean openEnd) {
    int[] letters = word.codePoints().limit(LONGEST).toArray();
    SkeletonAutomaton skeletons = new SkeletonAutomaton(letters, slips, openEnd);
    // Called finite so that no common ending is looked for: it has none, and looking is dear.
    boolean bytes = skeletons.highest() <= 0xFF;
    return new CompiledAutomaton(skeletons.automaton(), true, false, WORK, bytes);
  }

  private int highest() {
    return alphabet[alphabet.length - 1].high() < BEYOND ? 0xFF : Character.MAX_CODE_POINT;
  }

  private Automaton automaton() {
    Automaton automaton = new Automaton();
    Map<Passed, Integer> known = new HashMap<>();
    ArrayDeque<Passed> todo = new ArrayDeque<>();
    int start = automaton.createState();
    int tail = automaton.createState();
    automaton.setAccept(tail, true);
    automaton.addTransition(tail, tail, 0, highest());
    Passed first = new Passed(1, 0, 0, 0);
    known.put(first, start);
    todo.add(first);
    while (!todo.isEmpty()) {
      Passed from = todo.remove();
      int state = known.getOrDefault(from, start);
      boolean accepts = accepts(from);
      automaton.setAccept(state, accepts);
      if (accepts && openEnd) {
        automaton.addTransition(state, tail, 0, highest());
        continue;
      }
      Map<Integer, Integer> targets = new HashMap<>();
      int low = -1;
      int high = -1;
      int target = -1;
      for (Symbols symbols : alphabet) {
        int to =
            symbols.as() == Skeleton.TAIL
                ? accepts ? tail : -1
                : targets.computeIfAbsent(
                    symbols.as(), as -> state(automaton, known, todo, after(from, as)));
        if (to != target || symbols.low() != high + 1) {
          if (target >= 0) {
            automaton.addTransition(state, target, low, high);
          }
          low = symbols.low();
          target = to;
        }
        high = symbols.high();
      }
      if (target >= 0) {
        automaton.addTransition(state, target, low, high);
      }
    }
    automaton.finishState();
    return automaton;
  }

  private static int state(
      Automaton automaton, Map<Passed, Integer> known, ArrayDeque<Passed> todo, Passed to) {
    if (to.isEmpty()) {
      return -1;
    }
    Integer state = known.get(to);
    if (state == null) {
      state = automaton.createState();
      known.put(to, state);
      todo.add(to);
    }
    return state;
  }

  /** All signs in order. */
  private static Symbols[] alphabet(int[] word) {
    TreeSet<Integer> letters = new TreeSet<>();
    boolean beyond = false;
    for (int letter : word) {
      letters.add(letter);
      beyond |= letter >= BEYOND;
    }
    letters.remove((int) ANY);
    List<Symbols> all = new ArrayList<>();
    add(all, '&', '&', letters);
    add(all, '0', '9', letters);
    add(all, 'a', 'z', letters);
    if (beyond) {
      add(all, BEYOND, Character.MAX_CODE_POINT, letters);
    }
    for (char sign : SIGNS.toCharArray()) {
      all.add(new Symbols(sign, sign, sign));
    }
    all.sort(Comparator.comparingInt(Symbols::low));
    return all.toArray(new Symbols[0]);
  }

  private static void add(List<Symbols> into, int low, int high, TreeSet<Integer> letters) {
    int from = low;
    for (int letter : letters.subSet(low, true, high, true)) {
      if (letter > from) {
        into.add(new Symbols(from, letter - 1, OTHER));
      }
      into.add(new Symbols(letter, letter, letter));
      from = letter + 1;
    }
    if (from <= high) {
      into.add(new Symbols(from, high, OTHER));
    }
  }

  private Passed after(Passed from, int symbol) {
    return switch (symbol) {
      case Skeleton.UNKNOWN, Skeleton.OPEN -> step(from, all);
      case Skeleton.UNSURE -> from;
      case Skeleton.SIDE -> from.none() == 1 ? from : new Passed(0, 0, 0, 0);
      case Skeleton.MAYBE -> run(from, 1);
      case Skeleton.TEXTS -> run(from, LONGEST_TEXT);
      case Skeleton.MANY -> run(from, word.length);
      default -> step(from, standing(symbol));
    };
  }

  /** Where in the word a letter stands. */
  private long standing(int letter) {
    long places = 0;
    for (int i = 0; i < word.length; i++) {
      places |= word[i] == letter || word[i] == ANY ? 1L << i : 0;
    }
    return places;
  }

  private Passed step(Passed from, long places) {
    long none = (from.none() & places) << 1;
    if (slips == 0) {
      return thinned(none, 0, 0, 0);
    }
    long open = dropped(from);
    long one = (open & places) << 1 | from.none() | from.none() << 1;
    long two = (droppedTwice(from) & places) << 1 | open | open << 1;
    boolean lost = places == all;
    one |= lost ? 0 : (from.half() & places) << 2;
    long half = lost || slips > 1 ? 0 : from.none() & places >>> 1;
    return thinned(none, one, two, half);
  }

  private static long dropped(Passed from) {
    return from.one() | from.none() << 1;
  }

  private static long droppedTwice(Passed from) {
    return from.two() | dropped(from) << 1;
  }

  private boolean accepts(Passed from) {
    long ends = from.none();
    ends |= slips > 0 ? dropped(from) : 0;
    ends |= slips > 1 ? droppedTwice(from) : 0;
    return (ends >>> word.length & 1) == 1;
  }

  /** Letters that may be there or not; with slips that is left to the automaton without. */
  private Passed run(Passed from, int most) {
    return slips > 0 ? new Passed(0, 0, 0, 0) : thinned(spread(from.none(), most), 0, 0, 0);
  }

  private static long spread(long places, int by) {
    long spread = places;
    for (int i = 0; i < by; i++) {
      spread |= spread << 1;
    }
    return spread;
  }

  /**
   * Without what is reached by more slips than need be: whoever is at most one letter away with one
   * slip fewer reaches all that the other does.
   */
  private Passed thinned(long none, long one, long two, long half) {
    long n = none & all;
    long o = slips > 0 ? one & all & ~around(n) : 0;
    long t = slips > 1 ? two & all & ~around(around(n)) & ~around(o) : 0;
    return new Passed(n, o, t, half & all);
  }

  private static long around(long places) {
    return places | places << 1 | places >>> 1;
  }
}
