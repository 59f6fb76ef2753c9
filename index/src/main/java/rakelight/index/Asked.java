package rakelight.index;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.lucene.util.BytesRef;

/**
 * One query as it is put to one state of the index: its words with what each term of the index says
 * of them, and the rest of its parts.
 */
final class Asked {
  /** So many of those who type a word mean one that isn't a name. A choice. */
  static final double TEXT = 0.1;

  /**
   * A word asked for within a name may stand in a text that nobody has seen a name in. A choice.
   */
  static final double TEXT_FOR_NAME = 0.02;

  /** So often the stone lacks a word that is asked for, or has it so worn. A choice. */
  private static final double MISSING = 0.05;

  /** A word asked for; what a term says of it doesn't change with the entry. */
  static final class AskedTerm {
    private final AskedWord inNames;
    private final AskedWord inTexts;
    private final boolean inNameOnly;
    private final int phrase;
    private final int number;
    private final double share;
    private final Map<Skeleton, Float> ofNames = new HashMap<>();
    private final Map<Skeleton, Float> ofTexts = new HashMap<>();

    AskedTerm(int number, AskedWord inNames, AskedWord inTexts, boolean inNameOnly, int phrase) {
      this.number = number;
      this.inNames = inNames;
      this.inTexts = inTexts;
      this.inNameOnly = inNameOnly;
      this.phrase = phrase;
      double text = inNameOnly ? TEXT_FOR_NAME : TEXT;
      this.share = (1 - text) * inNames.share() + text * inTexts.share();
    }

    AskedWord word(boolean name) {
      return name ? inNames : inTexts;
    }

    /** Its number among the words asked for, from 0. */
    int number() {
      return number;
    }

    /** The number of the phrase it is part of, from 0; -1 for none. */
    int phrase() {
      return phrase;
    }

    double share() {
      return share;
    }

    /** How likely it is typed for an entry that has no such word. */
    double missing() {
      return MISSING * share;
    }

    double weight(boolean name) {
      double text = inNameOnly ? TEXT_FOR_NAME : TEXT;
      return name ? 1 - text : text;
    }

    /** What a term says; kept, since the words of one stone stand on the next. */
    float given(Skeleton term, boolean name) {
      return (name ? ofNames : ofTexts)
          .computeIfAbsent(term, own -> (float) word(name).given(Places.of(own)));
    }
  }

  /** What terms say of the words asked for. */
  interface Weights {
    /** By the number of the word asked for; empty where it says nothing of any. */
    float[] of(BytesRef term, boolean name);
  }

  private final List<AskedTerm> terms = new ArrayList<>();
  private final List<YearsAsked> years = new ArrayList<>();
  private final List<Query.Years> yearParts = new ArrayList<>();
  private final List<Query.Ages> ages = new ArrayList<>();
  private final List<Query.Part> others = new ArrayList<>();

  Asked(Query query, Vocabulary names, Vocabulary texts, Set<Widening> widenings) {
    Set<Widening> ofTexts =
        widenings.stream()
            .filter(each -> each == Widening.ABBREVIATIONS || each == Widening.SLIPS)
            .collect(Collectors.toSet());
    // A single word is no name that initials could stand for.
    long words = query.parts().stream().filter(Query.Term.class::isInstance).count();
    Set<Widening> ofNames =
        widenings.stream()
            .filter(each -> each != Widening.INITIALS || words > 1)
            .collect(Collectors.toSet());
    int phrases = 0;
    for (Query.Part part : query.parts()) {
      if (part instanceof Query.Term term) {
        terms.add(
            new AskedTerm(
                terms.size(),
                new AskedWord(term.folded(), names, ofNames),
                new AskedWord(term.folded(), texts, ofTexts),
                term.inName(),
                -1));
      } else if (part instanceof Query.Phrase phrase) {
        for (String word : phrase.folded()) {
          terms.add(
              new AskedTerm(
                  terms.size(),
                  new AskedWord(word, names, Set.of()),
                  new AskedWord(word, texts, Set.of()),
                  false,
                  phrases));
        }
        phrases++;
      } else if (part instanceof Query.Years asked) {
        years.add(new YearsAsked(asked.event(), asked.among(), texts.figures()));
        yearParts.add(asked);
      } else if (part instanceof Query.Ages asked) {
        ages.add(asked);
      } else {
        others.add(part);
      }
    }
  }

  /** Every term weighed as it is met. */
  Weights weights() {
    return (term, name) -> {
      Skeleton skeleton = new Skeleton(term.utf8ToString());
      float[] given = new float[terms.size()];
      for (int j = 0; j < given.length; j++) {
        given[j] = terms.get(j).given(skeleton, name);
      }
      return given;
    };
  }

  List<AskedTerm> terms() {
    return terms;
  }

  List<YearsAsked> years() {
    return years;
  }

  List<Query.Years> yearParts() {
    return yearParts;
  }

  List<Query.Ages> ages() {
    return ages;
  }

  /** Parts that an entry answers or doesn't. */
  List<Query.Part> others() {
    return others;
  }

  /** The share of those who are asked for whom it takes more than so many slips in one word. */
  double shareBeyond(int slips) {
    double within = 1;
    for (AskedTerm term : terms) {
      within *= term.word(true).shareWithin(slips);
    }
    return 1 - within;
  }

  /** The probability that the query is typed by somebody who means none of the entries. */
  double byChance() {
    double chance = 1;
    for (AskedTerm term : terms) {
      chance *= term.share();
    }
    for (YearsAsked each : years) {
      chance *= each.unknown();
    }
    return chance;
  }

  /**
   * The probability that the query is typed by somebody who means this entry.
   *
   * @param weights what its terms say
   */
  double given(Scored.Cursor entry, BytesRef bytes, Weights weights) {
    entry.begin(bytes);
    double answer = entry.years(years);
    answer *= entry.ages(ages);
    int persons = Math.max(1, entry.persons());
    boolean nameless = entry.persons() == 0;
    int count = terms.size();
    double[][] ofPerson = new double[persons][count];
    double[] ofText = new double[count];
    double[][] inRow = phraseRow(entry.words());
    for (int i = 0; i < entry.words(); i++) {
      long bits = entry.wordOf();
      boolean name = bits != 0 || nameless;
      for (int way = entry.ways(); way > 0; way--) {
        float[] given = weights.of(entry.way(), name);
        for (int j = 0; j < given.length; j++) {
          AskedTerm asked = terms.get(j);
          double is = given[j];
          if (is <= AskedWord.LEAST) {
            continue;
          }
          if (asked.phrase() >= 0) {
            inRow[i][j] = Math.max(inRow[i][j], is);
          } else if (nameless) {
            ofPerson[0][j] = Math.max(ofPerson[0][j], is * NAMELESS);
          } else if (name) {
            for (int p = 0; p < persons; p++) {
              if ((bits >> p & 1) == 1) {
                ofPerson[p][j] = Math.max(ofPerson[p][j], is);
              }
            }
          } else {
            ofText[j] = Math.max(ofText[j], is);
          }
        }
      }
    }
    double best = 0;
    for (int p = 0; p < persons; p++) {
      best = Math.max(best, ofPerson(ofPerson, p, ofText));
    }
    return answer * best * phrases(inRow);
  }

  /** A stone in which nobody has seen a name may have it as well as not. A choice. */
  static final double NAMELESS = 0.5;

  /** A name asked for that is another person's on the same stone. A choice. */
  private static final double OF_ANOTHER = 0.1;

  private double ofPerson(double[][] ofPerson, int person, double[] ofText) {
    double all = 1;
    for (int j = 0; j < terms.size(); j++) {
      AskedTerm asked = terms.get(j);
      if (asked.phrase() >= 0) {
        continue;
      }
      double name = ofPerson[person][j];
      for (double[] other : ofPerson) {
        name = Math.max(name, OF_ANOTHER * other[j]);
      }
      all *= asked.weight(true) * name + asked.weight(false) * ofText[j] + asked.missing();
    }
    return all;
  }

  private double[][] phraseRow(int words) {
    boolean any = terms.stream().anyMatch(term -> term.phrase() >= 0);
    return any ? new double[words][terms.size()] : new double[0][];
  }

  private double phrases(double[][] inRow) {
    double all = 1;
    int j = 0;
    while (j < terms.size()) {
      int phrase = terms.get(j).phrase();
      int end = j + 1;
      while (end < terms.size() && terms.get(end).phrase() == phrase) {
        end++;
      }
      if (phrase >= 0) {
        double best = 0;
        for (int i = 0; i + end - j <= inRow.length; i++) {
          double here = 1;
          for (int k = j; k < end; k++) {
            here *= inRow[i + k - j][k];
          }
          best = Math.max(best, here);
        }
        all *= best;
      }
      j = end;
    }
    return all;
  }
}
