/**
 * Where on a picture the face of the stone, its lines and its emblems are.
 *
 * <p>In: an upright {@link rakelight.picture.GrayImage}, given to a {@link
 * rakelight.finding.LineFinder}. Out: a {@link rakelight.finding.Found}: the outline of the
 * inscribed face and its {@link rakelight.finding.FoundLine lines} in reading order, in pixels of
 * that picture.
 *
 * <p>A line's polygon is a <em>ribbon</em>: n points along the top of the letters from left to
 * right, then n along their foot from right to left, n at least two. A straight line needs four
 * points; an arch has more.
 *
 * <p>One of the three packages that see OpenCV, and of the two that see ONNX Runtime. Never let it
 * know of letters.
 */
@NullMarked
package rakelight.finding;

import org.jspecify.annotations.NullMarked;
