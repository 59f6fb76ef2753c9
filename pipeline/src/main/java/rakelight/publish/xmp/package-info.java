/**
 * What is told of each photograph in the terms that programs for pictures know: XMP beside the file
 * and Dublin Core of all of them ({@link rakelight.publish.xmp.Sidecars}). An original is never
 * touched.
 *
 * <p>Sources: XMP, ISO 16684-1; IPTC Photo Metadata Standard, Core schema; DCMI Metadata Terms.
 * Don't decide here what may be told.
 */
@NullMarked
package rakelight.publish.xmp;

import org.jspecify.annotations.NullMarked;
