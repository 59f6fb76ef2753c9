package rakelight.index;

/**
 * Which terms of a table stand in each document, in memory: where a document is likely by one word,
 * its own terms are looked at for the others. Never changes.
 */
final class TermsOfDocuments {
  private final int[] starts;
  private final int[] numbers;

  /**
   * @param documents of the segment
   */
  TermsOfDocuments(TermTable table, int documents) {
    starts = new int[documents + 1];
    for (int term = 0; term < table.size(); term++) {
      table.docs(term, doc -> starts[doc + 1]++);
    }
    for (int doc = 0; doc < documents; doc++) {
      starts[doc + 1] += starts[doc];
    }
    numbers = new int[starts[documents]];
    int[] filled = starts.clone();
    for (int term = 0; term < table.size(); term++) {
      int number = term;
      table.docs(term, doc -> numbers[filled[doc]++] = number);
    }
  }

  int first(int doc) {
    return starts[doc];
  }

  /** One after the last. */
  int end(int doc) {
    return starts[doc + 1];
  }

  /** The number of a term in its table. */
  int term(int at) {
    return numbers[at];
  }
}
