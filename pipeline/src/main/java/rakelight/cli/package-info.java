/** The commands: exit codes and plain words. */
@NullMarked
package rakelight.cli;

import org.jspecify.annotations.NullMarked;
