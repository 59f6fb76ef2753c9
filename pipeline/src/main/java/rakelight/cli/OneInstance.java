package rakelight.cli;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;

/**
 * Whether the program runs already for this user, and where: a small file that only the user may
 * read. Whoever starts it a second time wants its page, not a second program.
 */
final class OneInstance {
  /** Overrides the folder for settings. */
  static final String FOLDER_PROPERTY = "rakelight.settings";

  private static final Duration PATIENCE = Duration.ofSeconds(3);

  private final Path file;

  OneInstance(Path settings) {
    this.file = settings.resolve("running");
  }

  /** Where this user's settings are, as the system has it. */
  static Path settings() {
    String override = System.getProperty(FOLDER_PROPERTY, "");
    if (!override.isEmpty()) {
      return Path.of(override).toAbsolutePath();
    }
    Path home = Path.of(System.getProperty("user.home", ".")).toAbsolutePath();
    String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    if (system.contains("win")) {
      return folder("APPDATA", home.resolve("AppData").resolve("Roaming"));
    }
    if (system.contains("mac")) {
      return home.resolve("Library").resolve("Application Support").resolve("rakelight");
    }
    return folder("XDG_CONFIG_HOME", home.resolve(".config"));
  }

  private static Path folder(String variable, Path usual) {
    String given = System.getenv(variable);
    return (given == null || given.isBlank() ? usual : Path.of(given)).resolve("rakelight");
  }

  /** The address of the one that runs, if it answers. */
  Optional<String> running() {
    try {
      String address = Files.readString(file).strip();
      URI alive = URI.create(address.replace("/?", "/alive?"));
      HttpResponse<Void> answer =
          HttpClient.newBuilder()
              .connectTimeout(PATIENCE)
              .build()
              .send(
                  HttpRequest.newBuilder(alive).timeout(PATIENCE).build(),
                  HttpResponse.BodyHandlers.discarding());
      return answer.statusCode() == 200 ? Optional.of(address) : Optional.empty();
    } catch (IOException | IllegalArgumentException e) {
      return Optional.empty();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.empty();
    }
  }

  /** Notes where this one is. */
  void runsAt(String address) throws IOException {
    Files.createDirectories(file.getParent());
    Files.deleteIfExists(file);
    if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
      Files.createFile(
          file, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
    }
    Files.writeString(file, address, StandardOpenOption.CREATE);
  }

  /** This one has ended. */
  void ended() throws IOException {
    Files.deleteIfExists(file);
  }
}
