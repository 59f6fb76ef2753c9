package rakelight.inscription;

/** How a letter is shaped or set, where that isn't the usual way. */
public enum LetterForm {
  SUPERIOR,
  SUBSCRIPT,
  TALL,
  SMALL,
  REVERSED,
  LINE_ABOVE,
  /** Joined to the letter that follows. */
  LIGATURE
}
