/** Scoring against truth, and benchmarks. */
@NullMarked
package rakelight.measure;

import org.jspecify.annotations.NullMarked;
