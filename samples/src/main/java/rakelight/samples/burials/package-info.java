/**
 * Invented burials in any number, worn by rule, and people who look for them: a ground on which a
 * search can be judged.
 *
 * <p>Out: words as cut, what time and a reader left of each letter, who the persons are, and what
 * somebody types who looks for one of them. The same for a seed.
 *
 * <p>The rules were set down apart from the search and know nothing of it. Names are put together
 * from parts; nobody here ever lived.
 */
@NullMarked
package rakelight.samples.burials;

import org.jspecify.annotations.NullMarked;
