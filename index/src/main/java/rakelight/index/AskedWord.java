package rakelight.index;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import rakelight.names.GivenNames;
import rakelight.names.WordForms;

/**
 * One word that is searched for: how likely somebody types it who means a word of the index.
 *
 * <p>With {@code w} the word typed and {@code t} a skeleton of the index,
 *
 * <pre>
 * P(w | t) = sum over forms f of P(f | t) max(P(w typed | f), P(w a slip | t))
 *            + (1 - sum of P(f | t)) P(w a slip | t)
 * P(f | t) = share(f) P(t | f) / sum over words v of share(v) P(t | v)
 * </pre>
 *
 * where the forms are the word itself and what it is widened to, {@link Vocabulary shares} are the
 * prior, and P(t | f) is the {@link LetterAlignment} with what readers mistake.
 */
final class AskedWord {
  /** Most who search type the word as it was cut. */
  private static final double AS_TYPED = 0.9;

  /** A name in one letter is as good as unasked for in a word that isn't. */
  private static final double INITIAL_TYPED = 0.1;

  /** How often a word ends and another begins where nobody knows how many letters are lost. */
  private static final double MAY_BE_TWO = 0.1;

  /**
   * Names that nobody knows are as near to known ones as misreadings, but rarer: of those a letter
   * from a name that is misread so once in a hundred times there is one to ten misread, of those
   * two letters away one to a hundred. A choice.
   */
  private static final double NAMES_ALIKE = 1.5;

  /** A word that is never met isn't how one that is would be spelt by its sound. A choice. */
  private static final double LEAST_BY_SOUND = 1e-5;

  /** Below this a probability is none. */
  static final double LEAST = 1e-35;

  private static final int ONE_SLIP_FROM = 3;
  private static final int TWO_SLIPS_FROM = 6;
  private static final int LONGEST_WITH_SLIPS = 24;

  /**
   * @param share how common it is
   * @param typed how likely the word typed is meant as this form
   */
  record Form(String text, int[] letters, double share, double typed, Optional<Widening> by) {
    /** Whether the word typed is a slip of this one. */
    boolean isSlip() {
      return by.filter(widening -> widening == Widening.SLIPS).isPresent();
    }

    /** Whether it is looked for where letters of it are misread, too. */
    boolean isMeant() {
      return by.isEmpty() || isSlip();
    }
  }

  private final String word;
  private final int[] letters;
  private final List<Form> forms;
  private final Vocabulary vocabulary;
  private final Set<Widening> widenings;
  private final boolean wild;

  AskedWord(String folded, Vocabulary vocabulary, Set<Widening> widenings) {
    this.word = folded;
    this.letters = folded.codePoints().toArray();
    this.vocabulary = vocabulary;
    this.widenings = Set.copyOf(widenings);
    this.wild = folded.indexOf(SkeletonPattern.ANY) >= 0;
    this.forms = forms();
  }

  private List<Form> forms() {
    Map<String, Form> all = new LinkedHashMap<>();
    add(all, word, AS_TYPED, Optional.empty());
    if (wild || isInitial()) {
      return List.copyOf(all.values());
    }
    GivenNames names = GivenNames.known();
    if (widenings.contains(Widening.ABBREVIATIONS)) {
      names.abbreviationsOf(word).forEach(form -> add(all, form, Widening.ABBREVIATIONS));
      WordForms.known().of(word).forEach(form -> add(all, form, Widening.ABBREVIATIONS));
    }
    if (widenings.contains(Widening.LATIN)) {
      names.latinOf(word).forEach(form -> add(all, form, Widening.LATIN));
    }
    if (widenings.contains(Widening.NICKNAMES)) {
      names.nicknamesOf(word).forEach(form -> add(all, form, Widening.NICKNAMES));
      names
          .inTwoSteps(word)
          .forEach(form -> add(all, form, Widening.TWO_STEPS, Optional.of(Widening.NICKNAMES)));
    }
    if (mostSlips() > 0) {
      vocabulary
          .slippedFrom(word)
          .forEach((form, typed) -> add(all, form, typed, Optional.of(Widening.SLIPS)));
    }
    if (widenings.contains(Widening.SOUNDS)) {
      // Of all the ways to write the sound, how likely this one is typed.
      double typed = Widening.SOUNDS.typed() * vocabulary.shareOfSound(word);
      if (typed >= LEAST_BY_SOUND) {
        vocabulary
            .soundingLike(word)
            .forEach(form -> add(all, form, typed, Optional.of(Widening.SOUNDS)));
      }
    }
    return List.copyOf(all.values());
  }

  private void add(Map<String, Form> all, String form, Widening by) {
    add(all, form, by.typed(), Optional.of(by));
  }

  private void add(Map<String, Form> all, String form, double typed, Optional<Widening> by) {
    all.computeIfAbsent(
        form,
        text -> new Form(text, text.codePoints().toArray(), vocabulary.share(text), typed, by));
  }

  String word() {
    return word;
  }

  Set<Widening> widenings() {
    return widenings;
  }

  List<Form> formsAsked() {
    return forms;
  }

  /** The word itself, and what it may be a slip of. */
  List<Form> meant() {
    return forms.stream().filter(Form::isMeant).toList();
  }

  boolean isInitial() {
    return letters.length == 1 && Character.isLetter(letters[0]);
  }

  boolean isWild() {
    return wild;
  }

  boolean looksForInitials() {
    return widenings.contains(Widening.INITIALS)
        && letters.length > 1
        && Character.isLetter(letters[0]);
  }

  /** The slips at which a word is still looked for, 0 to 2. */
  int mostSlips() {
    boolean figures = word.chars().anyMatch(Character::isDigit);
    if (wild
        || figures
        || !widenings.contains(Widening.SLIPS)
        || letters.length > LONGEST_WITH_SLIPS) {
      return 0;
    }
    return letters.length >= TWO_SLIPS_FROM ? 2 : letters.length >= ONE_SLIP_FROM ? 1 : 0;
  }

  /** Accepts the terms that may say it, with so many slips. */
  SkeletonPattern pattern(int slips) {
    return isInitial() ? SkeletonPattern.beginning(word) : SkeletonPattern.of(word, slips);
  }

  /** The share of its bearers whose names were typed and read with so many slips at most. */
  double shareWithin(int slips) {
    if (mostSlips() == 0) {
      return 1;
    }
    Channel reader = vocabulary.reader();
    Channel typist = Channel.SEARCHER;
    double one =
        reader.wrong()
            + reader.added()
            + reader.dropped()
            + typist.wrong()
            + typist.added()
            + typist.dropped()
            + typist.swapped();
    double exactly = Math.pow(1 - one, letters.length);
    double within = exactly;
    for (int made = 1; made <= slips; made++) {
      exactly *= one / (1 - one) * (letters.length - made + 1) / made;
      within += Math.max(0, exactly);
    }
    return Math.min(1, within);
  }

  /** How likely anybody types it, whomever he means. */
  double share() {
    if (wild) {
      List<Cell> cells = new ArrayList<>();
      for (int letter : letters) {
        cells.add(
            letter == SkeletonPattern.ANY
                ? new Cell.Unknown(1, 1)
                : Cell.sure(Character.toString(letter)));
      }
      return vocabulary.mass(Places.of(Skeleton.of(cells).get(0)));
    }
    if (isInitial()) {
      return INITIAL_TYPED * vocabulary.shareBeginning(letters[0]);
    }
    double share = vocabulary.share(word);
    for (Form form : forms) {
      share += form.isSlip() ? form.share() * form.typed() : 0;
    }
    return share;
  }

  /** How likely it is typed by somebody who means the word behind this skeleton. */
  double given(Places term) {
    return term.skeleton().isSide() ? MAY_BE_TWO * whole(term) : whole(term);
  }

  private double whole(Places term) {
    List<Skeleton.Slot> slots = term.slots();
    if (slots.isEmpty()) {
      return 0;
    }
    if (wild) {
      return wildcard(slots);
    }
    if (isInitial()) {
      return initial(slots);
    }
    double mass = vocabulary.mass(term);
    double slip =
        mostSlips() > 0
            ? LetterAlignment.typed(term, letters, Channel.SEARCHER, vocabulary.letters())
            : 0;
    double[] joints = new double[forms.size()];
    double misread = 0;
    double alike = 0;
    for (int i = 0; i < joints.length; i++) {
      Form form = forms.get(i);
      double fit = Fixed.anyFit(term, form.letters());
      joints[i] = form.share() * fit;
      if (fit == 0 && form.isMeant() && mostSlips() > 0) {
        double wrong = LetterAlignment.of(term, form.letters(), vocabulary.reader());
        joints[i] = form.share() * wrong;
        misread += joints[i];
        alike += form.share() * Math.pow(wrong, NAMES_ALIKE);
      }
    }
    // How often a word was plainly read counts what was misread as well.
    mass = (term.clear() ? Math.max(mass, misread) : mass + misread) + alike;
    double typed = 0;
    double known = 0;
    for (int i = 0; i < joints.length; i++) {
      double of = joints[i] == 0 ? 0 : Math.min(1, joints[i] / Math.max(mass, joints[i]));
      known += of;
      // Whoever means the form may also have slipped.
      typed += of * Math.max(forms.get(i).typed(), slip);
    }
    typed += Math.max(0, 1 - known) * slip;
    if (slots.size() == 1
        && looksForInitials()
        && slots.get(0) instanceof Skeleton.Known one
        && one.letter() == letters[0]) {
      typed +=
          Widening.INITIALS.typed()
              * vocabulary.share(word)
              / vocabulary.shareBeginning(letters[0]);
    }
    return Math.min(1, typed);
  }

  private double wildcard(List<Skeleton.Slot> slots) {
    if (slots.size() != letters.length) {
      return 0;
    }
    double fit = 1;
    for (int i = 0; i < letters.length; i++) {
      if (letters[i] != SkeletonPattern.ANY) {
        fit *=
            slots.get(i) instanceof Skeleton.Unknown
                ? vocabulary.letters().of(letters[i])
                : Fixed.fit(slots.subList(i, i + 1), new int[] {letters[i]});
      }
    }
    return fit;
  }

  private double initial(List<Skeleton.Slot> slots) {
    double first =
        slots.get(0) instanceof Skeleton.Unknown
            ? vocabulary.letters().of(letters[0])
            : Fixed.fit(slots.subList(0, 1), letters);
    return slots.size() == 1 ? first : INITIAL_TYPED * first;
  }
}
