/** Links between markers and persons on one burial ground. */
@NullMarked
package rakelight.ground;

import org.jspecify.annotations.NullMarked;
