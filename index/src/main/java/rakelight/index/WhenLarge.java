package rakelight.index;

import java.io.IOException;
import java.util.Optional;
import org.apache.lucene.index.LeafReader;

/** What is read of a segment only once a search has to do with many of its documents. */
final class WhenLarge {
  private final LeafReader reader;
  private final TermTable names;
  private Optional<TermsOfDocuments> terms = Optional.empty();
  private Optional<YearsOfDocuments> years = Optional.empty();

  WhenLarge(LeafReader reader, TermTable names) {
    this.reader = reader;
    this.names = names;
  }

  /** The terms of names in each document. */
  synchronized TermsOfDocuments terms() {
    if (terms.isEmpty()) {
      terms = Optional.of(new TermsOfDocuments(names, reader.maxDoc()));
    }
    return terms.get();
  }

  synchronized YearsOfDocuments years() throws IOException {
    if (years.isEmpty()) {
      years = Optional.of(new YearsOfDocuments(reader));
    }
    return years.get();
  }
}
