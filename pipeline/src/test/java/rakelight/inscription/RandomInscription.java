package rakelight.inscription;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;

/** Readings of every kind, also those no stone ever bore. */
public final class RandomInscription {
  private static final List<String> LETTERS =
      List.of(
          "A", "B", "c", "o", "r", "v", "é", "Æ", "ſ", "þ", "1", "8", "3", "0", ".", ",", "-", "–",
          "—", "/", "|", "\\", "[", "]", "(", ")", "{", "}", "<", ">", "?", "!", "+", "^", "#", "=",
          "&", "'", "’", "`", "´", "«", "»", "⸢", "⟨", "〚", "…", "%", "±", "한", "𝔄", "ñ", "≮", "l",
          "i", "n", "e", "s", "m", "a", "t");

  private final Random random;
  private int nextId = 1;

  private RandomInscription(Random random) {
    this.random = random;
  }

  public static Inscription next(Random random) {
    return new RandomInscription(random).next();
  }

  private Inscription next() {
    List<Sign> signs = new ArrayList<>();
    int lines = 1 + random.nextInt(3);
    for (int line = 0; line < lines; line++) {
      add(signs, new Break(id(), line > 0 && random.nextInt(3) == 0));
      int length = 1 + random.nextInt(10);
      for (int i = 0; i < length; i++) {
        add(signs, ink());
        if (i < length - 1 && random.nextInt(4) == 0) {
          add(signs, new Space(id()));
        }
      }
    }
    Inscription inscription = valid(signs, List.of());
    for (int i = random.nextInt(5); i > 0; i--) {
      inscription = withSpan(inscription);
    }
    return inscription;
  }

  /** Gaps side by side that are one, and ligatures with nothing after them, are put right. */
  private static Inscription valid(List<Sign> signs, List<Span> spans) {
    List<Sign> mended = new ArrayList<>(signs);
    for (int i = 0; i < mended.size(); i++) {
      boolean letterFollows = i + 1 < mended.size() && mended.get(i + 1) instanceof Letter;
      if (mended.get(i) instanceof Letter letter
          && letter.forms().contains(LetterForm.LIGATURE)
          && !letterFollows) {
        mended.set(i, Letter.clear(letter.id(), letter.text()));
      }
      if (mended.get(i) instanceof Gap gap
          && i > 0
          && mended.get(i - 1) instanceof Gap before
          && Inscription.areOne(before, gap)) {
        mended.set(i, Letter.clear(gap.id(), "x"));
      }
    }
    return new Inscription(mended, spans);
  }

  private Inscription withSpan(Inscription inscription) {
    List<Sign> signs = new ArrayList<>(inscription.signs());
    int first = random.nextInt(signs.size());
    int last = Math.min(signs.size() - 1, first + random.nextInt(6));
    Span.Kind kind = Span.Kind.values()[random.nextInt(Span.Kind.values().length)];
    if (kind == Span.Kind.NOTE) {
      last = first;
    }
    String text = "";
    if (kind == Span.Kind.NUMBER) {
      text = Integer.toString(random.nextInt(2000));
    } else if (kind.hasText() || (kind == Span.Kind.CORRECTION && random.nextBoolean())) {
      text = List.of("!", "as meant", "a\\b)", "x⸣y", "= (so)").get(random.nextInt(5));
    }
    try {
      Span span = new Span(kind, signs.get(first).id(), signs.get(last).id(), text);
      if (span.isUncut()) {
        for (int i = first; i <= last; i++) {
          if (signs.get(i) instanceof Letter letter) {
            signs.set(i, Letter.of(letter.id(), letter.text(), Standing.SUPPLIED));
          }
        }
      }
      List<Span> spans = new ArrayList<>(inscription.spans());
      spans.add(random.nextInt(spans.size() + 1), span);
      return new Inscription(signs, spans);
    } catch (IllegalArgumentException e) {
      return inscription;
    }
  }

  private void add(List<Sign> signs, Sign sign) {
    signs.add(sign);
  }

  private SignId id() {
    return new SignId(nextId++);
  }

  private Sign ink() {
    return random.nextInt(4) == 0 ? gap() : letter();
  }

  private Gap gap() {
    Gap.Reason reason = any(Gap.Reason.values());
    boolean mayDoubt = reason == Gap.Reason.LOST || reason == Gap.Reason.BLANK;
    boolean mayErase = reason == Gap.Reason.LOST || reason == Gap.Reason.ILLEGIBLE;
    int count = 1 + random.nextInt(12);
    Extent extent =
        switch (random.nextInt(4)) {
          case 0 -> new Extent.About(count);
          case 1 -> new Extent.Range(random.nextInt(count), count);
          case 2 -> new Extent.Unknown();
          default -> new Extent.Exact(count);
        };
    return new Gap(
        id(),
        reason,
        extent,
        random.nextInt(4) == 0 ? Gap.Unit.LINES : Gap.Unit.LETTERS,
        mayErase && random.nextInt(4) == 0,
        mayDoubt && random.nextInt(4) == 0);
  }

  private Letter letter() {
    if (random.nextBoolean()) {
      return Letter.clear(id(), text());
    }
    Standing standing = any(Standing.values());
    boolean seen = standing == Standing.CLEAR || standing == Standing.UNCLEAR;
    Set<LetterForm> forms =
        random.nextInt(3) == 0
            ? EnumSet.of(any(LetterForm.values()), any(LetterForm.values()))
            : Set.of();
    boolean mayStayOpen =
        (standing == Standing.UNCLEAR || standing == Standing.SUPPLIED)
            && !forms.contains(LetterForm.LIGATURE)
            && !forms.contains(LetterForm.LINE_ABOVE);
    List<Candidate> candidates = mayStayOpen && random.nextBoolean() ? candidates() : List.of();
    return new Letter(
        id(),
        candidates.isEmpty() ? text() : candidates.get(0).text(),
        standing,
        standing == Standing.SUPPLIED && random.nextBoolean(),
        random.nextInt(5) == 0,
        seen && random.nextInt(5) == 0,
        forms,
        candidates);
  }

  private List<Candidate> candidates() {
    Set<String> texts =
        random
            .ints(2 + random.nextInt(2), 0, LETTERS.size())
            .mapToObj(LETTERS::get)
            .collect(Collectors.toCollection(java.util.LinkedHashSet::new));
    if (texts.size() < 2) {
      texts = Set.of("3", "8");
    }
    List<String> list = List.copyOf(texts);
    if (list.size() == 2 && random.nextBoolean()) {
      int percent = 51 + random.nextInt(48);
      return List.of(
          new Candidate(list.get(0), percent), new Candidate(list.get(1), 100 - percent));
    }
    return Candidate.equally(list);
  }

  private String text() {
    return any(LETTERS.toArray(new String[0]));
  }

  private <T> T any(T[] values) {
    return values[random.nextInt(values.length)];
  }
}
