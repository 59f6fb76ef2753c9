/**
 * The face squared up, its light flattened, raking sets combined: the cut brought out of the grain.
 *
 * <p>In: pictures of one face with its outline, and where known the direction of their light. Out:
 * named grey pictures for eyes and for recognisers. A {@link rakelight.relief.SquaredFace} is the
 * inscribed face as seen from straight in front, with the {@link rakelight.picture.Homography} that
 * leads back to the photograph. {@link rakelight.relief.Relief} makes named pictures of it; {@link
 * rakelight.relief.RakingSet} makes the shape of the surface of several lights, a {@link
 * rakelight.relief.HeightMap} that can be lit anew. {@link rakelight.relief.Registration} lays
 * photographs over each other. What each picture is good for is written in docs/relief.md.
 *
 * <p>One of the three packages that see OpenCV. Never let it know more of letters than how tall
 * they are, nor invent a stroke: what it shows was in the photographs.
 */
@NullMarked
package rakelight.relief;

import org.jspecify.annotations.NullMarked;
