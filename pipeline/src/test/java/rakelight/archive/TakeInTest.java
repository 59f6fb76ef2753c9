package rakelight.archive;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TakeInTest {
  private static final StageKind<Asked, Said> WORDS =
      new StageKind<>("words", 2, Asked.class, Said.class);
  private static final StageKind<Asked, NamedFiles> PICTURES =
      new StageKind<>("pictures", 1, Asked.class, NamedFiles.class);
  private static final List<StageKind<?, ?>> KINDS = List.of(WORDS, PICTURES);

  record Asked(Sha256 original, int line) {}

  record Said(String text) {}

  @TempDir Path folder;
  private Archive archive;
  private Archive other;

  @BeforeEach
  void twoMachines() {
    archive = open("here");
    other = open("there");
  }

  private Archive open(String name) {
    return Archive.init(
        folder.resolve(name),
        new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London")),
        List.of());
  }

  @AfterEach
  void close() {
    archive.close();
    other.close();
  }

  private static Asked asked(int line) {
    return new Asked(Sha256.of("a photograph"), line);
  }

  private DerivationKey madeThere(int line, String text) throws IOException {
    Derivation made = Derivation.of(WORDS, asked(line), new Said(text));
    other.derived().keep(made);
    return made.key();
  }

  private Path made() {
    return folder.resolve("there").resolve(Derived.FOLDER);
  }

  @Test
  void whatWasMadeElsewhereIsThereUnderItsKeyAndNotTakenTwice() throws IOException {
    DerivationKey key = madeThere(1, "In memory of");
    Derivation pictures =
        Derivation.of(PICTURES, asked(1), NamedFiles.of(Map.of("depth.png", "p".getBytes(UTF_8))));
    other.derived().keep(pictures);
    assertThat(TakeIn.of(archive, made(), KINDS)).isEqualTo(new TakeIn.Report(2, 0, List.of()));
    assertThat(archive.derived().result(WORDS, key)).contains(new Said("In memory of"));
    assertThat(archive.derived().names(PICTURES, pictures.key())).containsExactly("depth.png");
    assertThat(TakeIn.of(archive, made(), KINDS)).isEqualTo(new TakeIn.Report(0, 2, List.of()));
  }

  @Test
  void whatDoesNotBelongToItsKeyIsRefusedByNameAndTheRestIsTaken() throws IOException {
    DerivationKey good = madeThere(1, "In memory of");
    DerivationKey bad = madeThere(2, "HANNAH WREN");
    Path input = other.derived().path(WORDS, bad, "input.json");
    Files.writeString(input, Files.readString(input).replace("\"line\":2", "\"line\":3"));
    TakeIn.Report report = TakeIn.of(archive, made(), KINDS);
    assertThat(report.taken()).isEqualTo(1);
    assertThat(report.refused())
        .containsExactly(
            new TakeIn.Refused(
                "words/" + bad,
                "what it was made from is missing, or isn't what its key was made of"));
    assertThat(archive.derived().has(WORDS, good)).isTrue();
    assertThat(archive.derived().has(WORDS, bad)).isFalse();
  }

  @Test
  void aResultThatIsCutShortIsRefused() throws IOException {
    DerivationKey key = madeThere(1, "In memory of");
    Files.writeString(other.derived().path(WORDS, key, "json"), "{\"text\":\"In mem");
    assertThat(TakeIn.of(archive, made(), KINDS).refused())
        .containsExactly(
            new TakeIn.Refused("words/" + key, "its result is missing or can't be read"));
  }

  @Test
  void whatAnotherVersionOfTheStageMadeIsRefusedWithBothVersions() throws IOException {
    StageKind<Asked, Said> older = new StageKind<>("words", 1, Asked.class, Said.class);
    Derivation made = Derivation.of(older, asked(1), new Said("In memory of"));
    other.derived().keep(made);
    assertThat(TakeIn.of(archive, made(), KINDS).refused())
        .containsExactly(
            new TakeIn.Refused(
                "words/" + made.key(), "made by version 1 of words; this program has version 2"));
  }

  @Test
  void whatIsOnlyBegunAndWhatIsOfNoKnownStageIsLeft() throws IOException {
    DerivationKey key = madeThere(1, "In memory of");
    Path begun = other.derived().path(PICTURES, key, "started");
    Files.createDirectories(begun.getParent());
    Files.writeString(begun, "1");
    assertThat(TakeIn.of(archive, made(), List.of(PICTURES)))
        .isEqualTo(new TakeIn.Report(0, 0, List.of()));
  }

  @Test
  void aFolderThatIsNotThereIsNamed() {
    assertThatThrownBy(() -> TakeIn.of(archive, folder.resolve("nowhere"), KINDS))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("nowhere: there is no such folder");
  }
}
