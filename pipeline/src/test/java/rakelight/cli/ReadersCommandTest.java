package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;

class ReadersCommandTest {
  private static final String HEAD = "marker\tface\tline\ttext\n";

  @TempDir Path folder;
  private Path archive;
  private final InputStream keyboard = System.in;

  @BeforeEach
  void makeAnArchive() {
    archive = folder.resolve("archive");
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
  }

  @AfterEach
  void giveTheKeyboardBack() {
    System.setIn(keyboard);
  }

  private Ran add(String name, String role, String passphrase) {
    System.setIn(new ByteArrayInputStream(passphrase.getBytes(StandardCharsets.UTF_8)));
    return Ran.command("readers", archive, "add", name, "--role", role, "--reader", "Ada Fenn");
  }

  private Path file(String name, String rows) throws IOException {
    return Files.writeString(folder.resolve(name), HEAD + rows);
  }

  private JsonNode row(String reader) {
    return Ran.command("readers", archive, "list", "--json").outLines().stream()
        .map(line -> Json.read(line, JsonNode.class))
        .filter(row -> row.path("reader").asText().equals(reader))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void readersAreAdmittedListedAndDismissed() {
    assertThat(Ran.command("readers", archive).out()).startsWith("Nobody yet.");
    assertThat(add("Ada Fenn", "archivist", "moss on slate at noon\n").out())
        .isEqualTo("Ada Fenn may sign in as archivist.\n");
    assertThat(add("Bo", "reader", "a low sun in april\n").code()).isZero();
    assertThat(Ran.command("readers", archive).out())
        .contains("Ada Fenn  archivist  0 readings signed")
        .contains("Bo  reader  0 readings signed");
    assertThat(add("Bo", "guest", "a low sun in april\n").code()).isZero();
    assertThat(row("Bo").path("role").asText()).isEqualTo("guest");
    Ran removed = Ran.command("readers", archive, "remove", "Bo", "--reader", "Ada Fenn");
    assertThat(removed.out()).isEqualTo("Bo can't sign in any more.\n");
    assertThat(Ran.command("readers", archive).out()).doesNotContain("Bo");
    assertThat(Ran.command("decisions", archive).out()).doesNotContain("moss on slate");
    assertThat(Ran.command("check", archive).code()).isZero();
  }

  @Test
  void whatWontDoIsRefusedInALineAndChangesNothing() {
    assertThat(add("Bo", "sexton", "a low sun in april\n").err())
        .contains("--role must be archivist, reader or guest, not sexton");
    assertThat(add("Bo", "reader", "short\n").err()).contains("12 signs at least");
    assertThat(add("Bo", "reader", "").err()).contains("No passphrase was given");
    Ran removed = Ran.command("readers", archive, "remove", "Bo", "--reader", "Ada Fenn");
    assertThat(removed.code()).isEqualTo(1);
    assertThat(removed.err()).contains("There is no reader Bo here");
    Ran three = Ran.command("readers", archive, "require", "3", "--reader", "Ada Fenn");
    assertThat(three.code()).isEqualTo(2);
    assertThat(three.err()).contains("one reader or two, not 3");
    assertThat(Ran.command("readers", archive).out()).startsWith("Nobody yet.");
  }

  @Test
  void aWholeFaceThatIsKnownMeasuresItsReadersAndIsNoReading() throws IOException {
    Path truth = file("truth.tsv", "7\tfront\t1\tAMOS LIDGATE\n7\tfront\t2\tDIED 1834\n");
    Ran known = Ran.command("readers", archive, "known", truth, "--reader", "Eve Marsh");
    assertThat(known.out()).isEqualTo("1 face known to measure readers by.\n");
    Path read = file("read.tsv", "7\tfront\t1\tAMOS LIDGATE\n7\tfront\t2\tDIED 1884\n");
    Ran.command("confirm", archive, "--new-markers", "--from", read, "--reader", "Bo");
    JsonNode row = row("Bo");
    assertThat(row.path("knownLetters").asInt()).isEqualTo(19);
    assertThat(row.path("knownWrong").asInt()).isEqualTo(1);
    // Wilson's interval for 1 of 19, reckoned apart from this program.
    assertThat(Ran.command("readers", archive).out())
        .contains("1 of 19 known letters wrong, 5.3% (95%: 0.9 to 24.6)");
    assertThat(Ran.command("statements", archive).out()).isEmpty();
  }

  @Test
  void aFileOfNoKnownLettersIsRefused() throws IOException {
    Path truth = file("truth.tsv", "7\tfront\t1\t(1 line)\n");
    Ran known =
        Ran.command("readers", archive, "known", truth, "--letters", "--reader", "Eve Marsh");
    assertThat(known.code()).isEqualTo(1);
    assertThat(known.err()).contains("No letter of this face is given");
    assertThat(Ran.command("decisions", archive).out()).doesNotContain("face.known");
  }
}
