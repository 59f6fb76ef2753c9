package rakelight.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

class ConclusionsTest {
  private static final Conclusions.Kind KIND = new Conclusions.Kind("words", 1);

  @TempDir Path folder;

  @Test
  void whatOneProgramKeepsAnotherFinds() {
    try (Conclusions one = new Conclusions(folder);
        Conclusions other = new Conclusions(folder)) {
      assertThat(other.find(KIND, "a")).isEmpty();
      one.keep(KIND, Map.of("a", "first"));
      assertThat(other.find(KIND, "a")).contains("first");
      other.keep(KIND, Map.of("a", "second", "b", "third"));
      assertThat(one.all(KIND)).isEqualTo(Map.of("a", "first", "b", "third"));
    }
  }

  @Test
  void programsThatKeepAtOnceLoseNothing() {
    try (Conclusions one = new Conclusions(folder);
        Conclusions other = new Conclusions(folder)) {
      IntStream.range(0, 200)
          .parallel()
          .forEach(i -> (i % 2 == 0 ? one : other).keep(KIND, Map.of("key " + i, "" + i)));
      Map<String, String> all = new HashMap<>();
      IntStream.range(0, 200).forEach(i -> all.put("key " + i, "" + i));
      assertThat(one.all(KIND)).isEqualTo(all);
    }
  }

  /** Keeps a hundred documents from a process of its own. */
  static final class AnotherProcess {
    private AnotherProcess() {}

    /** Keeps a hundred; after the twentieth it waits for the file that a second argument names. */
    public static void main(String[] arguments) throws InterruptedException {
      try (Conclusions conclusions = new Conclusions(Path.of(arguments[0]))) {
        for (int i = 0; i < 100; i++) {
          conclusions.keep(KIND, Map.of("other " + i, "" + i));
          while (i == 20 && arguments.length > 1 && !Files.exists(Path.of(arguments[1]))) {
            Thread.sleep(5);
          }
        }
      }
    }
  }

  @Test
  @Tag("long")
  void processesThatKeepAtOnceLoseNothing() throws Exception {
    Process other = anotherProcess();
    try (Conclusions conclusions = new Conclusions(folder)) {
      int own = 0;
      do {
        conclusions.keep(KIND, Map.of("own " + own, "" + own));
        own++;
      } while (other.isAlive());
      assertThat(other.waitFor()).as(Files.readString(folder.resolve("output.txt"))).isZero();
      assertThat(conclusions.all(KIND)).hasSize(100 + own);
    }
  }

  @Test
  @DisabledOnOs(value = OS.WINDOWS, disabledReason = "an open file can't be deleted there")
  void theFileMayBeDeletedWhileAnotherProcessHasItOpen() throws Exception {
    Path goOn = folder.resolve("go-on");
    Process other = anotherProcess(goOn.toString());
    try (Conclusions conclusions = new Conclusions(folder)) {
      boolean deleted = false;
      while (other.isAlive()) {
        if (!deleted && conclusions.find(KIND, "other 20").isPresent()) {
          Files.delete(folder.resolve(Conclusions.FILE));
          Files.createFile(goOn);
          deleted = true;
        }
        conclusions.keep(KIND, Map.of("own", "word"));
        assertThat(conclusions.find(KIND, "own")).contains("word");
      }
      assertThat(other.waitFor()).as(Files.readString(folder.resolve("output.txt"))).isZero();
      assertThat(deleted).isTrue();
      assertThat(conclusions.find(KIND, "other 99")).contains("99");
    }
  }

  private Process anotherProcess(String... more) throws IOException {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                AnotherProcess.class.getName(),
                folder.toString()));
    command.addAll(List.of(more));
    return new ProcessBuilder(command)
        .redirectErrorStream(true)
        .redirectOutput(folder.resolve("output.txt").toFile())
        .start();
  }

  @Test
  void anotherVersionOfAKindFindsNothingAndDropsWhatWasThere() {
    Conclusions.Kind newer = new Conclusions.Kind("words", 2);
    Conclusions.Kind stranger = new Conclusions.Kind("figures", 1);
    try (Conclusions conclusions = new Conclusions(folder)) {
      conclusions.keep(KIND, Map.of("a", "old"));
      conclusions.keep(stranger, Map.of("a", "not touched"));
      assertThat(conclusions.find(newer, "a")).isEmpty();
      conclusions.keep(newer, Map.of("a", "new"));
      assertThat(conclusions.find(newer, "a")).contains("new");
      assertThat(conclusions.all(KIND)).isEmpty();
      assertThat(conclusions.find(stranger, "a")).contains("not touched");
    }
  }

  @Test
  void onlyTheNewestIsKeptWhereNoOtherIsAskedFor() {
    try (Conclusions conclusions = new Conclusions(folder)) {
      conclusions.keepOnly(KIND, "a", "one");
      conclusions.keepOnly(KIND, "b", "two");
      assertThat(conclusions.all(KIND)).isEqualTo(Map.of("b", "two"));
    }
  }

  @Test
  @DisabledOnOs(value = OS.WINDOWS, disabledReason = "an open file can't be deleted there")
  void theFileMayBeDeletedWhileProgramsHaveItOpen() throws IOException {
    try (Conclusions one = new Conclusions(folder);
        Conclusions other = new Conclusions(folder)) {
      one.keep(KIND, Map.of("a", "before"));
      assertThat(other.find(KIND, "a")).contains("before");
      Files.delete(folder.resolve(Conclusions.FILE));
      other.keep(KIND, Map.of("a", "after"));
      assertThat(one.find(KIND, "a")).contains("after");
    }
  }

  @Test
  void aDamagedFileIsMadeAnew() throws IOException {
    Files.writeString(
        folder.resolve(Conclusions.FILE), "no database at all, but words\n".repeat(99));
    try (Conclusions conclusions = new Conclusions(folder)) {
      conclusions.keep(KIND, Map.of("a", "one"));
      assertThat(conclusions.find(KIND, "a")).contains("one");
    }
  }

  @Test
  void aFileOfAnotherLayoutIsMadeAnew() throws SQLException {
    try (Connection connection =
        DriverManager.getConnection("jdbc:sqlite:" + folder.resolve(Conclusions.FILE))) {
      connection.createStatement().execute("CREATE TABLE conclusion (something TEXT)");
      connection.createStatement().execute("PRAGMA user_version = 99");
    }
    try (Conclusions conclusions = new Conclusions(folder)) {
      conclusions.keep(KIND, Map.of("a", "one"));
      assertThat(conclusions.find(KIND, "a")).contains("one");
    }
  }
}
