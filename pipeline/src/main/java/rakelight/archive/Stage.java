package rakelight.archive;

import java.util.regex.Pattern;

/**
 * A pure function of the pipeline. The version changes whenever the same inputs may give another
 * output.
 *
 * @param name lower-case letters, figures and hyphens; it names a folder
 * @param version 1 or more
 */
public record Stage(String name, int version) {
  private static final Pattern NAME = Pattern.compile("[a-z][a-z0-9-]*");

  public Stage {
    if (!NAME.matcher(name).matches()) {
      throw new IllegalArgumentException(
          "stage name must be lower-case letters, figures and hyphens: " + name);
    }
    if (version < 1) {
      throw new IllegalArgumentException("stage version must be 1 or more: " + version);
    }
  }
}
