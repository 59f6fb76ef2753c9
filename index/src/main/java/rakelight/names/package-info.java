/**
 * What is known of names: nicknames, abbreviations, sound codes.
 *
 * <p>In: a name as written. Out: other names it may stand for, and how alike two sound.
 *
 * <p>Never take a name from a real stone or register into a table; counts that an office publishes
 * name nobody. Never let Lucene in.
 */
@NullMarked
package rakelight.names;

import org.jspecify.annotations.NullMarked;
