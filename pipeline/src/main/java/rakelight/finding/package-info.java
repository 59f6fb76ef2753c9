/**
 * Where on a picture the face of the stone, its lines and its emblems are. Polygons are in upright
 * full-size pixels of the named photograph. One of the two packages that see OpenCV.
 */
@NullMarked
package rakelight.finding;

import org.jspecify.annotations.NullMarked;
