/**
 * The face squared up, its light flattened, raking sets combined: the cut brought out of the grain.
 * Hands on named grey pictures for eyes and for recognisers.
 */
@NullMarked
package rakelight.relief;

import org.jspecify.annotations.NullMarked;
