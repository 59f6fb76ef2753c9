package rakelight.archive;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * What a machine made from originals: {@code derived/STAGE/ab/KEY.png}. All of it may be deleted
 * and comes back. A file under its key is always whole. Thread-safe, also between processes.
 */
public final class Derived {
  static final String FOLDER = "derived";

  private final Path folder;

  Derived(Path folder) {
    this.folder = folder;
  }

  /** Writes the content of a derivation to a stream it doesn't close. */
  @FunctionalInterface
  public interface Content {
    void writeTo(OutputStream out) throws IOException;
  }

  /**
   * Where a derivation lies or would lie.
   *
   * @param extension lower case, without the dot
   */
  public Path path(Stage stage, DerivationKey key, String extension) {
    return shard(stage, key).resolve(key.hex() + "." + extension);
  }

  private Path shard(Stage stage, DerivationKey key) {
    return folder.resolve(stage.name()).resolve(key.hex().substring(0, 2));
  }

  /** Whether it has been made. */
  public boolean has(Stage stage, DerivationKey key, String extension) {
    return Files.exists(path(stage, key, extension));
  }

  /** Makes it, or replaces it; nobody sees half of it. */
  public Path write(Stage stage, DerivationKey key, String extension, Content content)
      throws IOException {
    Path target = path(stage, key, extension);
    Files.createDirectories(shard(stage, key));
    Path temporary = target.resolveSibling(key.hex() + "." + Uuid7.next() + ".part");
    try {
      try (FileChannel channel =
              FileChannel.open(temporary, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
          OutputStream out = Channels.newOutputStream(channel)) {
        content.writeTo(out);
        out.flush();
        channel.force(true);
      }
      Durable.rename(temporary, target);
    } catch (IOException e) {
      Files.deleteIfExists(temporary);
      throw e;
    }
    return target;
  }
}
