package rakelight.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;

/**
 * Makes file names with any character work under a locale such as {@code C}.
 *
 * <p>A Java program on Linux reads its arguments, its working folder and every file name in the
 * locale's encoding, fixed before {@code main} and beyond reach of any option. Under {@code LANG=C}
 * a name with an accent can be neither opened nor listed. The only cure is to run again under a
 * UTF-8 locale, with the arguments as the bytes they were: they are taken from {@code
 * /proc/self/cmdline} and handed to a shell as escapes, since Java can't pass bytes on.
 */
final class NativeNames {
  static final String ADVICE =
      "A file name has characters that this locale can't express. Run the command with"
          + " LC_ALL=C.UTF-8.";

  private static final String ONCE = "RAKELIGHT_UTF8";
  private static final Path COMMAND_LINE = Path.of("/proc/self/cmdline");

  private NativeNames() {}

  /** Whether file names with any character work in this process. */
  static boolean work() {
    String encoding = System.getProperty("sun.jnu.encoding", "UTF-8");
    return encoding.equalsIgnoreCase("UTF-8") || encoding.startsWith("Cp");
  }

  /** Runs the same command under a UTF-8 locale and gives its exit code; empty if it can't. */
  static OptionalInt runAgainInUtf8() {
    if (System.getenv(ONCE) != null || !Files.isReadable(COMMAND_LINE)) {
      return OptionalInt.empty();
    }
    try {
      ProcessBuilder again =
          new ProcessBuilder("/bin/sh", "-c", script(Files.readAllBytes(COMMAND_LINE)));
      again.environment().put("LC_ALL", "C.UTF-8");
      again.environment().put(ONCE, "1");
      // Left there by the launcher of the application, which would take the command for Java's own.
      again.environment().remove("_JPACKAGE_LAUNCHER");
      Process process = again.inheritIO().start();
      Runtime.getRuntime().addShutdownHook(new Thread(process::destroy));
      return OptionalInt.of(process.waitFor());
    } catch (IOException e) {
      return OptionalInt.empty();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return OptionalInt.empty();
    }
  }

  /** A shell line in plain ASCII that runs the arguments, each ended by a zero byte. */
  static String script(byte[] commandLine) {
    List<String> words = new ArrayList<>();
    StringBuilder word = new StringBuilder();
    for (byte b : commandLine) {
      if (b == 0) {
        // The dot keeps line ends at the end of an argument, which $( ) would drop.
        words.add("w=\"$(printf '%b.' '" + word + "')\"; set -- \"$@\" \"${w%.}\"");
        word.setLength(0);
      } else if (isPlain(b)) {
        word.append((char) b);
      } else {
        word.append(String.format(java.util.Locale.ROOT, "\\0%03o", b & 0xFF));
      }
    }
    return "set --; " + String.join("; ", words) + "; exec \"$@\"";
  }

  private static boolean isPlain(byte b) {
    return (b >= 'a' && b <= 'z')
        || (b >= 'A' && b <= 'Z')
        || (b >= '0' && b <= '9')
        || new String(new byte[] {b}, StandardCharsets.ISO_8859_1).matches("[-_./=:,@+]");
  }
}
