/**
 * Inscriptions invented by rules, with what they truly say, to measure against.
 *
 * <p>In: a number of stones, a seed, a share of letters to be lost or misread. Out: a file of
 * inscriptions in Leiden signs, each with its persons and what is known of them.
 *
 * <p>Nouns. An <em>invented stone</em> is text as cut with the stretches that tell something (a
 * given name, the figures of a day). <em>Wear</em> takes letters away or mistakes them; what a
 * stretch still says after it is <em>left</em>. A <em>style</em> is what was usual at a time and in
 * a country.
 *
 * <p>Everything is made up and follows from the seed. The forms are from memory of what is usual,
 * no source. They were written without regard to any rules that read inscriptions; whoever writes
 * such rules may look at what comes out, not at how.
 *
 * <p>Never let it know of any other package of the project, nor name anybody who lived.
 */
@NullMarked
package rakelight.samples.inscriptions;

import org.jspecify.annotations.NullMarked;
