package rakelight.index;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.names.GivenNames;
import rakelight.names.Likeness;
import rakelight.names.SoundCodes;

/**
 * Whether and how well an entry answers a query: the one place that knows. The index only spares
 * the entries that can't answer; a scan of all entries through this class finds the same hits.
 *
 * <p>Each part of the query scores the best of its answers; an answer that rests on doubt or on a
 * relation between names scores below one that is certain. More doubt never hides an entry, as long
 * as one letter of the answering words is known.
 */
final class Matcher {
  // Weights are choices, not measured: an order of trust. Certain, then another form of one name,
  // then one letter off, then what only sounds alike, then what may stand where letters are
  // missing.
  static final double ABBREVIATION = 0.9;
  static final double NICKNAME = 0.7;
  static final double ONE_EDIT = 0.6;
  static final double TWO_EDITS = 0.4;
  static final double SOUND = 0.35;
  static final double PATTERN = 0.5;
  static final double LOST = 0.05;
  static final double INITIALS = 0.3;
  static final double NOT_A_NAME = 0.5;
  static final double NEIGHBOURS = 0.25;

  private static final int ONE_EDIT_FROM_LETTERS = 4;
  private static final int TWO_EDITS_FROM_LETTERS = 8;
  private static final int SOUND_FROM_LETTERS = 4;

  /** How one part of a query is answered. */
  private record Answer(double score, String why, boolean onLetters) {}

  private final Query query;

  Matcher(Query query) {
    this.query = query;
  }

  /** The edits at which a spelling of this length still counts as alike. */
  static int edits(String folded) {
    if (folded.chars().anyMatch(Character::isDigit)) {
      return 0;
    }
    int letters = folded.codePointCount(0, folded.length());
    return letters >= TWO_EDITS_FROM_LETTERS ? 2 : letters >= ONE_EDIT_FROM_LETTERS ? 1 : 0;
  }

  /** Whether what sounds like this word is looked for. */
  static boolean hasSound(String folded) {
    return folded.length() >= SOUND_FROM_LETTERS
        && folded.chars().allMatch(c -> c >= 'a' && c <= 'z');
  }

  Optional<Hit> match(Entry entry) {
    Optional<Hit> asWritten = allParts(entry);
    Optional<Hit> asInitials = initialsOfTheTerms(entry);
    if (asWritten.isPresent()
        && (asInitials.isEmpty() || asWritten.get().score() >= asInitials.get().score())) {
      return asWritten;
    }
    return asInitials;
  }

  private Optional<Hit> allParts(Entry entry) {
    double score = 0;
    List<String> why = new ArrayList<>();
    boolean onLetters = false;
    Query.Part before = query.parts().get(0);
    for (Query.Part part : query.parts()) {
      Optional<Answer> answer = answer(part, entry);
      if (answer.isEmpty()) {
        return Optional.empty();
      }
      score += answer.get().score();
      if (before != part && before instanceof Query.Term left && part instanceof Query.Term right) {
        score += NEIGHBOURS * neighbours(left, right, entry);
      }
      onLetters |= answer.get().onLetters();
      why.add(answer.get().why());
      before = part;
    }
    return onLetters ? Optional.of(new Hit(entry, rounded(score), why)) : Optional.empty();
  }

  /** A footstone's "H. W." answers who asks for Hannah Wren, far below a stone with the name. */
  private Optional<Hit> initialsOfTheTerms(Entry entry) {
    List<Query.Term> terms = query.plainTerms();
    if (terms.size() < 2 || entry.initials().isEmpty()) {
      return Optional.empty();
    }
    StringBuilder wanted = new StringBuilder();
    terms.forEach(term -> wanted.appendCodePoint(term.folded().codePointAt(0)));
    for (String initials : entry.initials()) {
      if (initials.contentEquals(wanted)) {
        double score = INITIALS;
        List<String> why = new ArrayList<>();
        why.add("initials " + shownInitials(initials) + " may be those of " + shown(terms));
        for (Query.Part part : query.parts()) {
          if (!(part instanceof Query.Term)) {
            Optional<Answer> answer = answer(part, entry);
            if (answer.isEmpty()) {
              return Optional.empty();
            }
            score += answer.get().score();
            why.add(answer.get().why());
          }
        }
        return Optional.of(new Hit(entry, rounded(score), why));
      }
    }
    return Optional.empty();
  }

  private Optional<Answer> answer(Query.Part part, Entry entry) {
    if (part instanceof Query.Term term) {
      return term(term, entry, 0, entry.words().size() - 1);
    }
    if (part instanceof Query.Phrase phrase) {
      return phrase(phrase, entry);
    }
    if (part instanceof Query.Name name) {
      return name(name, entry);
    }
    if (part instanceof Query.Years years) {
      return years(years, entry);
    }
    if (part instanceof Query.Initials initials) {
      return initials(initials, entry);
    }
    if (part instanceof Query.Marker marker) {
      return marker.number().equalsIgnoreCase(entry.marker())
          ? Optional.of(new Answer(1, "marker " + entry.marker(), true))
          : Optional.empty();
    }
    Query.Link link = (Query.Link) part;
    return entry.links().stream()
        .filter(text -> rakelight.names.NameForms.fold(text).contains(link.folded()))
        .findFirst()
        .map(text -> new Answer(1, "link: " + text, true));
  }

  private static Optional<Answer> term(Query.Term term, Entry entry, int first, int last) {
    Optional<Answer> best = Optional.empty();
    for (int i = first; i <= last; i++) {
      best = better(best, word(term, entry.words().get(i)));
    }
    return best;
  }

  /** How well two words answer that stand one after the other: as well as the worse of them. */
  private static double neighbours(Query.Term left, Query.Term right, Entry entry) {
    double best = 0;
    for (int i = 0; i + 1 < entry.words().size(); i++) {
      Optional<Answer> one = word(left, entry.words().get(i));
      if (one.isPresent() && one.get().score() > best) {
        Optional<Answer> two = word(right, entry.words().get(i + 1));
        best = Math.max(best, Math.min(one.get().score(), two.map(Answer::score).orElse(0.0)));
      }
    }
    return best;
  }

  private static Optional<Answer> better(Optional<Answer> one, Optional<Answer> other) {
    if (other.isEmpty()) {
      return one;
    }
    return one.isEmpty() || other.get().score() > one.get().score() ? other : one;
  }

  private static Optional<Answer> word(Query.Term term, Word word) {
    Optional<Answer> best = Optional.empty();
    for (Map.Entry<String, Double> reading : word.readings().entrySet()) {
      best = better(best, relation(term, reading.getKey(), reading.getValue(), word));
    }
    for (Pattern pattern : word.patterns()) {
      best = better(best, pattern(term, pattern, word));
    }
    return best;
  }

  private static Optional<Answer> relation(
      Query.Term term, String reading, double weight, Word word) {
    String wanted = term.folded();
    String may = weight < 1 ? " may read " : " reads ";
    if (reading.equals(wanted)) {
      String why = weight < 1 ? word.shown() + may + term.shown() : "word " + word.shown();
      return Optional.of(new Answer(weight, why, true));
    }
    String by = word.shown() + (weight < 1 ? may + reading + ", " : ", ");
    if (GivenNames.known().abbreviationsOf(wanted).contains(reading)) {
      return Optional.of(
          new Answer(
              ABBREVIATION * weight, by + "the same name as " + term.shown() + " cut short", true));
    }
    if (GivenNames.known().nicknamesOf(wanted).contains(reading)) {
      return Optional.of(new Answer(NICKNAME * weight, by + "used for " + term.shown(), true));
    }
    int most = Math.min(edits(wanted), edits(reading));
    if (most > 0 && Math.abs(wanted.length() - reading.length()) <= 2 * most) {
      int edits = Likeness.edits(wanted, reading);
      if (edits <= most) {
        double score = edits == 1 ? ONE_EDIT : TWO_EDITS;
        return Optional.of(
            new Answer(score * weight, by + "spelt much like " + term.shown(), true));
      }
    }
    // A code begins with the first letter, so most words need none.
    if (wanted.charAt(0) == reading.charAt(0)
        && hasSound(wanted)
        && hasSound(reading)
        && SoundCodes.soundex(wanted).equals(SoundCodes.soundex(reading))) {
      return Optional.of(new Answer(SOUND * weight, by + "may sound like " + term.shown(), true));
    }
    return Optional.empty();
  }

  private static Optional<Answer> pattern(Query.Term term, Pattern pattern, Word word) {
    Optional<Answer> best = pattern(term, term.folded(), 1, pattern, word);
    for (String form : GivenNames.known().abbreviationsOf(term.folded())) {
      best = better(best, pattern(term, form, ABBREVIATION, pattern, word));
    }
    for (String form : GivenNames.known().nicknamesOf(term.folded())) {
      best = better(best, pattern(term, form, NICKNAME, pattern, word));
    }
    return best;
  }

  private static Optional<Answer> pattern(
      Query.Term term, String form, double weight, Pattern pattern, Word word) {
    double known = pattern.known(form);
    if (known < 0) {
      return Optional.empty();
    }
    String asked = form.equals(term.folded()) ? term.shown() : form + " for " + term.shown();
    if (known == 0) {
      return Optional.of(
          new Answer(
              LOST * weight, asked + " may have stood in what is lost: " + word.shown(), false));
    }
    return Optional.of(
        new Answer(
            (LOST + (PATTERN - LOST) * known) * weight, word.shown() + " may read " + asked, true));
  }

  /** Words one after the other, exactly or as what may stand there. */
  private static Optional<Answer> phrase(Query.Phrase phrase, Entry entry) {
    Optional<Answer> best = Optional.empty();
    int length = phrase.folded().size();
    for (int start = 0; start + length <= entry.words().size(); start++) {
      double score = 0;
      boolean onLetters = false;
      boolean sure = true;
      boolean all = true;
      for (int i = 0; i < length && all; i++) {
        Optional<Answer> answer = asWritten(phrase.folded().get(i), entry.words().get(start + i));
        all = answer.isPresent();
        score += answer.map(Answer::score).orElse(0.0);
        onLetters |= answer.isPresent() && answer.get().onLetters();
        sure &= answer.isPresent() && answer.get().score() >= 1;
      }
      if (all && onLetters) {
        String why = sure ? "words “" : "what may read “";
        best = better(best, Optional.of(new Answer(score, why + phrase.shown() + "”", true)));
      }
    }
    return best;
  }

  private static Optional<Answer> asWritten(String folded, Word word) {
    Query.Term term = new Query.Term(folded, folded);
    Optional<Answer> best =
        Optional.ofNullable(word.readings().get(folded))
            .map(weight -> new Answer(weight, "", true));
    for (Pattern pattern : word.patterns()) {
      best = better(best, pattern(term, folded, 1, pattern, word));
    }
    return best;
  }

  private static Optional<Answer> name(Query.Name name, Entry entry) {
    Optional<Answer> best = Optional.empty();
    for (Entry.NameSpan span : entry.names()) {
      best = better(best, allTerms(name, entry, span.first(), span.last()));
    }
    Optional<Answer> inTheText =
        allTerms(name, entry, 0, entry.words().size() - 1)
            .map(
                answer ->
                    new Answer(
                        NOT_A_NAME * answer.score(),
                        answer.why() + " (in the text, not known to be a name)",
                        answer.onLetters()));
    best = better(best, inTheText);
    return better(best, initialsOf(name, entry));
  }

  private static Optional<Answer> allTerms(Query.Name name, Entry entry, int first, int last) {
    double score = 0;
    boolean onLetters = false;
    List<String> why = new ArrayList<>();
    for (Query.Term term : name.terms()) {
      Optional<Answer> answer = term(term, entry, first, last);
      if (answer.isEmpty()) {
        return Optional.empty();
      }
      score += answer.get().score();
      onLetters |= answer.get().onLetters();
      why.add(answer.get().why());
    }
    return onLetters
        ? Optional.of(new Answer(score, String.join("; ", why), true))
        : Optional.empty();
  }

  private static Optional<Answer> initialsOf(Query.Name name, Entry entry) {
    if (name.terms().size() < 2) {
      return Optional.empty();
    }
    StringBuilder wanted = new StringBuilder();
    name.terms().forEach(term -> wanted.appendCodePoint(term.folded().codePointAt(0)));
    return entry.initials().stream()
        .filter(initials -> initials.contentEquals(wanted))
        .findFirst()
        .map(
            initials ->
                new Answer(
                    INITIALS,
                    "initials " + shownInitials(initials) + " may be those of " + name.shown(),
                    true));
  }

  private static Optional<Answer> initials(Query.Initials wanted, Entry entry) {
    if (entry.initials().contains(wanted.folded())) {
      return Optional.of(new Answer(1, "initials " + shownInitials(wanted.folded()), true));
    }
    for (Entry.NameSpan span : entry.names()) {
      if (initialsOf(entry.words().subList(span.first(), span.last() + 1))
          .equals(wanted.folded())) {
        StringBuilder name = new StringBuilder();
        for (Word word : entry.words().subList(span.first(), span.last() + 1)) {
          name.append(name.isEmpty() ? "" : " ").append(word.shown());
        }
        return Optional.of(
            new Answer(INITIALS, name + " has the initials " + wanted.shown(), true));
      }
    }
    return Optional.empty();
  }

  /** The first letters of the likeliest readings; empty where a word has none. */
  static String initialsOf(List<Word> words) {
    StringBuilder initials = new StringBuilder();
    for (Word word : words) {
      Optional<String> likeliest =
          word.readings().entrySet().stream()
              .sorted(
                  Map.Entry.<String, Double>comparingByValue(java.util.Comparator.reverseOrder())
                      .thenComparing(Map.Entry.comparingByKey()))
              .map(Map.Entry::getKey)
              .findFirst();
      if (likeliest.isEmpty()) {
        return "";
      }
      initials.appendCodePoint(likeliest.get().codePointAt(0));
    }
    return initials.toString();
  }

  private static Optional<Answer> years(Query.Years years, Entry entry) {
    Optional<Answer> best = Optional.empty();
    for (Entry.YearSpan span : entry.years()) {
      if (span.from() <= years.to() && span.to() >= years.from()) {
        boolean sure = span.weight() >= 1 && span.from() == span.to();
        String why =
            sure
                ? "year " + span.shown()
                : span.shown()
                    + " may be "
                    + (span.from() == span.to() ? span.from() : span.from() + " to " + span.to());
        best = better(best, Optional.of(new Answer(span.weight(), why, true)));
      }
    }
    return best;
  }

  private static String shownInitials(String initials) {
    StringBuilder shown = new StringBuilder();
    initials
        .codePoints()
        .forEach(
            letter ->
                shown
                    .append(shown.isEmpty() ? "" : " ")
                    .appendCodePoint(Character.toUpperCase(letter))
                    .append('.'));
    return shown.toString();
  }

  private static String shown(List<Query.Term> terms) {
    return String.join(" ", terms.stream().map(Query.Term::shown).toList());
  }

  /** Sums of the same answers in another order must not differ in the last bit. */
  private static double rounded(double score) {
    return Math.round(score * 1e6) / 1e6;
  }
}
