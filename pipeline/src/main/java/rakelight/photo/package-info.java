/**
 * What a file says of itself, and which shots belong to one face.
 *
 * <p>In: folders of files, a manifest, field cards, and what people decide. Out: {@link
 * rakelight.photo.Photograph photographs} with time, place and light as far as they are known,
 * {@link rakelight.photo.Face faces}, and refusals with their reasons. A face is a carved side of a
 * marker and is known here because photographs are what is put on it.
 *
 * <p>Never decode a picture to learn of a file, and never move a photograph from one face to
 * another by itself: grouping proposes, a person's decision stays.
 */
@NullMarked
package rakelight.photo;

import org.jspecify.annotations.NullMarked;
