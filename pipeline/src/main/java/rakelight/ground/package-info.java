/**
 * What markers on one burial ground have to do with each other and with persons.
 *
 * <p>In: links that people confirm, one by one or from a {@link rakelight.ground.LinkFile}. Out:
 * {@link rakelight.ground.Link links}, each with who confirmed it and what speaks for it.
 *
 * <p>Never make a link by machine: initials that agree are a reason, not a link.
 */
@NullMarked
package rakelight.ground;

import org.jspecify.annotations.NullMarked;
