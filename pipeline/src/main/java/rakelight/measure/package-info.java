/**
 * Scoring against truth.
 *
 * <p>In: proposals or readings, and what the stones truly say. Out: error rates with the intervals
 * they lie in, calibration, confusions, agreement between readers; numbers for
 * docs/measurements.md, each with the command that makes it.
 *
 * <p>Never tune anything on what is scored here.
 */
@NullMarked
package rakelight.measure;

import org.jspecify.annotations.NullMarked;
