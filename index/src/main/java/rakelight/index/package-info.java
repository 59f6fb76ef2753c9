/**
 * The search core over Lucene: entries that keep their doubt, queries, hits and why they matched.
 */
@NullMarked
package rakelight.index;

import org.jspecify.annotations.NullMarked;
