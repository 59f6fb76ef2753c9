/**
 * The persons of an edition as a GEDCOM 7 file, for programs that keep families.
 *
 * <p>In: an {@link rakelight.publish.Edition}. Out: one file in which each person's facts cite the
 * inscription they were read from. Nothing is taken back in.
 *
 * <p>Never write a fact without the face it stands on, nor a burial that no stone states and nobody
 * confirmed.
 */
@NullMarked
package rakelight.publish.gedcom;

import org.jspecify.annotations.NullMarked;
