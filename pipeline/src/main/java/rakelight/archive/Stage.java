package rakelight.archive;

/**
 * A pure function of the pipeline: the same input gives the same result, wherever it runs, in any
 * order, twice. It sees no ledger, no clock, no random number and no file but what {@link Given}
 * hands out, so it runs without an archive, too. What an original is called, on which face it is
 * and when the work is done are put on outside.
 *
 * @param <I> a closed record that {@link Json} can write and read: digests of originals, keys of
 *     other derivations, and everything else that changes the result; views are named by the
 *     digests of their originals
 * @param <O> what it makes; neither ids nor times are in it
 */
public interface Stage<I extends Record, O> {
  /** Its name, the version of its code, and what goes in and comes out. */
  StageKind<I, O> kind();

  /**
   * Makes the result.
   *
   * @param given lends what the input names
   * @throws BadInputException if the input can't be worked on; the same input never can
   */
  O run(I input, Given given) throws BadInputException;
}
