package rakelight.work;

import rakelight.archive.Archive;

/** Readers whose passphrases take no time: there is nothing to guess in a test. */
public final class QuickReaders {
  private static final int ITERATIONS = 1_000;

  private QuickReaders() {}

  public static ReaderStore of(Archive archive) {
    return new ReaderStore(archive, ITERATIONS);
  }
}
