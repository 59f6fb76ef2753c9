/**
 * What goes on paper: one way of setting type ({@link rakelight.publish.paper.Paper} a document,
 * {@link rakelight.publish.paper.PrintedPage} a page of it, {@link rakelight.publish.paper.Flow}
 * text that runs down pages), the plan at scale and the register of a ground as a book. Sheets for
 * the stone are set with it too, wherever they are made.
 *
 * <p>Lengths are millimetres from a page's lower left corner, sizes of letters points. Typefaces
 * are embedded. Source of what documents are made of: ISO 32000-1 (PDF 1.7).
 */
@NullMarked
package rakelight.publish.paper;

import org.jspecify.annotations.NullMarked;
