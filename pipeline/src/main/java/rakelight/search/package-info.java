/**
 * From the ledger to the index, and back from hits to readings.
 *
 * <p>In: confirmed readings, links and the journal's counter. Out: {@link
 * rakelight.search.GroundSearch#search answers}, each with the reading as it stands and why it
 * answers. The words and weights are told in docs/search.md.
 *
 * <p>Never put into the index what nobody confirmed, and never drop a stone for its doubt: doubt
 * goes into the index as patterns and weights.
 */
@NullMarked
package rakelight.search;

import org.jspecify.annotations.NullMarked;
