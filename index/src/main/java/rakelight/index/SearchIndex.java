package rakelight.index;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.apache.lucene.index.BinaryDocValues;
import org.apache.lucene.index.CorruptIndexException;
import org.apache.lucene.index.DirectoryReader;
import org.apache.lucene.index.DocValues;
import org.apache.lucene.index.IndexFormatTooNewException;
import org.apache.lucene.index.IndexFormatTooOldException;
import org.apache.lucene.index.IndexNotFoundException;
import org.apache.lucene.index.LeafReaderContext;
import org.apache.lucene.search.DocIdSetIterator;
import org.apache.lucene.search.IndexSearcher;
import org.apache.lucene.search.ScoreMode;
import org.apache.lucene.search.Scorer;
import org.apache.lucene.search.Weight;
import org.apache.lucene.store.FSDirectory;
import org.apache.lucene.util.BytesRef;

/**
 * The index open for searching, as it was when opened.
 *
 * <p>Lucene finds the entries that may answer; {@link Matcher} then looks at each. So the time of a
 * search grows with the number of entries that may answer: a word that stands on every marker costs
 * a look at every marker. Made for grounds and counties, not for continents.
 */
public final class SearchIndex implements AutoCloseable {
  /** The form of documents and entries; an index of another form is made anew. */
  static final int FORMAT = 2;

  private final Path folder;
  private final FSDirectory directory;
  private final DirectoryReader reader;

  private SearchIndex(Path folder, FSDirectory directory, DirectoryReader reader) {
    this.folder = folder;
    this.directory = directory;
    this.reader = reader;
  }

  /**
   * Opens the current index of a folder and verifies the checksums of its files.
   *
   * @throws IndexException if there is none, it is damaged, or another version of the program made
   *     it
   */
  public static SearchIndex open(Path folder) {
    Path generation = IndexFolder.current(folder).orElseThrow(() -> IndexFolder.missing(folder));
    try {
      FSDirectory directory = FSDirectory.open(generation);
      DirectoryReader reader = DirectoryReader.open(directory);
      SearchIndex index = new SearchIndex(folder, directory, reader);
      if (!String.valueOf(FORMAT)
          .equals(reader.getIndexCommit().getUserData().get(IndexFolder.FORMAT))) {
        index.close();
        throw new IndexException(
            folder + ": made by another version of this program. Run `index` to make it anew.");
      }
      for (LeafReaderContext leaf : reader.leaves()) {
        leaf.reader().checkIntegrity();
      }
      return index;
    } catch (IOException | RuntimeException e) {
      throw explain(folder, e);
    }
  }

  /** The counter of the journal up to which the index has followed. */
  public long counter() {
    try {
      return IndexFolder.counter(reader.getIndexCommit().getUserData());
    } catch (IOException e) {
      throw explain(folder, e);
    }
  }

  /** How many entries it holds. */
  public int size() {
    return reader.numDocs();
  }

  /**
   * The entries that answer, the best first; of equal ones, by marker, face and id.
   *
   * @throws QueryException if the query can't be understood
   * @throws IndexException if the index is damaged
   */
  public List<Hit> search(String text) throws QueryException {
    Query query = Query.parse(text);
    Matcher matcher = new Matcher(query);
    List<Hit> hits = new ArrayList<>();
    try {
      IndexSearcher searcher = new IndexSearcher(reader);
      Weight weight =
          searcher.createWeight(
              searcher.rewrite(Documents.candidates(query, reader)),
              ScoreMode.COMPLETE_NO_SCORES,
              1);
      for (LeafReaderContext leaf : reader.leaves()) {
        Scorer scorer = weight.scorer(leaf);
        if (scorer == null) {
          continue;
        }
        BinaryDocValues entries = DocValues.getBinary(leaf.reader(), Documents.ENTRY);
        DocIdSetIterator each = scorer.iterator();
        for (int doc = each.nextDoc(); doc != DocIdSetIterator.NO_MORE_DOCS; doc = each.nextDoc()) {
          boolean lives =
              leaf.reader().getLiveDocs() == null || leaf.reader().getLiveDocs().get(doc);
          if (lives && entries.advanceExact(doc)) {
            BytesRef bytes = entries.binaryValue();
            matcher
                .match(EntryCodec.decode(bytes.bytes, bytes.offset, bytes.length))
                .ifPresent(hits::add);
          }
        }
      }
    } catch (IOException | RuntimeException e) {
      throw explain(folder, e);
    }
    return ranked(hits);
  }

  static List<Hit> ranked(Collection<Hit> hits) {
    return hits.stream()
        .sorted(
            Comparator.comparingDouble((Hit hit) -> -hit.score())
                .thenComparing(hit -> byValue(hit.entry().marker()))
                .thenComparing(hit -> hit.entry().marker())
                .thenComparing(hit -> hit.entry().face())
                .thenComparing(hit -> hit.entry().id()))
        .toList();
  }

  /** Pads the figures of a number, so that 9 comes before 10. */
  private static String byValue(String number) {
    StringBuilder padded = new StringBuilder();
    java.util.regex.Matcher parts =
        java.util.regex.Pattern.compile("[0-9]+|[^0-9]+").matcher(number);
    while (parts.find()) {
      String part = parts.group();
      boolean figures = Character.isDigit(part.charAt(0));
      padded.append(figures ? "0".repeat(Math.max(0, 12 - part.length())) : "").append(part);
    }
    return padded.toString();
  }

  @Override
  public void close() {
    try {
      reader.close();
      directory.close();
    } catch (IOException e) {
      throw explain(folder, e);
    }
  }

  /** Damage is called damage, whatever exception it shows itself by. */
  static IndexException explain(Path folder, Exception e) {
    if (e instanceof IndexException known) {
      return known;
    }
    Optional<Throwable> cause = Optional.empty();
    Set<Throwable> seen = new HashSet<>();
    for (Throwable t = e; t != null && seen.add(t); t = t.getCause()) {
      if (t instanceof CorruptIndexException
          || t instanceof IndexFormatTooNewException
          || t instanceof IndexFormatTooOldException
          || t instanceof IndexNotFoundException
          || t instanceof NoSuchFileException
          || t instanceof java.io.EOFException) {
        cause = Optional.of(t);
      }
    }
    boolean onDisk = Files.isDirectory(folder);
    String detail = String.valueOf(cause.orElse(e).getMessage()).lines().findFirst().orElse("");
    if (cause.isPresent() || (onDisk && e instanceof IOException)) {
      return new IndexException(
          folder
              + ": the index is damaged ("
              + detail
              + "). Run `index` to make it anew; nothing is lost.",
          e);
    }
    throw e instanceof RuntimeException bug ? bug : new IndexException(folder + ": " + detail, e);
  }
}
