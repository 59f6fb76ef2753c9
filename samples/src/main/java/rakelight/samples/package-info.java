/**
 * An invented burial ground and the renderer that photographs it. Nothing here exists or ever
 * lived.
 */
@NullMarked
package rakelight.samples;

import org.jspecify.annotations.NullMarked;
