/**
 * The face squared up, its light flattened, raking sets combined: the cut brought out of the grain.
 * Hands on named grey pictures for eyes and for recognisers.
 *
 * <p>A {@link rakelight.relief.SquaredFace} is the inscribed face as seen from straight in front,
 * with the {@link rakelight.picture.Homography} that leads back to the photograph. {@link
 * rakelight.relief.Relief} makes named pictures of it; {@link rakelight.relief.RakingSet} makes the
 * shape of the surface of several lights, a {@link rakelight.relief.HeightMap} that can be lit
 * anew. {@link rakelight.relief.Registration} lays photographs over each other. What each picture
 * is good for is written in docs/relief.md. One of the three packages that see OpenCV; it knows
 * nothing of letters but how tall they are.
 */
@NullMarked
package rakelight.relief;

import org.jspecify.annotations.NullMarked;
