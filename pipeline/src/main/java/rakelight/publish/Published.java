package rakelight.publish;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import rakelight.inscription.Break;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.LetterForm;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.inscription.Space;
import rakelight.inscription.Span;

/**
 * A reading without the letters that may not be published: each run of them on a line is one gap of
 * unknown length. Whole words go, so that no letter of a name stays behind, and with them whatever
 * is said of them.
 *
 * @param inscription what may be published
 * @param withheld why, in words, for each gap that stands for something withheld; these aren't gaps
 *     of the stone
 */
public record Published(Inscription inscription, Map<SignId, String> withheld) {
  public Published {
    withheld = Map.copyOf(withheld);
  }

  /**
   * The reading without some signs.
   *
   * @param reasons for each sign withheld, why, in words
   */
  public static Published of(Inscription inscription, Map<SignId, ? extends Set<String>> reasons) {
    Map<SignId, Set<String>> gone = new HashMap<>();
    inscription.signs().stream()
        .map(Sign::id)
        .filter(reasons::containsKey)
        .forEach(id -> gone.put(id, new TreeSet<>(reasons.get(id))));
    if (gone.isEmpty()) {
      return new Published(inscription, Map.of());
    }
    for (int before = 0; before < gone.size(); ) {
      before = gone.size();
      wholeWords(inscription, gone);
      wholeExpansions(inscription, gone);
    }
    List<Sign> signs = new ArrayList<>();
    Map<SignId, Set<String>> gaps = new LinkedHashMap<>();
    Set<String> ofRun = new TreeSet<>();
    boolean inRun = false;
    List<Sign> all = inscription.signs();
    for (int i = 0; i < all.size(); i++) {
      Sign sign = all.get(i);
      boolean runsOn = sign instanceof Space && inRun && gone.containsKey(all.get(i + 1).id());
      Set<String> why = gone.getOrDefault(sign.id(), Set.of());
      if (gone.containsKey(sign.id())) {
        if (!inRun) {
          signs.add(standIn(sign.id()));
          ofRun = new TreeSet<>();
          gaps.put(sign.id(), ofRun);
        }
        ofRun.addAll(why);
        inRun = true;
      } else if (!runsOn) {
        signs.add(sign);
        inRun = false;
      }
    }
    List<Span> spans =
        inscription.spans().stream()
            .filter(span -> covered(inscription, span).stream().noneMatch(gone::containsKey))
            .toList();
    Map<SignId, String> words = new HashMap<>();
    gaps.forEach((gap, why) -> words.put(gap, String.join("; ", why)));
    return new Published(new Inscription(untied(signs), spans), words);
  }

  /** Lines, so that it never runs together with a gap of the stone beside it. */
  private static Gap standIn(SignId id) {
    return new Gap(id, Gap.Reason.OMITTED, new Extent.Unknown(), Gap.Unit.LINES, false, false);
  }

  private static boolean isInk(Sign sign) {
    return sign instanceof Letter || sign instanceof Gap;
  }

  private static void wholeWords(Inscription inscription, Map<SignId, Set<String>> gone) {
    List<SignId> word = new ArrayList<>();
    for (Sign sign : inscription.signs()) {
      if (isInk(sign)) {
        word.add(sign.id());
      } else if (!(sign instanceof Break line && line.joined())) {
        goTogether(word, gone);
        word.clear();
      }
    }
    goTogether(word, gone);
  }

  /** Letters never cut are what a span says they are, and go with it. */
  private static void wholeExpansions(Inscription inscription, Map<SignId, Set<String>> gone) {
    inscription.spans().stream()
        .filter(Span::isUncut)
        .forEach(span -> goTogether(covered(inscription, span), gone));
  }

  /** If one of them goes, all go, and for the same reasons. */
  private static void goTogether(List<SignId> signs, Map<SignId, Set<String>> gone) {
    Set<String> why = new TreeSet<>();
    signs.forEach(sign -> why.addAll(gone.getOrDefault(sign, Set.of())));
    if (!why.isEmpty()) {
      signs.forEach(sign -> gone.put(sign, why));
    }
  }

  private static List<SignId> covered(Inscription inscription, Span span) {
    return inscription
        .signs()
        .subList(inscription.position(span.first()), inscription.position(span.last()) + 1)
        .stream()
        .filter(Published::isInk)
        .map(Sign::id)
        .toList();
  }

  /** A letter joined to one that went is joined to nothing. */
  private static List<Sign> untied(List<Sign> signs) {
    List<Sign> untied = new ArrayList<>(signs);
    for (int i = 0; i < signs.size(); i++) {
      boolean letterFollows = i + 1 < signs.size() && signs.get(i + 1) instanceof Letter;
      if (signs.get(i) instanceof Letter letter
          && letter.forms().contains(LetterForm.LIGATURE)
          && !letterFollows) {
        Set<LetterForm> forms = EnumSet.copyOf(letter.forms());
        forms.remove(LetterForm.LIGATURE);
        untied.set(
            i,
            new Letter(
                letter.id(),
                letter.text(),
                letter.standing(),
                letter.doubtful(),
                letter.erased(),
                letter.damaged(),
                forms,
                letter.candidates()));
      }
    }
    return untied;
  }
}
