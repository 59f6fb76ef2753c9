/** The structure of a reading, its Leiden view, and the decisions by which people confirm it. */
@NullMarked
package rakelight.inscription;

import org.jspecify.annotations.NullMarked;
