/**
 * What a file says of itself: EXIF, duplicates, field cards, and which shots belong to one face.
 */
@NullMarked
package rakelight.photo;

import org.jspecify.annotations.NullMarked;
