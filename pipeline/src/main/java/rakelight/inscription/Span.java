package rakelight.inscription;

/**
 * Something said of a run of signs, from {@code first} to {@code last}, both a letter or a gap.
 * Spans nest, they never cross.
 *
 * @param text what a correction, regularisation, number or note says; empty for the other kinds
 */
public record Span(Kind kind, SignId first, SignId last, String text) {

  /** What is said of the signs. */
  public enum Kind {
    /** Never cut: what an abbreviation or symbol stands for. Its letters are supplied. */
    EXPANSION,
    /** Cut as an abbreviation; nobody knows of what. */
    UNEXPANDED,
    /** Cut to show that this is an abbreviation, and not part of the full word. */
    ABBREVIATION_MARK,
    /**
     * Cut wrongly; {@code text} is what was meant. With no text the letters are what was meant,
     * supplied, and what was cut isn't recorded.
     */
    CORRECTION,
    /** Cut as was usual then; {@code text} is the spelling of today. */
    REGULARISED,
    /** Cut by mistake, to be left out. */
    SURPLUS,
    /** Left out by the cutter, added by the reader. Its letters are supplied. */
    OMITTED,
    /** Put in by the cutter later, above or beside the line. */
    INSERTED,
    /** Cut over something erased. */
    OVER_ERASURE,
    /** A number; {@code text} is its value in figures. */
    NUMBER,
    /** Clear letters of which nobody knows the sense. */
    NOT_UNDERSTOOD,
    /** A reader's remark on one sign. */
    NOTE;

    public boolean hasText() {
      return this == REGULARISED || this == NUMBER || this == NOTE;
    }
  }

  public Span {
    if (kind.hasText() && text.isBlank()) {
      throw new IllegalArgumentException("a span of kind " + kind + " needs its text");
    }
    if (!kind.hasText() && kind != Kind.CORRECTION && !text.isEmpty()) {
      throw new IllegalArgumentException("a span of kind " + kind + " has no text");
    }
    if (kind == Kind.NUMBER && !text.matches("[0-9]{1,9}")) {
      throw new IllegalArgumentException("the value of a number is one to nine figures");
    }
    if (!text.equals(text.strip()) || text.chars().anyMatch(Character::isISOControl)) {
      throw new IllegalArgumentException("text of a span: no space at its ends, no line end in it");
    }
    if (kind == Kind.NOTE && !first.equals(last)) {
      throw new IllegalArgumentException("a note is on one sign");
    }
  }

  public static Span of(Kind kind, SignId first, SignId last) {
    return new Span(kind, first, last, "");
  }

  /** Whether the letters within aren't on the stone and never were. */
  public boolean isUncut() {
    return kind == Kind.EXPANSION
        || kind == Kind.OMITTED
        || (kind == Kind.CORRECTION && text.isEmpty());
  }
}
