/**
 * Earlier lists of the ground's stones: rows as somebody wrote them down before, which stone each
 * speaks of, and where list and stone differ. A list is a witness beside the stone; a row never
 * becomes a reading by itself.
 */
@NullMarked
package rakelight.ground.witness;

import org.jspecify.annotations.NullMarked;
