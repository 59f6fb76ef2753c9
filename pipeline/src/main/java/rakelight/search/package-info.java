/** The ledger to the index, and hits back. */
@NullMarked
package rakelight.search;

import org.jspecify.annotations.NullMarked;
