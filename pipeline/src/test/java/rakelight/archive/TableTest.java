package rakelight.archive;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16LE;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Tables that people bring, as spreadsheets save them. Quoting is that of RFC 4180, section 2. */
class TableTest {
  @TempDir private Path folder;

  private Table read(String text) throws Exception {
    return Table.read(Files.writeString(folder.resolve("list.csv"), text));
  }

  @ParameterizedTest
  @CsvSource({"','", ";", "'\t'"})
  void cellsArePartedByWhatTheFirstLineHas(String parted) throws Exception {
    Table table =
        read("\uFEFFNo" + parted + "Name\r\n1" + parted + "\"Wren" + parted + " \"\"H\"\"\"\r\n");

    assertThat(table.columns()).containsExactly("No", "Name");
    assertThat(table.rows().get(0).cells()).containsExactly("1", "Wren" + parted + " \"H\"");
  }

  @Test
  void aRowIsOnTheLineWhereItBegins() throws Exception {
    Table table = read("No,Text\n\n1,\"HANNAH\nWREN\"\n,\n\n2,JOB\n");

    assertThat(table.rows()).extracting(Table.Row::line).containsExactly(3L, 7L);
  }

  @Test
  void anotherEncodingIsRefusedByNameOrByItsLine() throws Exception {
    Path latin = Files.write(folder.resolve("latin.csv"), "No\n1\nRené\n".getBytes(ISO_8859_1));
    Path wide = Files.write(folder.resolve("wide.csv"), "\uFEFFNo\n1\n".getBytes(UTF_16LE));

    assertThatThrownBy(() -> Table.read(latin))
        .hasMessage(
            latin
                + ", line 3: byte E9 isn't UTF-8; perhaps Windows-1252 or ISO 8859-1. Save it as"
                + " UTF-8.");
    assertThatThrownBy(() -> Table.read(wide))
        .hasMessage(wide + ": written in UTF-16. Save it as UTF-8.");
  }

  @Test
  void aCellTooManyIsRefusedWithItsLineAndShortRowsAreFilledUp() throws Exception {
    assertThat(read("No,Name,Died\n1,Wren\n").rows().get(0).cells())
        .containsExactly("1", "Wren", "");
    assertThatThrownBy(() -> read("No,Name\n1,Wren\n2,Wren, Job\n"))
        .hasMessageContaining("line 3: has 3 columns, the first line 2.");
  }

  @Test
  void everyRowWithACellTooManyIsNamed() {
    assertThatThrownBy(() -> read("No,Name\n1,Wren, J\n2,Pell\n3,Pell, A\n"))
        .isInstanceOfSatisfying(
            Table.RefusedException.class, e -> assertThat(e.problems()).hasSize(2));
  }

  /** IANA, media type text/tab-separated-values: a cell is any signs but tabs and line ends. */
  @Test
  void quotesBetweenTabsMayBeSignsLikeOthers() throws Exception {
    Path file = Files.writeString(folder.resolve("list.tsv"), "No\tText\n1\t\"HANNAH\" WREN\n");

    assertThat(Table.readVerbatim(file).rows().get(0).cells())
        .containsExactly("1", "\"HANNAH\" WREN");
  }
}
