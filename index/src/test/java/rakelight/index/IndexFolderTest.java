package rakelight.index;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static rakelight.index.Stone.stone;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class IndexFolderTest {
  @TempDir Path folder;

  @BeforeEach
  void index() {
    try (IndexWriting writing = IndexWriting.open(folder, false).orElseThrow()) {
      writing.put(stone("1").words("HANNAH WREN").entry());
      writing.put(stone("2").words("ELI WREN").entry());
      writing.commit(7);
    }
  }

  private int found(String query) throws QueryException {
    try (SearchIndex index = SearchIndex.open(folder)) {
      return index.search(query, 100).hits().size();
    }
  }

  @Test
  void anUpdateReplacesAndRemovesAndRemembersHowFarItFollowed() throws Exception {
    try (IndexWriting writing = IndexWriting.open(folder, false).orElseThrow()) {
      assertThat(writing.counter()).isEqualTo(7);
      writing.put(stone("1").words("HANNAH LARK").entry());
      writing.remove("marker-2");
      writing.commit(9);
    }
    assertThat(found("wren")).isZero();
    assertThat(found("lark")).isEqualTo(1);
    try (SearchIndex index = SearchIndex.open(folder)) {
      assertThat(index.counter()).isEqualTo(9);
      assertThat(index.size()).isEqualTo(1);
    }
    assertThat(folder.resolve("gen-1")).isDirectory();
  }

  @Test
  void oneMadeAnewTakesThePlaceOfTheOldOneOnlyWhenItIsWhole() throws Exception {
    try (IndexWriting writing = IndexWriting.open(folder, true).orElseThrow()) {
      writing.put(stone("3").words("NEW WREN").entry());
    }
    assertThat(found("wren")).isEqualTo(2);
    try (IndexWriting writing = IndexWriting.open(folder, true).orElseThrow()) {
      assertThat(writing.counter()).isZero();
      writing.put(stone("3").words("NEW WREN").entry());
      writing.commit(8);
    }
    assertThat(found("wren")).isEqualTo(1);
    try (Stream<Path> entries = Files.list(folder)) {
      assertThat(entries.filter(Files::isDirectory)).hasSize(1);
    }
  }

  @Test
  void whoeverWritesHoldsTheLock() throws Exception {
    try (IndexWriting writing = IndexWriting.open(folder, false).orElseThrow()) {
      assertThat(writing.counter()).isEqualTo(7);
      assertThat(IndexWriting.open(folder, false)).isEmpty();
      assertThat(found("wren")).isEqualTo(2);
    }
    try (IndexWriting writing = IndexWriting.open(folder, false).orElseThrow()) {
      assertThat(writing.counter()).isEqualTo(7);
    }
  }

  @Test
  void damageIsCalledDamageWhicheverFileItIsIn() throws Exception {
    for (Path file : files()) {
      byte[] whole = Files.readAllBytes(file);
      if (whole.length == 0) {
        continue;
      }
      byte[] bad = whole.clone();
      bad[bad.length / 2] ^= 0x55;
      Files.write(file, bad);
      damaged(file);
      Files.write(file, java.util.Arrays.copyOf(whole, whole.length / 2));
      damaged(file);
      Files.delete(file);
      damaged(file);
      Files.write(file, whole);
      assertThat(found("wren")).isEqualTo(2);
    }
  }

  private void damaged(Path file) {
    assertThatThrownBy(() -> found("wren"))
        .as(String.valueOf(file.getFileName()))
        .isInstanceOf(IndexException.class)
        .hasMessageContaining("damaged")
        .hasMessageContaining("Run `index`");
  }

  private List<Path> files() throws IOException {
    try (Stream<Path> files = Files.list(folder.resolve("gen-1"))) {
      return files.filter(file -> !file.endsWith("write.lock")).sorted().toList();
    }
  }

  @Test
  void aDamagedIndexIsMadeAnew() throws Exception {
    for (Path file : files()) {
      Files.write(file, new byte[] {1, 2, 3});
    }
    try (IndexWriting writing = IndexWriting.open(folder, false).orElseThrow()) {
      assertThat(writing.counter()).isZero();
      writing.put(stone("1").words("HANNAH WREN").entry());
      writing.commit(7);
    }
    assertThat(found("wren")).isEqualTo(1);
    Files.writeString(folder.resolve("current"), "gen-99\n", StandardCharsets.UTF_8);
    assertThatThrownBy(() -> found("wren")).hasMessageContaining("damaged");
  }

  @Test
  void aMissingIndexSaysHowToMakeIt(@TempDir Path empty) {
    assertThatThrownBy(() -> SearchIndex.open(empty)).hasMessageContaining("Make one with `index`");
  }
}
