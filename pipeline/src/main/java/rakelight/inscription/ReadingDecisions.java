package rakelight.inscription;

import java.util.List;
import java.util.Optional;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;

/** What the decisions about readings hold. Versions of payloads are read for ever. */
final class ReadingDecisions {
  /** Subject: the face. Rests on the face's decision. */
  static final String SIGNED = "reading.signed";

  /** Subject: the face. One line of a reader's draft. Rests on the face's decision. */
  static final String LINE_DRAFTED = "line.drafted";

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
   * @param line from 1
   * @param text in Leiden signs; empty when the reader takes the line back
   */
  record LineDrafted(int line, String text, Optional<ProposalId> proposal) {}
}
