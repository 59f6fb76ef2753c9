/**
 * Where on a picture the face of the stone, its lines and its emblems are.
 *
 * <p>A {@link rakelight.finding.Picture} is decoded to an upright {@link
 * rakelight.finding.GrayImage}; a {@link rakelight.finding.LineFinder} answers with a {@link
 * rakelight.finding.Found}: the outline of the inscribed face and its {@link
 * rakelight.finding.FoundLine lines} in reading order. All points are in upright full-size pixels
 * of the photograph, x to the right, y downwards, the centre of the first pixel at (0.5, 0.5).
 *
 * <p>A line's polygon is a <em>ribbon</em>: n points along the top of the letters from left to
 * right, then n along their foot from right to left, n at least two. A straight line needs four
 * points; an arch has more.
 *
 * <p>This is also where native libraries are loaded ({@link rakelight.finding.Natives}) and where
 * their handles are counted ({@link rakelight.finding.NativeScope}). One of the two packages that
 * see OpenCV, and of the two that see ONNX Runtime. It knows nothing of letters.
 */
@NullMarked
package rakelight.finding;

import org.jspecify.annotations.NullMarked;
