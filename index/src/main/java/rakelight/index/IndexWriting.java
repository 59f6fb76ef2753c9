package rakelight.index;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import org.apache.lucene.analysis.core.KeywordAnalyzer;
import org.apache.lucene.index.IndexWriter;
import org.apache.lucene.index.IndexWriterConfig;
import org.apache.lucene.index.Term;
import org.apache.lucene.store.FSDirectory;

/**
 * The index open for writing, by one process at a time: whoever holds the lock keeps it up to date,
 * others leave that to him. Nothing is seen by searches before {@link #commit}; closing without it
 * leaves the index as it was.
 */
public final class IndexWriting implements AutoCloseable {
  private final Path folder;
  private final FileChannel lockFile;
  private final Path generation;
  private final boolean anew;
  private final FSDirectory directory;
  private final IndexWriter writer;
  private boolean committed = false;

  private IndexWriting(
      Path folder,
      FileChannel lockFile,
      Path generation,
      boolean anew,
      FSDirectory directory,
      IndexWriter writer) {
    this.folder = folder;
    this.lockFile = lockFile;
    this.generation = generation;
    this.anew = anew;
    this.directory = directory;
    this.writer = writer;
  }

  /**
   * Opens the index to bring it up to date, or an empty one where there is none that can be used.
   *
   * @param anew whether to leave the present one aside and begin from nothing
   * @return empty while another process writes
   * @throws IndexException if the folder can't be written
   */
  public static Optional<IndexWriting> open(Path folder, boolean anew) {
    try {
      Files.createDirectories(folder);
      FileChannel lockFile =
          FileChannel.open(
              folder.resolve("lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      FileLock lock;
      try {
        lock = lockFile.tryLock();
      } catch (OverlappingFileLockException e) {
        lock = null;
      }
      if (lock == null) {
        lockFile.close();
        return Optional.empty();
      }
      boolean fresh = anew || !isUsable(folder);
      Path generation =
          fresh ? IndexFolder.next(folder) : IndexFolder.current(folder).orElseThrow();
      FSDirectory directory = FSDirectory.open(generation);
      IndexWriterConfig config =
          new IndexWriterConfig(new KeywordAnalyzer())
              .setOpenMode(
                  fresh ? IndexWriterConfig.OpenMode.CREATE : IndexWriterConfig.OpenMode.APPEND)
              .setCommitOnClose(false);
      return Optional.of(
          new IndexWriting(
              folder, lockFile, generation, fresh, directory, new IndexWriter(directory, config)));
    } catch (IOException e) {
      throw new IndexException(
          folder + ": the index can't be written (" + e + "). Make the folder writable.", e);
    }
  }

  /** Removes the folder of an index with all that is in it, if it is there. */
  public static void remove(Path folder) {
    try {
      if (Files.isDirectory(folder)) {
        IndexFolder.remove(folder);
      }
    } catch (IOException e) {
      throw new IndexException(folder + ": can't be removed (" + e + "). Delete it.", e);
    }
  }

  private static boolean isUsable(Path folder) {
    try (SearchIndex index = SearchIndex.open(folder)) {
      return index.counter() >= 0;
    } catch (IndexException e) {
      return false;
    }
  }

  /** The counter of the journal up to which the index has followed; 0 for one begun anew. */
  public long counter() {
    if (anew || writer.getLiveCommitData() == null) {
      return 0;
    }
    for (var entry : writer.getLiveCommitData()) {
      if (entry.getKey().equals("counter")) {
        return Long.parseLong(entry.getValue());
      }
    }
    return 0;
  }

  /** How many entries it holds with what was put in and taken out. */
  public int size() {
    return writer.getDocStats().numDocs;
  }

  /** Puts an entry in, in place of an earlier one of the same marker. */
  public void put(Entry entry) {
    try {
      writer.updateDocument(
          new Term(Documents.ID, Documents.id(entry.id())), Documents.document(entry));
    } catch (IOException e) {
      throw SearchIndex.explain(folder, e);
    }
  }

  /** Takes the entry of a marker out, if there is one. */
  public void remove(String id) {
    try {
      writer.deleteDocuments(new Term(Documents.ID, Documents.id(id)));
    } catch (IOException e) {
      throw SearchIndex.explain(folder, e);
    }
  }

  /**
   * Makes everything put in and taken out seen, and notes how far the journal has been followed.
   */
  public void commit(long counter) {
    try {
      if (anew && !committed) {
        // In one piece it is smaller, and each term is met once.
        writer.forceMerge(1);
      }
      writer.setLiveCommitData(IndexFolder.state(counter).entrySet());
      writer.commit();
      if (anew && !committed) {
        IndexFolder.setCurrent(folder, generation);
      }
      committed = true;
    } catch (IOException e) {
      throw SearchIndex.explain(folder, e);
    }
  }

  @Override
  public void close() {
    try (lockFile) {
      if (committed) {
        writer.close();
      } else {
        writer.rollback();
      }
      directory.close();
      if (anew && !committed) {
        IndexFolder.remove(generation);
      }
    } catch (IOException e) {
      throw SearchIndex.explain(folder, e);
    }
  }
}
