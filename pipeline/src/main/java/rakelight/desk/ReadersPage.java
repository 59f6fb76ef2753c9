package rakelight.desk;

import java.util.List;

/**
 * Who may sign in, for the archivist.
 *
 * @param required how many must read each stone, 1 or 2
 * @param message what came of the last change; may be empty
 */
public record ReadersPage(List<NamedReader> readers, int required, String message) {}
