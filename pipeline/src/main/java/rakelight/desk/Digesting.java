package rakelight.desk;

import java.util.concurrent.Semaphore;
import java.util.function.Supplier;

/** Digesting a passphrase takes a third of a second of one core: so many at once and no more. */
final class Digesting {
  private static final int AT_A_TIME = 2;

  private final Semaphore digesting = new Semaphore(AT_A_TIME);

  <T> T of(Supplier<T> work) {
    digesting.acquireUninterruptibly();
    try {
      return work.get();
    } finally {
      digesting.release();
    }
  }
}
