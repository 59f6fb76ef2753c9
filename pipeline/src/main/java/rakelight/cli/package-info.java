/**
 * The commands.
 *
 * <p>In: words on a command line, tables, what is typed. Out: plain words or JSON Lines on standard
 * output, a line for each fault on standard error, and exit codes: 0 done, 1 something was refused
 * or is wrong, 2 the command line is. docs/commands.md has them all.
 *
 * <p>Never decide anything here: a command opens an archive, asks the rooms to its left and tells
 * what they say.
 */
@NullMarked
package rakelight.cli;

import org.jspecify.annotations.NullMarked;
