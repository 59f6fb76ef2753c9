package rakelight.archive;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Set;

/** What a stage is given to work on: bytes of originals and results of other stages. */
public interface Given {
  /**
   * The bytes of an original.
   *
   * @throws BadInputException if it is missing
   */
  byte[] original(Sha256 digest) throws BadInputException;

  /**
   * A part of an original.
   *
   * @throws BadInputException if it is missing or ends before
   */
  default byte[] original(Sha256 digest, long offsetBytes, long lengthBytes)
      throws BadInputException {
    byte[] whole = original(digest);
    if (offsetBytes < 0 || lengthBytes < 0 || offsetBytes + lengthBytes > whole.length) {
      throw new BadInputException("original " + digest + " is shorter than it was");
    }
    return Arrays.copyOfRange(whole, (int) offsetBytes, (int) (offsetBytes + lengthBytes));
  }

  /**
   * What another stage made.
   *
   * @throws IllegalStateException if it hasn't been made
   */
  <O> O result(StageKind<?, O> kind, DerivationKey key);

  /**
   * The same, but only what this input names; anything else is refused with an {@code
   * IllegalArgumentException}, because then the result wouldn't follow from the input.
   */
  default Given only(Record input) {
    Set<String> named = new HashSet<>();
    collect(Json.tree(input), named);
    Given all = this;
    return new Given() {
      @Override
      public byte[] original(Sha256 digest) throws BadInputException {
        return all.original(named(digest.hex(), digest));
      }

      @Override
      public byte[] original(Sha256 digest, long offsetBytes, long lengthBytes)
          throws BadInputException {
        return all.original(named(digest.hex(), digest), offsetBytes, lengthBytes);
      }

      @Override
      public <O> O result(StageKind<?, O> kind, DerivationKey key) {
        return all.result(kind, named(key.hex(), key));
      }

      private <T> T named(String hex, T asked) {
        if (!named.contains(hex)) {
          throw new IllegalArgumentException("The input of this stage doesn't name " + hex);
        }
        return asked;
      }
    };
  }

  private static void collect(JsonNode node, Set<String> texts) {
    if (node.isTextual()) {
      texts.add(node.textValue());
    }
    node.forEach(child -> collect(child, texts));
  }
}
