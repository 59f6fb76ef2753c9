package rakelight.archive;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * Names one derivation by everything it follows from: the SHA-256 of its {@link DerivationInput}.
 * Never by its content, which may differ between processors.
 *
 * @param hex 64 lower-case hexadecimal digits
 */
public record DerivationKey(@JsonValue String hex) {
  /**
   * @throws IllegalArgumentException if the text isn't 64 lower-case hexadecimal digits
   */
  @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
  public DerivationKey {
    if (!Sha256.HEX.matcher(hex).matches()) {
      throw new IllegalArgumentException("not a derivation key: " + hex);
    }
  }

  @Override
  public String toString() {
    return hex;
  }
}
