/**
 * An invented older ground whose graves were moved, the register of their removal with faults put
 * in on purpose, and the stones of the ground they came to.
 *
 * <p>Out: the register as comma-separated values, what each stone says in Leiden signs, the faults
 * by name and row, and the figures that are right. The same for a seed. The rules know nothing of
 * how accounts are worked out; nobody here ever lived.
 */
@NullMarked
package rakelight.samples.removals;

import org.jspecify.annotations.NullMarked;
