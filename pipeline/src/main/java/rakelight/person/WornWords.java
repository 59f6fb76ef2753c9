package rakelight.person;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import rakelight.names.GivenNames;
import rakelight.person.calendar.MonthName;

/**
 * What worn words say: {@code d?ed} is died, {@code Ju?y} July, {@code Alsa} behind a date Also.
 *
 * <p>Each word is one of the words of inscriptions, a given name, another name or a number. How
 * likely the letters are for each is weighed with how often it follows the one before and goes
 * before the one after ({@link WordPairs}), over the whole face: a hidden Markov model, with the
 * forward and backward sums. A letter that is lost fits any; one that stands may have been misread,
 * the more likely the more of the face is worn, and for its like sooner than for another.
 *
 * <p>Limits: the number of letters is taken to be right; names and figures are left as they are.
 */
final class WornWords {
  /**
   * Letters taken for each other on worn stone, in capitals and in small letters; from the kinds of
   * error that recognisers make, as a choice and not as a table measured.
   */
  private static final BitSet CONFUSED =
      pairs(
          "ce ec il li it ti lt tl nu un oc co oe eo hb bh fs sf vy yv gq qg pf fp pr rp br rb dl ld "
              + "ao oa ae ea hn nh mn nm ef fe od do gc cg ft tf rn nr i1 1i l1 1l o0 0o s5 5s b8 8b g6 6g "
              + "mw wm dc cd kh hk xk kx zs sz bd db jl lj wv vw yg gy "
              + "ah ha am ma eb be rk kr hm mh pd dp tj jt bo ob bg gb qo oq qd dq ek ke lc cl nx xn uo ou");

  /** Of a worn face's signs so many are misread for each that shows its doubt; a choice. */
  private static final double MISREAD_FOR_ONE_IN_DOUBT = 0.15;

  private static final double LEAST_MISREAD = 0.0003;
  private static final double MOST_MISREAD = 0.03;
  private static final double ITS_LIKE = 0.15;
  private static final double ANOTHER = 0.01;

  /** U for V and I for J are one letter on old stones. */
  private static final double OF_ONE_LETTER = Math.log(0.1);

  private static final BitSet ONE = pairs("uv vu ij ji");

  /** Letters of a word aren't thrown one by one: their logarithms count for so much. */
  private static final double OF_LETTERS = 0.75;

  /** Of a letter that is open between some, that it is none of them. */
  private static final double NONE_OF_THEM = 0.02;

  /** On a face that shows no doubt shorter words are read as they stand. */
  private static final int SHORTEST_MISREAD = 5;

  private static final double OF_A_GIVEN_NAME = Math.log(1.0 / 500);
  private static final double UNKNOWN_LENGTH = Math.log(0.1);
  private static final double TOO_UNLIKELY = 14;

  /** From here on a word counts as one of the trade's. */
  private static final double SURE = 0.5;

  /** From here on it is told as one it may be. */
  private static final double POSSIBLE = 0.1;

  private static final double POSSIBLE_MONTH = 0.003;

  private static final double NONE = Double.NEGATIVE_INFINITY;

  /** In a hundred letters of English names; rounded, from memory. */
  private static final Map<Character, Double> LETTERS = new HashMap<>();

  static {
    String common = "e12t7a9o7i7n8s6h5r7d5l6c3u3m3w2f2g2y2p2b2v1k1j1x1q1z1";
    for (int i = 0; i < common.length(); ) {
      int end = i + 1;
      while (end < common.length() && Character.isDigit(common.charAt(end))) {
        end++;
      }
      LETTERS.put(common.charAt(i), Integer.parseInt(common.substring(i + 1, end)) / 100.0);
      i = end;
    }
  }

  private static final Map<Integer, List<String>> GIVEN = new HashMap<>();

  static {
    for (String name : GivenNames.known().all()) {
      GIVEN.computeIfAbsent(name.length(), n -> new ArrayList<>()).add(name);
    }
  }

  /** Something a word may be. */
  private static final class State {
    private final String form;
    private final double letters;
    private double before = NONE;
    private double after = NONE;

    State(String form, double letters) {
      this.form = form;
      this.letters = letters;
    }

    boolean isWord() {
      return form.charAt(0) != '@';
    }
  }

  private final WordPairs pairs = WordPairs.known();
  private final List<CarvedWord> words;
  private final boolean worn;

  // The logarithms of how likely a letter is read as it was cut, as its like, or as any other.
  private final double asRead;
  private final double itsLike;
  private final double another;

  private WornWords(List<CarvedWord> words) {
    this.words = words;
    double signs = 1;
    double doubtful = 0;
    for (CarvedWord word : words) {
      signs += word.letters().size();
      doubtful += word.letters().stream().filter(l -> l.size() != 1).count();
    }
    worn = doubtful > 0;
    double misread =
        Math.min(MOST_MISREAD, LEAST_MISREAD + MISREAD_FOR_ONE_IN_DOUBT * doubtful / signs);
    asRead = Math.log1p(-misread);
    itsLike = Math.log(misread * ITS_LIKE);
    another = Math.log(misread * ANOTHER);
  }

  /** The words with what they may be through their doubt. */
  static List<CarvedWord> restored(List<CarvedWord> words) {
    return words.isEmpty() ? words : new WornWords(words).restored();
  }

  private List<CarvedWord> restored() {
    List<List<State>> lattice = new ArrayList<>();
    for (int i = 0; i < words.size(); i++) {
      lattice.add(states(words.get(i)));
    }
    forward(lattice);
    backward(lattice);
    List<CarvedWord> restored = new ArrayList<>();
    for (int i = 0; i < words.size(); i++) {
      restored.add(restored(words.get(i), lattice.get(i)));
    }
    return restored;
  }

  private void forward(List<List<State>> lattice) {
    List<State> before = List.of(start());
    for (List<State> states : lattice) {
      for (State state : states) {
        for (State b : before) {
          state.before = sum(state.before, b.before + pairs.follows(b.form, state.form));
        }
        state.before += state.letters;
      }
      before = states;
    }
  }

  private void backward(List<List<State>> lattice) {
    lattice.get(lattice.size() - 1).forEach(state -> state.after = 0);
    for (int i = lattice.size() - 2; i >= 0; i--) {
      for (State state : lattice.get(i)) {
        for (State next : lattice.get(i + 1)) {
          state.after =
              sum(state.after, pairs.follows(state.form, next.form) + next.letters + next.after);
        }
      }
    }
  }

  private static State start() {
    State start = new State(WordPairs.START, 0);
    start.before = 0;
    return start;
  }

  private CarvedWord restored(CarvedWord word, List<State> states) {
    double all = NONE;
    for (State state : states) {
      all = sum(all, state.before + state.after);
    }
    Map<String, Double> odds = new HashMap<>();
    double trade = 0;
    String best = "";
    double bestShare = 0;
    for (State state : states) {
      if (state.isWord()) {
        double share = Math.exp(state.before + state.after - all);
        odds.put(state.form, share);
        trade += share;
        best = best.isEmpty() || share > bestShare ? state.form : best;
        bestShare = Math.max(bestShare, share);
      }
    }
    double number = share(states, WordPairs.NUMBER, all);
    if (worn
        && number >= SURE
        && !ENDED.matcher(word.folded()).matches()
        && COUNTED.matcher(word.folded()).matches()) {
      return counted(word, number);
    }
    if (share(states, WordPairs.GIVEN, all) >= SURE) {
      return word.asGiven();
    }
    if (trade < SURE || best.equals(word.folded())) {
      double own = trade < SURE ? 1 - trade : bestShare;
      return word.withLikely(word.isDoubtful() ? likely(odds) : List.of(), own);
    }
    return bestShare >= SURE && monthsOf(odds).size() < 2
        ? word.meaning(best, bestShare)
        : word.withLikely(monthsOf(odds).size() < 2 ? likely(odds) : monthsOf(odds), trade);
  }

  /** Forms of months it may be: of several none is left out only because it is rarer. */
  private static List<String> monthsOf(Map<String, Double> odds) {
    return odds.entrySet().stream()
        .filter(e -> e.getValue() >= POSSIBLE_MONTH && MonthName.parse(e.getKey()).isPresent())
        .map(Map.Entry::getKey)
        .sorted()
        .toList();
  }

  private static double share(List<State> states, String form, double all) {
    double share = 0;
    for (State state : states) {
      share += state.form.equals(form) ? Math.exp(state.before + state.after - all) : 0;
    }
    return share;
  }

  private static List<String> likely(Map<String, Double> odds) {
    return odds.entrySet().stream()
        .filter(e -> e.getValue() >= POSSIBLE)
        .map(Map.Entry::getKey)
        .sorted()
        .toList();
  }

  private List<State> states(CarvedWord word) {
    List<State> states = new ArrayList<>();
    String folded = word.folded();
    boolean letters = folded.chars().anyMatch(c -> c == '?' || Character.isLetterOrDigit(c));
    if (folded.length() < 2 || !letters) {
      states.add(new State(WordPairs.SMALL, 0));
      return states;
    }
    addWords(word, states);
    boolean known = pairs.isWord(folded);
    addNumber(word, states);
    boolean firstLost = folded.charAt(0) == '?';
    if (word.isLetters() && !PersonWords.NEVER_A_NAME.contains(folded)) {
      if (word.isCapitalised() || firstLost) {
        double given = given(word);
        if (given > NONE) {
          states.add(new State(WordPairs.GIVEN, given));
        }
        states.add(new State(WordPairs.NAME, unknown(word)));
      }
      if (!known && (!word.isCapitalised() || word.isAllCapitals())) {
        states.add(new State(WordPairs.SMALL, unknown(word)));
      }
    }
    if (states.isEmpty()) {
      states.add(new State(WordPairs.SMALL, 0));
    }
    double best = states.stream().mapToDouble(s -> s.letters).max().orElseThrow();
    states.removeIf(s -> s.letters < best - TOO_UNLIKELY);
    return states;
  }

  private void addNumber(CarvedWord word, List<State> states) {
    String folded = word.folded();
    if (worn && COUNTED.matcher(folded).matches()) {
      Ending ending = ending(word);
      if (ending.letters() > -TOO_UNLIKELY) {
        states.add(new State(WordPairs.NUMBER, figures(folded) + ending.letters()));
      }
    }
    if (NUMBER.matcher(folded).matches()) {
      boolean year = folded.length() == 4;
      states.add(new State(year ? WordPairs.YEAR : WordPairs.NUMBER, figures(folded)));
    }
  }

  private static double figures(String folded) {
    return Math.log(0.1) * folded.chars().filter(Character::isDigit).count();
  }

  private static final Pattern COUNTED =
      Pattern.compile("[0-9?]{1,2}(?!mo|yr|ys|do|ds|to)[a-z?]{2}");
  private static final Pattern ENDED = Pattern.compile(".*(st|nd|rd|th)");
  private static final Pattern NUMBER = Pattern.compile(".*[0-9].*|\\?{1,4}(st|d|nd|rd|th)?");

  /** The ending of a number that is counted with: {@code 28t?}, {@code 2lh}. */
  private record Ending(String ending, double letters) {}

  private Ending ending(CarvedWord word) {
    int from = word.folded().length() - 2;
    Ending best = new Ending("", NONE);
    for (String ending : List.of("th", "st", "nd", "rd")) {
      double letters =
          letter(word.letters().get(from), ending.charAt(0))
              + letter(word.letters().get(from + 1), ending.charAt(1));
      best = letters > best.letters() ? new Ending(ending, letters) : best;
    }
    return best;
  }

  /** A number whose ending is worn, as it was cut. */
  private CarvedWord counted(CarvedWord word, double share) {
    int figures = word.folded().length() - 2;
    return word.meaning(word.folded().substring(0, figures) + ending(word).ending(), share)
        .withFigures(word.figures().subList(0, figures));
  }

  private void addWords(CarvedWord word, List<State> states) {
    String folded = word.folded();
    if (word.hasFigure() && !word.isDoubtful()) {
      return;
    }
    int open = folded.indexOf('…');
    if (open >= 0) {
      long known = folded.chars().filter(Character::isLetter).count();
      if (known >= 2) {
        for (int length : pairs.lengths()) {
          for (String form : pairs.ofLength(length)) {
            addOpen(word, open, form, states);
          }
        }
      }
      return;
    }
    if (!worn && pairs.isWord(folded)) {
      states.add(new State(folded, 0));
      return;
    }
    if (!worn && folded.length() < SHORTEST_MISREAD) {
      return;
    }
    for (String form : pairs.ofLength(folded.length())) {
      if (worn || PersonWords.KEYWORDS.contains(form)) {
        double letters = letters(word, form);
        if (letters > NONE) {
          states.add(new State(form, letters));
        }
      }
    }
  }

  private void addOpen(CarvedWord word, int open, String form, List<State> states) {
    int tail = word.folded().length() - open - 1;
    if (form.length() < open + tail) {
      return;
    }
    double letters = UNKNOWN_LENGTH;
    for (int i = 0; i < open; i++) {
      letters += letter(word.letters().get(i), form.charAt(i));
    }
    for (int i = 1; i <= tail; i++) {
      letters +=
          letter(word.letters().get(word.folded().length() - i), form.charAt(form.length() - i));
    }
    if (letters > -TOO_UNLIKELY) {
      states.add(new State(form, letters));
    }
  }

  /** The logarithm of how likely these letters are where a word was cut. */
  private double letters(CarvedWord word, String form) {
    double letters = 0;
    for (int i = 0; i < form.length(); i++) {
      letters += letter(word.letters().get(i), form.charAt(i));
      if (letters < -TOO_UNLIKELY) {
        return NONE;
      }
    }
    return letters;
  }

  private double letter(Map<Character, Double> read, char cut) {
    if (read.isEmpty()) {
      return 0;
    }
    Double share = read.get(cut);
    if (read.size() > 1) {
      return Math.log(share == null ? NONE_OF_THEM : share);
    }
    if (share != null) {
      return asRead;
    }
    char only = read.keySet().iterator().next();
    if (isOneOf(ONE, only, cut)) {
      return OF_ONE_LETTER;
    }
    boolean alike = isOneOf(CONFUSED, only, cut);
    return alike ? itsLike : worn ? another : NONE;
  }

  private static boolean isOneOf(BitSet pairs, char read, char cut) {
    return read < 128 && cut < 128 && pairs.get(read * 128 + cut);
  }

  /** Pairs of letters, each as one number. */
  private static BitSet pairs(String list) {
    BitSet pairs = new BitSet();
    PersonWords.words(list).forEach(pair -> pairs.set(pair.charAt(0) * 128 + pair.charAt(1)));
    return pairs;
  }

  /** The same where some given name was cut. */
  private double given(CarvedWord word) {
    if (!word.isDoubtful() && word.letters().stream().allMatch(l -> l.size() == 1)) {
      if (GivenNames.known().isKnown(word.folded())) {
        return OF_A_GIVEN_NAME;
      }
      if (!worn) {
        return NONE;
      }
    }
    if (word.folded().indexOf('…') >= 0) {
      return NONE;
    }
    double best = NONE;
    for (String name : GIVEN.getOrDefault(word.folded().length(), List.of())) {
      best = Math.max(best, letters(word, name));
    }
    return best + OF_A_GIVEN_NAME;
  }

  /** The same for a word of which nothing is known. */
  private static double unknown(CarvedWord word) {
    double letters = 0;
    for (Map<Character, Double> read : word.letters()) {
      double sum = 0;
      for (Map.Entry<Character, Double> letter : read.entrySet()) {
        sum += letter.getValue() * LETTERS.getOrDefault(letter.getKey(), 0.01);
      }
      letters += read.isEmpty() ? 0 : Math.log(sum);
    }
    return OF_LETTERS * letters;
  }

  /** The logarithm of the sum of two numbers given by their logarithms. */
  static double sum(double a, double b) {
    if (a == NONE) {
      return b;
    }
    if (b == NONE) {
      return a;
    }
    double larger = Math.max(a, b);
    return larger + Math.log1p(Math.exp(Math.min(a, b) - larger));
  }
}
