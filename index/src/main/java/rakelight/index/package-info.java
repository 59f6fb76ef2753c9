/**
 * The search core over Lucene.
 *
 * <p>In: {@link rakelight.index.Entry entries} whose words keep their doubt, as weighted readings
 * and as {@link rakelight.index.Pattern patterns}; queries as people write them. Out: {@link
 * rakelight.index.Hit hits}, the best first, with why they match. Lucene only picks the entries
 * that may answer; one matcher looks at each of them.
 *
 * <p>Never let it know of SQL, photographs or the web, and never let Lucene out of it.
 */
@NullMarked
package rakelight.index;

import org.jspecify.annotations.NullMarked;
