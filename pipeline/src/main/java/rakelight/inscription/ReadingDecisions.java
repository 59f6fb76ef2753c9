package rakelight.inscription;

import java.util.List;
import java.util.Optional;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;
import rakelight.archive.Sha256;

/**
 * What the decisions about readings hold; a draft's payload, version 1, is a whole {@link Draft}.
 * Versions of payloads are read for ever.
 */
final class ReadingDecisions {
  /** Subject: the face. Rests on the face's decision. */
  static final String SIGNED = "reading.signed";

  /** Subject: the face. A change to a reader's draft. Rests on the face's and on the one before. */
  static final String DRAFTED = "reading.drafted";

  /** Subject: the archive. How many readers must read each face. */
  static final String REQUIRED = "ground.readings-required";

  /** Subject: the face. Its truth is known, so that it can measure readers. */
  static final String KNOWN = "face.known";

  /**
   * Subject: the face. Some of its letters are known and measure whoever reads it; the rest of it
   * isn't.
   */
  static final String KNOWN_LETTERS = "face.known-letters";

  /** Subject: the face. A file made elsewhere as it came in. Rests on the face's decision. */
  static final String IMPORTED = "reading.imported";

  /** Subject: the face. All that was signed or drafted of it is withdrawn; see the archive. */
  static final String WITHDRAWN = "reading.withdrawn";

  private ReadingDecisions() {}

  /**
   * Version 2; version 1 settles nothing.
   *
   * @param settles for a third reader's, the two readings it settles
   * @param text the lines in Leiden signs
   * @param signIds the id of each sign, in reading order, line beginnings included
   */
  record Signed(
      ReadingId reading,
      Basis basis,
      Optional<ProposalId> proposal,
      Optional<List<ReadingId>> settles,
      List<String> text,
      List<Integer> signIds) {}

  /**
   * Versions 2 and 3: what changed, not the whole draft. From version 3 on a letter may be marked
   * as decided with its line.
   *
   * @param proposal the one the draft began from
   * @param from index of the first line that changed, from 0
   * @param removed how many lines went there
   * @param lines what came in their place
   */
  record Drafted(Optional<ProposalId> proposal, int from, int removed, List<Draft.Line> lines) {}

  /** Version 1. */
  record Required(int readers) {}

  /**
   * Version 1, of both kinds.
   *
   * @param text the lines in Leiden signs
   */
  record Known(List<String> text) {}

  /**
   * Version 1.
   *
   * @param file its name
   * @param content all of it, so that what a reading has no place for isn't lost
   * @param notCarried what that is, by line
   */
  record Imported(String file, Sha256 sha256, String content, List<String> notCarried) {}
}
