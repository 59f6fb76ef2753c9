package rakelight.publish;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
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
 * A reading without the names that may not be published: each run of their letters on a line is one
 * gap of unknown length. Whole words go, so that no letter of a name stays behind, and with them
 * whatever is said of them.
 *
 * @param inscription what may be published
 * @param withheld the gaps that stand for names; they aren't gaps of the stone
 */
public record Published(Inscription inscription, Set<SignId> withheld) {
  public Published {
    withheld = Set.copyOf(withheld);
  }

  /** The reading without the letters that a rule withholds. */
  public static Published of(Inscription inscription, Predicate<SignId> isWithheld) {
    Set<SignId> gone = new HashSet<>();
    inscription.signs().stream().map(Sign::id).filter(isWithheld).forEach(gone::add);
    if (gone.isEmpty()) {
      return new Published(inscription, Set.of());
    }
    for (int before = 0; before < gone.size(); ) {
      before = gone.size();
      wholeWords(inscription, gone);
      wholeExpansions(inscription, gone);
    }
    List<Sign> signs = new ArrayList<>();
    Set<SignId> gaps = new HashSet<>();
    boolean inRun = false;
    List<Sign> all = inscription.signs();
    for (int i = 0; i < all.size(); i++) {
      Sign sign = all.get(i);
      boolean runsOn = sign instanceof Space && inRun && gone.contains(all.get(i + 1).id());
      if (gone.contains(sign.id())) {
        if (!inRun) {
          signs.add(standIn(sign.id()));
          gaps.add(sign.id());
        }
        inRun = true;
      } else if (!runsOn) {
        signs.add(sign);
        inRun = false;
      }
    }
    List<Span> spans =
        inscription.spans().stream()
            .filter(span -> covered(inscription, span).stream().noneMatch(gone::contains))
            .toList();
    return new Published(new Inscription(untied(signs), spans), gaps);
  }

  /** Lines, so that it never runs together with a gap of the stone beside it. */
  private static Gap standIn(SignId id) {
    return new Gap(id, Gap.Reason.OMITTED, new Extent.Unknown(), Gap.Unit.LINES, false, false);
  }

  private static boolean isInk(Sign sign) {
    return sign instanceof Letter || sign instanceof Gap;
  }

  private static void wholeWords(Inscription inscription, Set<SignId> gone) {
    List<Sign> word = new ArrayList<>();
    for (Sign sign : inscription.signs()) {
      if (isInk(sign)) {
        word.add(sign);
      } else if (!(sign instanceof Break line && line.joined())) {
        addIfTouched(word, gone);
        word.clear();
      }
    }
    addIfTouched(word, gone);
  }

  private static void addIfTouched(List<Sign> word, Set<SignId> gone) {
    if (word.stream().map(Sign::id).anyMatch(gone::contains)) {
      word.stream().map(Sign::id).forEach(gone::add);
    }
  }

  /** Letters never cut are what a span says they are, and go with it. */
  private static void wholeExpansions(Inscription inscription, Set<SignId> gone) {
    for (Span span : inscription.spans()) {
      List<SignId> covered = covered(inscription, span);
      if (span.isUncut() && covered.stream().anyMatch(gone::contains)) {
        gone.addAll(covered);
      }
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
