/**
 * The web site of a ground: an edition as plain files, for a society's web space, a stick or a
 * disk.
 *
 * <p>In comes an {@link rakelight.publish.Edition} and what {@link rakelight.publish.site.SiteWish
 * its owner wishes}; out goes a folder of pages, pictures and pieces of the index, every address in
 * it relative, every byte the same for the same edition. A <em>leaf</em> is what a template is
 * given of a page. Pages ask nobody outside, run no script of their own but the search, and name no
 * time but the edition's.
 *
 * <p>The one thing not to do: take anything from elsewhere than the edition.
 */
@NullMarked
package rakelight.publish.site;

import org.jspecify.annotations.NullMarked;
