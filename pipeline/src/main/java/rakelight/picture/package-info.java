/**
 * Pixels in general: a photograph's bytes go in, an upright {@link rakelight.picture.GrayImage}
 * comes out, with the {@link rakelight.picture.Point points}, {@link rakelight.picture.Polygon
 * polygons} and {@link rakelight.picture.Homography homographies} that say where something lies on
 * it. All points are in upright full-size pixels of the photograph, x to the right, y downwards,
 * the centre of the first pixel at (0.5, 0.5).
 *
 * <p>Native libraries are loaded here ({@link rakelight.picture.Natives}) and their handles are
 * counted ({@link rakelight.picture.NativeScope}). One of the three packages that see OpenCV. Don't
 * put here what knows of stones, faces or letters.
 */
@NullMarked
package rakelight.picture;

import org.jspecify.annotations.NullMarked;
