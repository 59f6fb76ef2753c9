package rakelight.picture;

/**
 * A native library that came with this program couldn't be unpacked or loaded. The message names
 * the library, its version, where it was looked for and what to do; it is meant to be shown as it
 * is.
 */
public final class NativesMissingException extends RuntimeException {
  NativesMissingException(String message, Throwable cause) {
    super(message, cause);
  }
}
