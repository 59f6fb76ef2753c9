package rakelight.inscription;

/**
 * How a letter is known. Letters nobody can name are {@link Gap}s: illegible, lost, blank. Erasure
 * is a mark of its own, since an erased letter may still be clear.
 */
public enum Standing {
  /** Seen, and it can only be this letter. */
  CLEAR,
  /** Seen, but by itself it could be another letter. */
  UNCLEAR,
  /** Not seen; worked out. A span says if it was never cut: an expansion, or left out. */
  SUPPLIED,
  /** Gone today; an earlier witness has it. */
  SEEN_EARLIER
}
