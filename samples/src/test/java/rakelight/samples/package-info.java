@NullMarked
package rakelight.samples;

import org.jspecify.annotations.NullMarked;
