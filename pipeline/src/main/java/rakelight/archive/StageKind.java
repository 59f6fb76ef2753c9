package rakelight.archive;

import java.util.regex.Pattern;

/**
 * What is known of a stage without running it: enough to name its derivations and to read them.
 *
 * @param name lower-case letters, figures and hyphens; it names a folder
 * @param version of its code, 1 or more; it changes whenever the same input may give another result
 * @param input the record that says everything a result follows from
 * @param result a record that {@link Json} can write, or {@link NamedFiles}
 */
public record StageKind<I extends Record, O>(
    String name, int version, Class<I> input, Class<O> result) {
  private static final Pattern NAME = Pattern.compile("[a-z][a-z0-9-]*");

  public StageKind {
    if (!NAME.matcher(name).matches()) {
      throw new IllegalArgumentException(
          "stage name must be lower-case letters, figures and hyphens: " + name);
    }
    if (version < 1) {
      throw new IllegalArgumentException("stage version must be 1 or more: " + version);
    }
  }

  /** The key of what the stage makes of an input. */
  public DerivationKey key(I input) {
    return DerivationInput.of(this, input).key();
  }
}
