package rakelight.inscription;

import java.util.List;
import java.util.Optional;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;
import rakelight.archive.Sha256;

/**
 * What the decisions about readings hold; a draft's payload, version 1, is a {@link Draft}.
 * Versions of payloads are read for ever.
 */
final class ReadingDecisions {
  /** Subject: the face. Rests on the face's decision. */
  static final String SIGNED = "reading.signed";

  /** Subject: the face. A reader's draft as it is now. Rests on the face's decision. */
  static final String DRAFTED = "reading.drafted";

  /** Subject: the face. A file made elsewhere as it came in. Rests on the face's decision. */
  static final String IMPORTED = "reading.imported";

  private ReadingDecisions() {}

  /**
   * Version 1.
   *
   * @param text the lines in Leiden signs
   * @param signIds the id of each sign, in reading order, line beginnings included
   */
  record Signed(
      ReadingId reading,
      Basis basis,
      Optional<ProposalId> proposal,
      List<String> text,
      List<Integer> signIds) {}

  /**
   * Version 1.
   *
   * @param file its name
   * @param content all of it, so that what a reading has no place for isn't lost
   * @param notCarried what that is, by line
   */
  record Imported(String file, Sha256 sha256, String content, List<String> notCarried) {}
}
