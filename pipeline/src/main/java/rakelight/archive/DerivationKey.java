package rakelight.archive;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;

/**
 * Names one derivation by everything it depends on: stage, stage version, model digests,
 * parameters, and the digests or keys of its inputs. Never by its output, which may differ between
 * processors.
 *
 * @param hex 64 lower-case hexadecimal digits
 */
public record DerivationKey(@JsonValue String hex) implements DerivationInput {
  /**
   * @throws IllegalArgumentException if the text isn't 64 lower-case hexadecimal digits
   */
  @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
  public DerivationKey {
    if (!Sha256.HEX.matcher(hex).matches()) {
      throw new IllegalArgumentException("not a derivation key: " + hex);
    }
  }

  /**
   * The key of a derivation.
   *
   * @param models digests of the models the stage reads with, in the order it uses them
   * @param parameters anything {@link Json} can write; its fields are sorted by name before hashing
   * @param inputs in the order the stage takes them
   */
  public static DerivationKey of(
      Stage stage, List<Sha256> models, Object parameters, List<? extends DerivationInput> inputs) {
    StringBuilder text = new StringBuilder();
    text.append("stage ").append(stage.name()).append(' ').append(stage.version()).append('\n');
    models.forEach(model -> text.append("model ").append(model.hex()).append('\n'));
    text.append("parameters ").append(Json.canonical(parameters)).append('\n');
    inputs.forEach(input -> text.append("input ").append(input.hex()).append('\n'));
    return new DerivationKey(Sha256.of(text.toString()).hex());
  }

  @Override
  public String toString() {
    return hex;
  }
}
