package rakelight.work;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.Locale;
import java.util.Optional;

/** What somebody may do. */
public enum Role {
  /** Everything. */
  @JsonProperty("archivist")
  ARCHIVIST,
  /** Read, decide, sign and settle; note condition, raise questions, leave stones to others. */
  @JsonProperty("reader")
  READER,
  /** Look. */
  @JsonProperty("guest")
  GUEST;

  /** As commands and documents write it. */
  public String label() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What it means, in plain words. */
  public String words() {
    return switch (this) {
      case ARCHIVIST -> "everything";
      case READER -> "read, decide, sign and settle";
      case GUEST -> "look";
    };
  }

  /** The role with this label, if there is one. */
  public static Optional<Role> of(String label) {
    for (Role role : values()) {
      if (role.label().equals(label)) {
        return Optional.of(role);
      }
    }
    return Optional.empty();
  }

  /** Whether he may do more than look. */
  public boolean mayDecide() {
    return this != GUEST;
  }
}
