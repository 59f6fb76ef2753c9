/**
 * Invented family plots in any number: who lies where about a monument, which footstones were set,
 * what time left of their letters and how well their places are known.
 *
 * <p>The rules follow how a plot fills, death by death, and were set down apart from whatever is to
 * be judged by them; they know nothing of it. All shares and distances are choices, no source.
 * Names are put together from parts; nobody here ever lived.
 */
@NullMarked
package rakelight.samples.plots;

import org.jspecify.annotations.NullMarked;
