/**
 * The structure of a reading, its Leiden and EpiDoc views, and the decisions by which people
 * confirm it.
 */
@NullMarked
package rakelight.inscription;

import org.jspecify.annotations.NullMarked;
