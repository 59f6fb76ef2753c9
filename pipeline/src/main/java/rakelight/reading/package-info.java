/**
 * Recognisers and the lattice: what the pictures say, as weighted alternatives per letter.
 * Proposes, never confirms.
 */
@NullMarked
package rakelight.reading;

import org.jspecify.annotations.NullMarked;
