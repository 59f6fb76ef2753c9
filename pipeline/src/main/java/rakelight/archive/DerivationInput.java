package rakelight.archive;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.Optional;

/**
 * Everything one derivation follows from. Its canonical text lies beside the derivation, and the
 * SHA-256 of that text is the derivation's key, so that anybody can check the one against the
 * other.
 *
 * @param input the stage's input record as JSON
 * @param stage the stage's name
 * @param version of the stage's code
 */
@JsonPropertyOrder(alphabetic = true)
public record DerivationInput(JsonNode input, String stage, int version) {
  /** What a stage makes of this input. */
  public static <I extends Record> DerivationInput of(StageKind<I, ?> kind, I input) {
    return new DerivationInput(Json.tree(input), kind.name(), kind.version());
  }

  /**
   * Reads what {@link #text} wrote.
   *
   * @throws IllegalArgumentException if the text isn't an input, or not in its canonical form
   */
  public static DerivationInput read(String text) {
    DerivationInput read = Json.read(text, DerivationInput.class);
    if (!read.text().equals(text)) {
      throw new IllegalArgumentException("not the canonical JSON of a derivation's input");
    }
    return read;
  }

  /** Canonical JSON: see {@link Json#canonical}. */
  public String text() {
    return Json.canonical(this);
  }

  /** The SHA-256 of the text in UTF-8. */
  public DerivationKey key() {
    return new DerivationKey(Sha256.of(text()).hex());
  }

  /** Whether this is an input of this stage in this version. */
  public boolean isOf(StageKind<?, ?> kind) {
    return stage.equals(kind.name()) && version == kind.version();
  }

  /** The input record, if it is this stage's in whatever version and reads as one of today. */
  <I extends Record> Optional<I> inAnyVersion(StageKind<I, ?> kind) {
    if (!stage.equals(kind.name())) {
      return Optional.empty();
    }
    try {
      return Optional.of(Json.read(input, kind.input()));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  /**
   * The input record.
   *
   * @throws IllegalArgumentException if it is another stage's or another version's
   */
  public <I extends Record> I as(StageKind<I, ?> kind) {
    if (!isOf(kind)) {
      throw new IllegalArgumentException(
          "an input of "
              + stage
              + " "
              + version
              + ", not of "
              + kind.name()
              + " "
              + kind.version());
    }
    return Json.read(input, kind.input());
  }
}
