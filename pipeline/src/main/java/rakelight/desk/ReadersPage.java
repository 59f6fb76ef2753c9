package rakelight.desk;

import java.util.List;
import java.util.Map;
import rakelight.measure.ReaderError;
import rakelight.work.NamedReader;

/**
 * Who may sign in, for the archivist.
 *
 * @param errors how well they read where letters are known, by name
 * @param required how many must read each stone, 1 or 2
 * @param message what came of the last change; may be empty
 */
public record ReadersPage(
    List<NamedReader> readers, Map<String, ReaderError> errors, int required, String message) {
  /** How many known letters a reader got wrong, in words. */
  public String error(String reader) {
    ReaderError error = errors.getOrDefault(reader, ReaderError.NONE);
    return error.letters() == 0 ? "none read yet" : error.told();
  }

  /** Those measured who can't sign in, or needn't. */
  public List<String> others() {
    return errors.keySet().stream()
        .filter(name -> readers.stream().noneMatch(reader -> reader.name().equals(name)))
        .toList();
  }
}
