package rakelight.photo;

import java.util.Optional;

/**
 * What a file says, in words that somebody wrote into it, of whose it is and of what it shows. It
 * counts only once somebody takes it.
 *
 * @param note caption and keywords
 */
public record Offered(
    Optional<String> photographer, Optional<String> rights, Optional<String> note) {
  static final Offered NOTHING = new Offered(Optional.empty(), Optional.empty(), Optional.empty());
}
