package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Table;

class LinkFileTest {
  @TempDir Path folder;

  private Path file(String text) throws IOException {
    return Files.writeString(folder.resolve("links.tsv"), text, StandardCharsets.UTF_8);
  }

  private List<String> problems(String text) throws IOException {
    Path file = file(text);
    Table.RefusedException refused =
        catchThrowableOfType(Table.RefusedException.class, () -> LinkFile.read(file));
    assertThat(refused).as("refused").isNotNull();
    return refused.problems().stream()
        .map(problem -> problem.replace(file.toString(), "FILE"))
        .toList();
  }

  @Test
  void columnsStandInAnyOrderAndOthersArePassedOver() throws Exception {
    LinkFile links =
        LinkFile.read(
            file(
                "plot\tto\tnote\ttype\tfrom\n"
                    + "B\t4\tinitials agree\tFootstone-of\t 5 \n"
                    + "\n"
                    + "C\tAmos Rudd, by hearsay\t\tsaid to be\t7\n"));
    assertThat(links.rows())
        .containsExactly(
            new LinkFile.Row(2, "5", Link.Kind.FOOTSTONE_OF, "4", "initials agree"),
            new LinkFile.Row(4, "7", Link.Kind.SAID_TO_BE, "Amos Rudd, by hearsay", ""));
  }

  @Test
  void aByteOrderMarkAndAMissingNoteDoNoHarm() throws Exception {
    assertThat(LinkFile.read(file("\uFEFFfrom\ttype\tto\r\n5\tfootstone of\t4\r\n")).rows())
        .containsExactly(new LinkFile.Row(2, "5", Link.Kind.FOOTSTONE_OF, "4", ""));
  }

  @Test
  void everyBadRowIsNamedWithItsLineAndWhatIsWrong() throws Exception {
    assertThat(
            problems(
                "from\ttype\tto\n"
                    + "5\tfootstone of\t4\n"
                    + "5\tcousin of\t4\n"
                    + "5\tburied here\n"
                    + "\tburied here\tAmos Rudd\n"
                    + "5\tburied here\t \n"))
        .containsExactly(
            "FILE, line 3: no such link as “cousin of”; there are footstone of, commemorated,"
                + " buried here, removed from, reburied, said to be",
            "FILE, line 4: has 2 columns, the first line 3",
            "FILE, line 5: a link needs from and to",
            "FILE, line 6: a link needs from and to");
  }

  @Test
  void aFileThatDoesntNameItsColumnsIsRefused() throws Exception {
    for (String text : List.of("", "5\tfootstone of\t4\n", "from\tkind\tto\n")) {
      assertThat(problems(text))
          .containsExactly("FILE, line 1: the first line must name the columns from, type, to.");
    }
  }

  @Test
  void aFileThatIsntUtf8IsRefused() throws Exception {
    Path file = Files.write(folder.resolve("latin.tsv"), new byte[] {'f', (byte) 0xE9, '\n'});
    Table.RefusedException refused =
        catchThrowableOfType(Table.RefusedException.class, () -> LinkFile.read(file));
    assertThat(refused).hasMessageContaining("line 1: byte E9 isn't UTF-8");
  }
}
