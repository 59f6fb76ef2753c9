/** Open formats out and in. */
@NullMarked
package rakelight.publish;

import org.jspecify.annotations.NullMarked;
