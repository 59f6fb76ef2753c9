/**
 * What is told of an archive, and the open formats it is told in.
 *
 * <p>In comes an archive and a day of publication; {@link rakelight.publish.Edition} decides once
 * what may be told of it and says of everything else why not. Out go faces, persons, links and
 * photographs that are free of all that is withheld, what is told of the ground around them ({@link
 * rakelight.publish.ToldGround}), and of these the tables ({@link rakelight.publish.TableExport}),
 * documents ({@code epidoc}, {@code gedcom}, {@code iiif}, {@code xmp}) and pages ({@code paper})
 * that other programs and people read. What people decide to keep back lives in {@link
 * rakelight.publish.WithholdingStore}.
 *
 * <p>The one thing not to do: write anything for the public from a store, the archive or the rule
 * for the living. Take an edition; what it doesn't hand out isn't told.
 */
@NullMarked
package rakelight.publish;

import org.jspecify.annotations.NullMarked;
