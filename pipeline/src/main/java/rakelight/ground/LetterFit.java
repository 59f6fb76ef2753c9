package rakelight.ground;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import rakelight.index.Confusables;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;

/**
 * How well the letters of a footstone, as read, fit what may have been cut for somebody.
 *
 * <p>What a place says of the letter that was cut is held against letters all alike: 1 where
 * nothing is left, 26 times the share of the letter otherwise. A letter read may be another that is
 * taken for it as {@link Confusables} measured, or any.
 */
final class LetterFit {
  /** Shares of misread letters; choices, no source. */
  private static final double CLEAR_MISREAD = 0.02;

  private static final double CLEAR_BESIDE_WORN_MISREAD = 0.12;
  private static final double OPEN_MISREAD = 0.2;

  /** The part of what is misread that goes as measured; as the search takes it. */
  private static final double AS_MEASURED = 0.6;

  private static final int LETTERS = 26;

  /** A footstone that bears something else than what is known of the person; a choice. */
  private static final double SOMETHING_ELSE = 0.04;

  /** Of strangers' stones, how many have so many letters, and how many a word; choices. */
  private static final double[] LENGTHS = {0, 0.05, 0.45, 0.3, 0.03};

  private static final double WORD = 0.17;

  private static final List<String> RELATION_WORDS =
      List.of(
          "MOTHER",
          "FATHER",
          "WIFE",
          "HUSBAND",
          "SON",
          "DAUGHTER",
          "BABY",
          "BABE",
          "INFANT",
          "SISTER",
          "BROTHER");

  private static final double[] GIVEN_INITIALS = givenInitials();

  private LetterFit() {}

  /**
   * What each place says of each letter, A to Z, against letters all alike.
   *
   * @param places as read
   */
  static double[][] places(List<Map<Character, Double>> places) {
    long worn = places.stream().filter(Footstone::isWorn).count();
    double beside = worn == 0 ? CLEAR_MISREAD : CLEAR_BESIDE_WORN_MISREAD;
    double[][] says = new double[places.size()][];
    for (int k = 0; k < says.length; k++) {
      says[k] = place(places.get(k), Footstone.isWorn(places.get(k)) ? OPEN_MISREAD : beside);
    }
    return says;
  }

  private static double[] place(Map<Character, Double> read, double misread) {
    double[] says = new double[LETTERS];
    double named = 0;
    for (Map.Entry<Character, Double> each : read.entrySet()) {
      String letter = NameForms.fold(String.valueOf(each.getKey()));
      int at = letter.length() == 1 ? letter.charAt(0) - 'a' : -1;
      if (at < 0 || at >= LETTERS) {
        continue;
      }
      double share = each.getValue();
      named += share;
      says[at] += share * (1 - misread);
      Map<String, Double> alike = Confusables.of(letter.toUpperCase(Locale.ROOT));
      double measured = 0;
      for (Map.Entry<String, Double> other : alike.entrySet()) {
        String truth = NameForms.fold(other.getKey());
        int to = truth.length() == 1 ? truth.charAt(0) - 'a' : -1;
        if (to >= 0 && to < LETTERS && to != at) {
          says[to] += share * misread * AS_MEASURED * other.getValue();
          measured += other.getValue();
        }
      }
      double rest = share * misread * (1 - AS_MEASURED * measured) / (LETTERS - 1);
      for (int to = 0; to < LETTERS; to++) {
        says[to] += to == at ? 0 : rest;
      }
    }
    for (int to = 0; to < LETTERS; to++) {
      says[to] = LETTERS * (says[to] + Math.max(0, 1 - named) / LETTERS);
    }
    return says;
  }

  /** What may be cut for somebody, in capitals, with shares that sum to one. */
  static Map<String, Double> forms(FamilyPerson person) {
    Map<String, Double> forms = new LinkedHashMap<>();
    List<String> given =
        person.given().stream().map(LetterFit::folded).filter(n -> !n.isEmpty()).toList();
    List<String> surnames =
        person.surnames().stream().map(LetterFit::folded).filter(n -> !n.isEmpty()).toList();
    String all = given.stream().map(name -> name.substring(0, 1)).reduce("", String::concat);
    String first = all.isEmpty() ? "" : all.substring(0, 1);
    for (int i = 0; i < surnames.size(); i++) {
      String last = surnames.get(i).substring(0, 1);
      double share = i == 0 ? 1 : 0.06;
      add(forms, all + last, 0.45 * share);
      add(forms, first + last, 0.3 * share);
      if (all.length() > 1) {
        add(forms, all.substring(1) + last, 0.02 * share);
      }
      for (String pet : person.given().isEmpty() ? List.<String>of() : petInitials(given.get(0))) {
        add(forms, pet + last, 0.01 * share);
      }
      if (i > 0) {
        add(forms, first + last + surnames.get(0).charAt(0), 0.04);
        add(forms, all + last + surnames.get(0).charAt(0), 0.01);
      }
    }
    add(forms, all, 0.07);
    add(forms, first, 0.01);
    if (!given.isEmpty() && given.get(0).length() > 1) {
      add(forms, given.get(0), 0.05);
      add(forms, String.join("", given), 0.01);
    }
    // Who has no name, such as a child of some days, has a word of relation, if any stone.
    double words = given.isEmpty() ? 3 : 0.08;
    for (String relation : person.relations()) {
      add(forms, relation, words / person.relations().size());
    }
    double sum = forms.values().stream().mapToDouble(Double::doubleValue).sum();
    forms.replaceAll((form, share) -> share / sum);
    return forms;
  }

  private static void add(Map<String, Double> forms, String form, double share) {
    if (!form.isEmpty()) {
      forms.merge(form.toUpperCase(Locale.ROOT), share, Double::sum);
    }
  }

  private static List<String> petInitials(String given) {
    return GivenNames.known().nicknamesOf(given).stream()
        .map(name -> name.substring(0, 1))
        .filter(initial -> !initial.equals(given.substring(0, 1)))
        .distinct()
        .sorted()
        .toList();
  }

  private static String folded(String name) {
    return NameForms.fold(name).replaceAll("[^a-z]", "");
  }

  /** How likely what is read is, if the person's stone it is, times the same for all persons. */
  static double likelihood(double[][] says, Map<String, Double> forms) {
    double sum = 0;
    for (Map.Entry<String, Double> form : forms.entrySet()) {
      sum += form.getValue() * fit(says, form.getKey());
    }
    return (1 - SOMETHING_ELSE) * sum + SOMETHING_ELSE * stranger(says);
  }

  static double fit(double[][] says, String cut) {
    if (cut.length() != says.length) {
      return 0;
    }
    double fit = 1;
    for (int k = 0; k < says.length; k++) {
      fit *= says[k][cut.charAt(k) - 'A'];
    }
    return fit;
  }

  /** The same for somebody of whom nothing is known. */
  static double stranger(double[][] says) {
    if (says.length == 0) {
      return 1;
    }
    double words = 0;
    for (String word : RELATION_WORDS) {
      words += fit(says, word) / RELATION_WORDS.size();
    }
    double letters = says.length < LENGTHS.length ? LENGTHS[says.length] : 1e-3;
    double initials = 1;
    for (int k = 0; k < says.length; k++) {
      double sum = 0;
      for (int t = 0; t < LETTERS; t++) {
        sum += prior(k, says.length, t) * says[k][t];
      }
      initials *= sum;
    }
    return letters * initials + WORD * words;
  }

  /** How common a letter is at a place of a stranger's initials. */
  static double prior(int place, int of, int letter) {
    return of > 1 && place == of - 1 ? 1.0 / LETTERS : GIVEN_INITIALS[letter];
  }

  /** What the true letter of a place may be, if the stone is of somebody with these forms. */
  static double[] letter(double[][] says, Map<String, Double> forms, int place) {
    double[] letter = new double[LETTERS];
    double sum = 0;
    for (Map.Entry<String, Double> form : forms.entrySet()) {
      double weight = (1 - SOMETHING_ELSE) * form.getValue() * fit(says, form.getKey());
      if (weight > 0) {
        letter[form.getKey().charAt(place) - 'A'] += weight;
        sum += weight;
      }
    }
    double[] other = strangersLetter(says, place);
    double rest = SOMETHING_ELSE * stranger(says);
    for (int t = 0; t < LETTERS; t++) {
      letter[t] = (letter[t] + rest * other[t]) / (sum + rest);
    }
    return letter;
  }

  /** The same for a stranger. */
  static double[] strangersLetter(double[][] says, int place) {
    double[] letter = new double[LETTERS];
    double sum = 0;
    for (int t = 0; t < LETTERS; t++) {
      letter[t] = prior(place, says.length, t) * says[place][t];
      sum += letter[t];
    }
    for (int t = 0; t < LETTERS; t++) {
      letter[t] /= sum;
    }
    return letter;
  }

  /** The forms that say most for the letters read, the likeliest first. */
  static List<String> fitting(double[][] says, Map<String, Double> forms) {
    Map<String, Double> fits = new HashMap<>();
    forms.forEach((form, share) -> fits.put(form, share * fit(says, form)));
    List<String> fitting = new ArrayList<>(forms.keySet());
    fitting.removeIf(form -> fits.getOrDefault(form, 0.0) <= 0);
    fitting.sort((a, b) -> Double.compare(fits.getOrDefault(b, 0.0), fits.getOrDefault(a, 0.0)));
    return fitting;
  }

  private static double[] givenInitials() {
    double[] shares = new double[LETTERS];
    double sum = 0;
    for (Map.Entry<String, Double> each : GivenNames.known().shares().entrySet()) {
      int at = each.getKey().isEmpty() ? -1 : each.getKey().charAt(0) - 'a';
      if (at >= 0 && at < LETTERS) {
        shares[at] += each.getValue();
        sum += each.getValue();
      }
    }
    for (int t = 0; t < LETTERS; t++) {
      shares[t] = 0.9 * shares[t] / sum + 0.1 / LETTERS;
    }
    return shares;
  }
}
