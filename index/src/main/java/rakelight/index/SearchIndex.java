package rakelight.index;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.lucene.index.BinaryDocValues;
import org.apache.lucene.index.CorruptIndexException;
import org.apache.lucene.index.DirectoryReader;
import org.apache.lucene.index.DocValues;
import org.apache.lucene.index.IndexFormatTooNewException;
import org.apache.lucene.index.IndexFormatTooOldException;
import org.apache.lucene.index.IndexNotFoundException;
import org.apache.lucene.index.IndexReader;
import org.apache.lucene.index.LeafReader;
import org.apache.lucene.index.LeafReaderContext;
import org.apache.lucene.index.ReaderUtil;
import org.apache.lucene.index.StoredFields;
import org.apache.lucene.store.FSDirectory;
import org.apache.lucene.util.BytesRef;

/**
 * The index held open for searching. Safe for many threads; {@link #refresh} lets it see what was
 * committed since.
 */
public final class SearchIndex implements AutoCloseable {
  /** The form of documents and entries; an index of another form is made anew. */
  static final int FORMAT = 5;

  /** All widenings: what a search does unless it is told otherwise. */
  public static final Set<Widening> EVERY_WIDENING =
      java.util.Collections.unmodifiableSet(EnumSet.allOf(Widening.class));

  /** Which entries stand near the marker of a number, as ids; asked for {@code near:12}. */
  public interface Neighbourhood {
    /**
     * @throws QueryException if there is no such marker, or nobody knows where it stands
     */
    Set<String> near(String marker) throws QueryException;
  }

  /** What is known of one committed state. */
  private record State(
      Path generation,
      FSDirectory directory,
      DirectoryReader reader,
      List<Ranking.Segment> segments,
      Vocabulary names,
      Vocabulary texts) {}

  /** What is read of a segment once; it never changes. */
  private record Read(
      TermTable names,
      TermTable texts,
      WhenLarge whenLarge,
      Vocabulary.Counted countedNames,
      Vocabulary.Counted countedTexts) {
    static Read of(LeafReader reader) throws IOException {
      TermTable names = new TermTable(reader, Documents.NAME);
      TermTable texts = new TermTable(reader, Documents.TEXT);
      return new Read(
          names,
          texts,
          new WhenLarge(reader, names),
          Vocabulary.count(names),
          Vocabulary.count(texts));
    }
  }

  private final Path folder;
  private final Map<Object, Read> read = new HashMap<>();
  private State state;

  private SearchIndex(Path folder) throws IOException {
    this.folder = folder;
    Path generation = IndexFolder.current(folder).orElseThrow(() -> IndexFolder.missing(folder));
    this.state = opened(generation);
  }

  /**
   * Opens the current index of a folder and verifies the checksums of files that it hasn't verified
   * before.
   *
   * @throws IndexException if there is none, it is damaged, or another version of the program made
   *     it
   */
  public static SearchIndex open(Path folder) {
    try {
      return new SearchIndex(folder);
    } catch (IOException | RuntimeException e) {
      throw explain(folder, e);
    }
  }

  private State opened(Path generation) throws IOException {
    FSDirectory directory = FSDirectory.open(generation);
    try {
      return state(generation, directory, DirectoryReader.open(directory));
    } catch (IOException | RuntimeException e) {
      directory.close();
      throw e;
    }
  }

  private State state(Path generation, FSDirectory directory, DirectoryReader reader)
      throws IOException {
    try {
      if (!String.valueOf(FORMAT)
          .equals(reader.getIndexCommit().getUserData().get(IndexFolder.FORMAT))) {
        throw new IndexException(
            folder + ": made by another version of this program. Run `index` to make it anew.");
      }
      CheckedFiles.verify(folder, generation, reader);
      List<Ranking.Segment> segments = new ArrayList<>();
      MetTerms.Lately lately = new MetTerms.Lately();
      List<Vocabulary.Counted> names = new ArrayList<>();
      List<Vocabulary.Counted> texts = new ArrayList<>();
      Set<Object> keys = new HashSet<>();
      for (LeafReaderContext leaf : reader.leaves()) {
        Object key = leaf.reader().getCoreCacheHelper().getKey();
        keys.add(key);
        Read own = read.get(key);
        if (own == null) {
          own = Read.of(leaf.reader());
          read.put(key, own);
        }
        segments.add(new Ranking.Segment(leaf, own.names(), own.texts(), own.whenLarge(), lately));
        names.add(own.countedNames());
        texts.add(own.countedTexts());
      }
      read.keySet().retainAll(keys);
      return new State(
          generation, directory, reader, segments, new Vocabulary(names), new Vocabulary(texts));
    } catch (IOException | RuntimeException e) {
      reader.close();
      throw e;
    }
  }

  /**
   * Sees what was committed since it was opened; costs little where nothing was.
   *
   * @return whether there was anything new
   */
  public synchronized boolean refresh() {
    try {
      Path generation = IndexFolder.current(folder).orElseThrow(() -> IndexFolder.missing(folder));
      State old = state;
      if (generation.equals(old.generation())) {
        DirectoryReader newer = DirectoryReader.openIfChanged(old.reader());
        if (newer == null) {
          return false;
        }
        state = state(generation, old.directory(), newer);
        old.reader().decRef();
      } else {
        state = opened(generation);
        old.reader().decRef();
        old.directory().close();
      }
      return true;
    } catch (IOException | RuntimeException e) {
      throw explain(folder, e);
    }
  }

  /** The state as it is now, kept open until {@link #release}. */
  private synchronized State held() {
    if (!state.reader().tryIncRef()) {
      throw new IndexException(folder + ": the index is closed.");
    }
    return state;
  }

  /** How common words of names are in the state as it is now. */
  synchronized Vocabulary names() {
    return state.names();
  }

  /** The same of other words. */
  synchronized Vocabulary texts() {
    return state.texts();
  }

  private static void release(State held) throws IOException {
    held.reader().decRef();
  }

  /** The counter of the journal up to which the index has followed. */
  public long counter() {
    State held = held();
    try {
      try {
        return IndexFolder.counter(held.reader().getIndexCommit().getUserData());
      } finally {
        release(held);
      }
    } catch (IOException e) {
      throw explain(folder, e);
    }
  }

  /** How many entries it holds. */
  public synchronized int size() {
    return state.reader().numDocs();
  }

  /**
   * The entries that answer, the likeliest first; of equal ones, by marker. Every widening is used;
   * {@code near:} finds nothing.
   *
   * @param limit so many hits at most, 1 or more
   * @throws QueryException if the query can't be understood
   * @throws IndexException if the index is damaged
   */
  public HitList search(String text, int limit) throws QueryException {
    return search(text, limit, EVERY_WIDENING, marker -> Set.of());
  }

  /**
   * The entries that answer, the likeliest first; of equal ones, by marker.
   *
   * @param limit so many hits at most, 1 or more
   * @param widenings what is looked for besides the words themselves
   * @throws QueryException if the query can't be understood
   * @throws IndexException if the index is damaged
   */
  public HitList search(
      String text, int limit, Set<Widening> widenings, Neighbourhood neighbourhood)
      throws QueryException {
    if (limit < 1) {
      throw new IllegalArgumentException("a limit of " + limit + " hits");
    }
    Query query = Query.parse(text);
    Set<String> near = near(query, neighbourhood);
    State held = held();
    try {
      try {
        Asked asked = new Asked(query, held.names(), held.texts(), widenings);
        Ranking.Ranked ranked = new Ranking(held.segments(), asked, near, limit).ranked();
        return found(query, asked, ranked, limit, held.reader());
      } finally {
        release(held);
      }
    } catch (IOException | RuntimeException e) {
      throw explain(folder, e);
    }
  }

  /** As {@link #search}, as a ground is searched that has far more terms; for comparing. */
  HitList searchAsIfLarge(String text, int limit) throws QueryException {
    Query query = Query.parse(text);
    State held = held();
    try {
      try {
        Asked asked = new Asked(query, held.names(), held.texts(), EVERY_WIDENING);
        Ranking ranking = new Ranking(held.segments(), asked, Set.of(), limit, 0);
        return found(query, asked, ranking.ranked(), limit, held.reader());
      } finally {
        release(held);
      }
    } catch (IOException e) {
      throw explain(folder, e);
    }
  }

  /** As {@link #search}, by weighing every entry; slow, for comparing. */
  HitList searchAll(String text, int limit) throws QueryException {
    Query query = Query.parse(text);
    State held = held();
    try {
      try {
        Asked asked = new Asked(query, held.names(), held.texts(), EVERY_WIDENING);
        Ranking.Ranked ranked = new Ranking(held.segments(), asked, Set.of(), limit).ofAll();
        return found(query, asked, ranked, limit, held.reader());
      } finally {
        release(held);
      }
    } catch (IOException e) {
      throw explain(folder, e);
    }
  }

  private static Set<String> near(Query query, Neighbourhood neighbourhood) throws QueryException {
    Set<String> near = new HashSet<>();
    for (Query.Part part : query.parts()) {
      if (part instanceof Query.Near marker) {
        near.addAll(neighbourhood.near(marker.number()));
      }
    }
    return near;
  }

  private static HitList found(
      Query query, Asked asked, Ranking.Ranked ranked, int limit, IndexReader reader)
      throws IOException {
    Explaining explaining = new Explaining(query, asked, ranked.said());
    StoredFields stored = reader.storedFields();
    List<Hit> hits = new ArrayList<>();
    for (Ranking.Candidate each : ranked.best().subList(0, Math.min(limit, ranked.best().size()))) {
      BytesRef bytes = stored.document(each.doc()).getBinaryValue(Documents.ENTRY);
      LeafReaderContext leaf =
          reader.leaves().get(ReaderUtil.subIndex(each.doc(), reader.leaves()));
      BinaryDocValues scored = DocValues.getBinary(leaf.reader(), Documents.SCORED);
      if (!scored.advanceExact(each.doc() - leaf.docBase)) {
        throw new CorruptIndexException("an entry without words", leaf.toString());
      }
      Entry entry = EntryCodec.decode(bytes, scored.binaryValue());
      hits.add(explaining.hit(entry, ranked.probability(each)));
    }
    Map<String, List<String>> widened = new LinkedHashMap<>();
    for (Asked.AskedTerm term : asked.terms()) {
      List<String> forms =
          term.word(true).formsAsked().stream()
              .filter(form -> form.by().isPresent())
              .map(AskedWord.Form::text)
              .toList();
      if (!forms.isEmpty()) {
        widened.put(term.word(true).word(), forms);
      }
    }
    return new HitList(hits, ranked.answering(), ranked.elsewhere(), widened);
  }

  @Override
  public synchronized void close() {
    try {
      state.reader().decRef();
      state.directory().close();
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
