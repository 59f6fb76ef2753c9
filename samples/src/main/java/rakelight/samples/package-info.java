/**
 * An invented burial ground and the renderer that photographs it.
 *
 * <p>Everybody and everywhere here is made up: the Isle of Skerrin, its people and its regiment
 * exist only in these files.
 *
 * <p>Nouns. A <em>stone</em> is the physical side of a marker's face: material, form, wear, manner
 * of cutting. A <em>face model</em> is the stone as a height field (millimetres) under a separate
 * albedo (0..1, linear). A <em>view</em> is one light and one camera. A <em>photograph</em> is what
 * the camera writes: JPEG bytes with EXIF, and beside it what is truly there, so that finding,
 * relief and reading can be scored.
 *
 * <p>Units. Face coordinates are millimetres from the top left corner of the face's bounding box, x
 * to the viewer's right, y down; heights are millimetres towards the viewer. Light directions in a
 * face's frame are unit vectors with x to the viewer's right, y up the face, z out of it; as
 * compass values they are degrees clockwise from true north and degrees above the horizon. Polygons
 * are in upright full-size pixels.
 *
 * <p>In: the tables of the invented ground, and a seed. Out: photographs with EXIF, and beside each
 * what is truly there.
 *
 * <p>Everything is deterministic: the same seed gives the same bytes on the same Java runtime.
 * Nothing reads a system font, the clock, the locale or the time zone of the machine.
 *
 * <p>Never let it know of any other package of the project, nor name anybody who lived.
 */
@NullMarked
package rakelight.samples;

import org.jspecify.annotations.NullMarked;
