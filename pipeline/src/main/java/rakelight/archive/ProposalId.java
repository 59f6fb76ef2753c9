package rakelight.archive;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.nio.ByteBuffer;
import java.util.HexFormat;
import java.util.UUID;

/**
 * The permanent id of one proposal of a machine: what was made of which face or photograph. The
 * same work gives the same id, wherever it was done. Ids given before were UUIDv7 and go on naming
 * what they named.
 */
public record ProposalId(UUID value) {
  /**
   * The id of a proposal: a UUIDv8 (RFC 9562, section 5.8) of the first bits of the SHA-256 of
   * {@code SUBJECT KEY}.
   *
   * @param subject the id of the face, or of the photograph on no face
   * @param key of the derivation that is proposed for it
   */
  public static ProposalId of(UUID subject, DerivationKey key) {
    ByteBuffer digest =
        ByteBuffer.wrap(HexFormat.of().parseHex(Sha256.of(subject + " " + key).hex()));
    long high = (digest.getLong() & ~0xf000L) | 0x8000L;
    long low = (digest.getLong() & 0x3fff_ffff_ffff_ffffL) | 0x8000_0000_0000_0000L;
    return new ProposalId(new UUID(high, low));
  }

  /**
   * Reads an id as {@link #toString} writes it.
   *
   * @throws IllegalArgumentException if the text is no UUID
   */
  @JsonCreator
  public static ProposalId of(String text) {
    return new ProposalId(Uuid7.parse(text));
  }

  /** The UUID in its usual form: 36 characters, lower case. */
  @Override
  @JsonValue
  public String toString() {
    return value.toString();
  }
}
