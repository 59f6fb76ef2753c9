package rakelight.photo;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.Arrays;

/** Why a photograph waits for no marker. It stays in the archive, and no machine reads it. */
public enum SetAside {
  /** Blurred, dark, a thumb before the lens: the stone can't be made out. */
  @JsonProperty("unfit")
  UNFIT("unfit"),
  /** A gate, a view, the volunteers at tea. */
  @JsonProperty("no-stone")
  NO_STONE("not a stone");

  private final String words;

  SetAside(String words) {
    this.words = words;
  }

  /** As people say it. */
  public String words() {
    return words;
  }

  /** As the ledger, commands and documents write it. */
  public String label() {
    return this == UNFIT ? "unfit" : "no-stone";
  }

  static SetAside ofLabel(String label) {
    return Arrays.stream(values())
        .filter(one -> one.label().equals(label))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("nothing is set aside as " + label));
  }
}
