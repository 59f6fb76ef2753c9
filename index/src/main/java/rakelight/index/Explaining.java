package rakelight.index;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.lucene.util.BytesRef;
import rakelight.names.NameForms;

/** Says why an entry answers, part by part, and marks the letters that do. */
final class Explaining {
  /** A name of another person on the stone answers less; as in {@link Asked}. */
  private static final double OF_ANOTHER = 0.1;

  private final Query query;
  private final Asked asked;
  private final Asked.Weights said;
  private final List<Map<Skeleton, float[]>> known = List.of(new HashMap<>(), new HashMap<>());

  /**
   * @param said what the terms of the hits were found to say
   */
  Explaining(Query query, Asked asked, Asked.Weights said) {
    this.query = query;
    this.asked = asked;
    this.said = said;
  }

  /** What a way says of a word asked for; kept, since the words of one stone stand on the next. */
  private double given(Asked.AskedTerm term, Skeleton way, boolean name) {
    return known.get(name ? 0 : 1)
        .computeIfAbsent(way, own -> said.of(new BytesRef(own.text()), name).clone())[
        term.number()];
  }

  /** A word of the entry as an answer to a word asked for; number -1 for one that is lent. */
  private record Answer(double weight, int number, Word word, Skeleton way, boolean name) {}

  Hit hit(Entry entry, double probability) {
    int person = likeliestPerson(entry);
    List<String> why = new ArrayList<>();
    List<Hit.Letters> letters = new ArrayList<>();
    int term = 0;
    for (Query.Part part : query.parts()) {
      if (part instanceof Query.Term one) {
        Asked.AskedTerm own = asked.terms().get(term++);
        Optional<Answer> answer = answer(own, entry, person);
        answer.ifPresent(each -> mark(own, each, letters));
        why.add(
            answer
                .map(each -> reason(one, own, each, entry))
                .orElse("no word like " + one.shown()));
      } else if (part instanceof Query.Phrase phrase) {
        why.add(phrase(phrase, term, entry, letters));
        term += phrase.folded().size();
      } else {
        why.add(reason(part, entry));
      }
    }
    return new Hit(entry, probability, why, letters);
  }

  private int likeliestPerson(Entry entry) {
    int best = 0;
    double most = -1;
    for (int p = 0; p < entry.names().size(); p++) {
      double all = 1;
      for (Asked.AskedTerm term : asked.terms()) {
        all *= term.missing() + answer(term, entry, p).map(Answer::weight).orElse(0.0);
      }
      if (all > most) {
        most = all;
        best = p;
      }
    }
    return best;
  }

  private Optional<Answer> answer(Asked.AskedTerm term, Entry entry, int person) {
    Optional<Answer> best = Optional.empty();
    boolean nameless = entry.names().isEmpty();
    for (int i = 0; i < entry.words().size(); i++) {
      boolean own = !nameless && holds(entry.names().get(person), i);
      boolean name = nameless || own;
      double share = term.weight(true);
      if (nameless) {
        share *= Asked.NAMELESS;
      } else if (!own) {
        int word = i;
        name = entry.names().stream().anyMatch(each -> holds(each, word));
        share = name ? share * OF_ANOTHER : term.weight(false);
      }
      best = better(best, answer(term, i, entry.words().get(i), name, share));
    }
    if (!nameless) {
      for (Word lent : entry.names().get(person).lent()) {
        best = better(best, answer(term, -1, lent, true, term.weight(true)));
      }
    }
    return best;
  }

  private static boolean holds(Entry.Name name, int word) {
    return name.first() <= word && word <= name.last();
  }

  private Optional<Answer> answer(
      Asked.AskedTerm term, int number, Word word, boolean name, double share) {
    Optional<Answer> best = Optional.empty();
    for (Skeleton way : word.ways()) {
      double given = given(term, way, name);
      if (given > AskedWord.LEAST && given * share > term.missing() / 100) {
        best = better(best, Optional.of(new Answer(given * share, number, word, way, name)));
      }
    }
    return best;
  }

  private static Optional<Answer> better(Optional<Answer> one, Optional<Answer> other) {
    if (other.isEmpty()) {
      return one;
    }
    return one.isEmpty() || other.get().weight() > one.get().weight() ? other : one;
  }

  /** The form of the word asked for that the way says best. */
  private static AskedWord.Form form(AskedWord word, Skeleton way) {
    return word.formsAsked().stream()
        .filter(form -> way.matches(form.text()))
        .findFirst()
        .orElse(word.formsAsked().get(0));
  }

  private static void mark(Asked.AskedTerm term, Answer answer, List<Hit.Letters> into) {
    AskedWord word = term.word(answer.name());
    AskedWord.Form form = form(word, answer.way());
    List<Skeleton.Slot> slots = answer.way().slots();
    Hit.Standing[] places = new Hit.Standing[slots.size()];
    for (int i = 0; i < places.length; i++) {
      places[i] =
          slots.get(i) instanceof Skeleton.Known ? Hit.Standing.OTHER : Hit.Standing.GUESSED;
    }
    for (LetterAlignment.Step step : LetterAlignment.likeliest(slots, form.letters())) {
      if (step.sure() && step.same()) {
        places[step.slot()] = Hit.Standing.SURE;
      }
    }
    into.add(new Hit.Letters(answer.number(), word.word(), form.text(), List.of(places)));
  }

  private static String reason(Query.Term term, Asked.AskedTerm own, Answer answer, Entry entry) {
    AskedWord word = own.word(answer.name());
    AskedWord.Form form = form(word, answer.way());
    String shown = answer.word().shown();
    String where =
        answer.number() < 0
            ? " (its surname is carved for another person or in a heading)"
            : term.inName() && (entry.names().isEmpty() || !answer.name())
                ? " (in the text, not known to be a name)"
                : "";
    boolean clear = answer.way().isClear();
    String reads;
    if (!answer.way().hasLetters()) {
      reads = term.shown() + " may have stood in what is lost: " + shown;
    } else if (answer.way().matches(form.text())) {
      String may = clear ? "" : " may read " + form.text();
      reads =
          form.by()
              .map(
                  by ->
                      switch (by) {
                        case ABBREVIATIONS ->
                            shown + may + ", the same as " + term.shown() + " cut short";
                        case LATIN -> shown + may + ", another language's " + term.shown();
                        case SLIPS -> shown + may + ", if " + term.shown() + " is a slip";
                        case SOUNDS -> shown + may + ", may sound like " + term.shown();
                        default -> shown + may + ", used for " + term.shown();
                      })
              .orElse(clear ? "word " + shown : shown + " may read " + term.shown());
    } else if (answer.way().slots().size() == 1 || word.isInitial()) {
      reads = "initial: " + shown + " may be " + term.shown();
    } else {
      reads = shown + ", spelt or read a little otherwise than " + term.shown();
    }
    return reads + where;
  }

  private String phrase(Query.Phrase phrase, int first, Entry entry, List<Hit.Letters> letters) {
    int length = phrase.folded().size();
    double most = 0;
    List<Answer> best = List.of();
    for (int start = 0; start + length <= entry.words().size(); start++) {
      List<Answer> all = new ArrayList<>();
      double weight = 1;
      for (int i = 0; i < length; i++) {
        Word word = entry.words().get(start + i);
        Optional<Answer> one = answer(asked.terms().get(first + i), start + i, word, true, 1);
        one = better(one, answer(asked.terms().get(first + i), start + i, word, false, 1));
        weight *= one.map(Answer::weight).orElse(0.0);
        one.ifPresent(all::add);
      }
      if (weight > most) {
        most = weight;
        best = all;
      }
    }
    for (int i = 0; i < best.size(); i++) {
      mark(asked.terms().get(first + i), best.get(i), letters);
    }
    boolean sure = best.stream().allMatch(each -> each.way().isClear());
    return (sure ? "words “" : "what may read “") + phrase.shown() + "”";
  }

  private String reason(Query.Part part, Entry entry) {
    if (part instanceof Query.Years years) {
      return years(years, entry);
    }
    if (part instanceof Query.Ages ages) {
      return entry.ages().stream()
          .filter(age -> age.from() <= ages.to() && age.to() >= ages.from())
          .findFirst()
          .map(age -> "aged " + age.shown())
          .orElse("no age " + ages.shown());
    }
    if (part instanceof Query.Initials initials) {
      return entry.initials().contains(initials.folded())
          ? "initials " + Initials.shown(initials.folded())
          : "a name with the initials " + Initials.shown(initials.folded());
    }
    if (part instanceof Query.Marker) {
      return "marker " + entry.marker();
    }
    if (part instanceof Query.Near near) {
      return "stands near " + near.number();
    }
    Query.Fact fact = (Query.Fact) part;
    String held =
        entry.fact(fact.field()).stream()
            .filter(
                text ->
                    fact.folded().equals(List.of(Query.ANY))
                        || fact.folded().stream()
                            .allMatch(word -> NameForms.fold(text).contains(word)))
            .collect(Collectors.joining("; "));
    return held.isEmpty()
        ? "no " + fact.field() + " " + fact.shown() + " known"
        : fact.field() + ": " + held;
  }

  /** From so much on a year that isn't among those asked for is told as a likely misreading. */
  private static final double OF_A_FIGURE_MISREAD = 0.35;

  private String years(Query.Years years, Entry entry) {
    YearsAsked own = asked.years().get(asked.yearParts().indexOf(years));
    Optional<Entry.YearSpan> best = Optional.empty();
    double most = 0;
    for (Entry.YearSpan span : entry.years()) {
      double answer = span.weight() * own.of(span.from(), span.to(), span.event());
      if (answer > most) {
        most = answer;
        best = Optional.of(span);
      }
    }
    if (best.isEmpty()) {
      return "no year known that answers " + years.shown();
    }
    Entry.YearSpan span = best.get();
    String told =
        span.from() == span.to()
            ? Integer.toString(span.from())
            : String.format(Locale.ROOT, "%d to %d", span.from(), span.to());
    if (span.event().equals(Query.MADE)) {
      return "made "
          + told
          + ", as reckoned"
          + (isAmong(years, span) ? "" : ", not " + years.shown());
    }
    boolean sure = span.weight() >= 1 && span.from() == span.to();
    boolean among = isAmong(years, span);
    if (!among && most >= OF_A_FIGURE_MISREAD) {
      return span.shown() + " may be one of " + years.shown() + ", if a figure is misread";
    }
    if (!among) {
      return "year " + span.shown() + ", not " + years.shown();
    }
    return sure ? "year " + span.shown() : span.shown() + " may be " + told;
  }

  private static boolean isAmong(Query.Years years, Entry.YearSpan span) {
    return IntStream.rangeClosed(span.from(), span.to()).anyMatch(years.among()::contains);
  }
}
