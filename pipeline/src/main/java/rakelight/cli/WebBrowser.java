package rakelight.cli;

import java.io.IOException;
import java.util.List;
import java.util.Locale;

/** The web browser that opens by itself on this machine. */
final class WebBrowser {
  private WebBrowser() {}

  /** Whether a browser was asked to show an address; whether it does, nobody can tell. */
  static boolean show(String address) {
    String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    List<String> words;
    if (system.contains("win")) {
      words = List.of("rundll32", "url.dll,FileProtocolHandler", address);
    } else if (system.contains("mac")) {
      words = List.of("open", address);
    } else {
      words = List.of("xdg-open", address);
    }
    try {
      new ProcessBuilder(words)
          .redirectErrorStream(true)
          .redirectOutput(ProcessBuilder.Redirect.DISCARD)
          .start();
      return true;
    } catch (IOException e) {
      return false;
    }
  }
}
