package rakelight.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class IncomingTest {
  @TempDir Path folder;

  @Test
  void whatADeadRunLeftIsClearedAndALivingRunIsLeftAlone() throws IOException {
    Originals originals = new Originals(folder);
    Path dead = folder.resolve("incoming").resolve(Uuid7.next().toString());
    Files.createDirectories(dead);
    Files.createFile(dead.resolve("lock"));
    Files.writeString(dead.resolve("7.part"), "half a photo");
    Path deadAtOnce =
        folder.resolve("incoming").resolve(new UUID(0x017f22e279b07000L, 0x8000L << 48).toString());
    Files.createDirectories(deadAtOnce);

    try (Incoming living = originals.receive()) {
      assertThat(dead).doesNotExist();
      assertThat(deadAtOnce).doesNotExist();
      try (Incoming second = originals.receive()) {
        assertThat(folder.resolve("incoming")).isDirectoryContaining(Files::isDirectory);
        byte[] bytes = {1, 2, 3};
        assertThat(living.keep(Sha256.of(bytes), "jpg", bytes)).isTrue();
        assertThat(second.keep(Sha256.of(bytes), "jpg", bytes)).as("there already").isFalse();
      }
    }
    assertThat(folder.resolve("incoming")).isEmptyDirectory();
  }
}
