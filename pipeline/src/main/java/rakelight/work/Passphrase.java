package rakelight.work;

import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import javax.crypto.SecretKeyFactory;
import javax.crypto.spec.PBEKeySpec;

/**
 * The digest of a passphrase: PBKDF2 with HMAC-SHA-256, a random salt, and the number of iterations
 * that OWASP's Password Storage Cheat Sheet asks for (600,000, read November 2026).
 *
 * @param salt base64
 * @param digest base64
 */
public record Passphrase(int iterations, String salt, String digest) {
  public static final int ITERATIONS = 600_000;

  /**
   * Shorter ones are guessed; longer rules make people write them down. Common practice, no source.
   */
  static final int SHORTEST = 12;

  private static final int SALT_BYTES = 16;
  private static final int DIGEST_BITS = 256;

  /** The digest of a new passphrase. */
  static Passphrase of(char[] passphrase, int iterations) {
    byte[] salt = new byte[SALT_BYTES];
    new SecureRandom().nextBytes(salt);
    return of(passphrase, salt, iterations);
  }

  static Passphrase of(char[] passphrase, byte[] salt, int iterations) {
    PBEKeySpec spec = new PBEKeySpec(passphrase, salt, iterations, DIGEST_BITS);
    try {
      byte[] digest =
          SecretKeyFactory.getInstance("PBKDF2WithHmacSHA256").generateSecret(spec).getEncoded();
      Base64.Encoder base64 = Base64.getEncoder();
      return new Passphrase(iterations, base64.encodeToString(salt), base64.encodeToString(digest));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("this JDK has no PBKDF2 with HMAC-SHA-256", e);
    } finally {
      spec.clearPassword();
    }
  }

  /** Whether this is the passphrase; takes the same time whether it is or not. */
  public boolean matches(char[] tried) {
    Passphrase other = of(tried, Base64.getDecoder().decode(salt), iterations);
    return MessageDigest.isEqual(
        Base64.getDecoder().decode(digest), Base64.getDecoder().decode(other.digest()));
  }
}
