/**
 * Graves moved here from an older ground.
 *
 * <p>In: {@link rakelight.ground.removal.RemovalFile registers of removals}, row by row as they are
 * written, each register a source. Out: {@link rakelight.ground.removal.RemovalAccount the account}
 * of each old ground: what is recorded, moved, marked, unknown, unaccounted for, with the rows
 * behind every figure, the sums that must close and the faults of the register by name.
 *
 * <p>A fault of a register is evidence and stays as it is written. That bodies were moved never
 * proves the old ground empty.
 */
@NullMarked
package rakelight.ground.removal;

import org.jspecify.annotations.NullMarked;
