/** What is known of names: nicknames, abbreviations, sound codes. Free of Lucene. */
@NullMarked
package rakelight.names;

import org.jspecify.annotations.NullMarked;
