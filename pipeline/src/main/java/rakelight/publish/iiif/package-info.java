/**
 * Photographs with what was read on them, for viewers of pictures: IIIF manifests ({@link
 * rakelight.publish.iiif.Manifests}) and Web Annotations of lines and letters ({@link
 * rakelight.publish.iiif.PictureAnnotations}). An edition and the addresses of picture files enter;
 * JSON leaves, for files and for the desk alike.
 *
 * <p>A canvas has the upright full-size pixels of its photograph, whatever the size of the file
 * that is shown on it.
 *
 * <p>Sources: IIIF Presentation API 3.0 (2020), W3C Web Annotation Data Model (Recommendation, 23
 * February 2017). Don't decide here what may be told.
 */
@NullMarked
package rakelight.publish.iiif;

import org.jspecify.annotations.NullMarked;
