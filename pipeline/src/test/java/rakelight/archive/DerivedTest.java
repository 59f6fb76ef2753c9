package rakelight.archive;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Derivations of two small stages: one counts the bytes of an original, the other writes files. */
class DerivedTest {
  private static final byte[] BYTES = "a photograph, let us say".getBytes(UTF_8);
  private static final Sha256 ORIGINAL = Sha256.of(BYTES);

  @TempDir Path folder;
  private Archive archive;
  private Derived derived;
  private int runs;

  @BeforeEach
  void init() throws IOException {
    archive =
        Archive.init(
            folder, new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London")), List.of());
    derived = archive.derived();
    try (Incoming incoming = archive.originals().receive()) {
      incoming.keep(ORIGINAL, "jpg", BYTES);
      incoming.settle();
    }
  }

  @AfterEach
  void close() {
    archive.close();
  }

  record Counted(int bytes) {}

  record ToCount(Sha256 original, Optional<Double> factor) {}

  private final class Counts implements Stage<ToCount, Counted> {
    static final StageKind<ToCount, Counted> KIND =
        new StageKind<>("counts", 1, ToCount.class, Counted.class);

    @Override
    public StageKind<ToCount, Counted> kind() {
      return KIND;
    }

    @Override
    public Counted run(ToCount input, Given given) throws BadInputException {
      runs++;
      return new Counted(given.original(input.original()).length);
    }
  }

  record ToDraw(DerivationKey counted, List<String> names) {}

  private final class Draws implements Stage<ToDraw, NamedFiles> {
    static final StageKind<ToDraw, NamedFiles> KIND =
        new StageKind<>("draws", 2, ToDraw.class, NamedFiles.class);

    @Override
    public StageKind<ToDraw, NamedFiles> kind() {
      return KIND;
    }

    @Override
    public NamedFiles run(ToDraw input, Given given) {
      runs++;
      byte[] content =
          Integer.toString(given.result(Counts.KIND, input.counted()).bytes()).getBytes(UTF_8);
      return NamedFiles.of(Map.of(input.names().get(0), content, input.names().get(1), content));
    }
  }

  private static ToCount toCount() {
    return new ToCount(ORIGINAL, Optional.of(0.5));
  }

  @Test
  void whatIsThereIsNotMadeTwice() throws Exception {
    DerivationKey key = derived.make(new Counts(), toCount());
    assertThat(derived.result(Counts.KIND, key)).contains(new Counted(BYTES.length));

    assertThat(derived.make(new Counts(), toCount())).isEqualTo(key);

    assertThat(runs).isEqualTo(1);
  }

  @Test
  void theKeyIsTheDigestOfTheFileThatLiesBesideTheResult() throws Exception {
    DerivationKey key = derived.make(new Counts(), toCount());

    Path input = derived.path(Counts.KIND, key, "input.json");
    assertThat(Sha256.of(input).hex()).isEqualTo(key.hex());
    assertThat(input)
        .hasContent(
            "{\"input\":{\"factor\":0.5,\"original\":\""
                + ORIGINAL
                + "\"},\"stage\":\"counts\",\"version\":1}");
    assertThat(DerivationInput.read(Files.readString(input)).as(Counts.KIND)).isEqualTo(toCount());
    assertThat(derived.input(Counts.KIND, key)).contains(toCount());
  }

  @Test
  void everythingInTheInputAndTheVersionOfTheCodeChangeTheKey() {
    DerivationKey key = Counts.KIND.key(toCount());

    assertThat(Counts.KIND.key(new ToCount(ORIGINAL, Optional.of(0.5)))).isEqualTo(key);
    assertThat(
            List.of(
                Counts.KIND.key(new ToCount(ORIGINAL, Optional.empty())),
                Counts.KIND.key(new ToCount(Sha256.of("other"), Optional.of(0.5))),
                new StageKind<>("counts", 2, ToCount.class, Counted.class).key(toCount()),
                new StageKind<>("weighs", 1, ToCount.class, Counted.class).key(toCount())))
        .doesNotContain(key)
        .doesNotHaveDuplicates();
  }

  @Test
  void numbersHaveTheirShortestDigitsOnEveryJavaVersion() {
    // 2.0E-3 is what Java 17 writes by itself, and 0.002 what Java 19 does (JDK-4511638).
    assertThat(Json.canonical(List.of(2e-3, 1.0, 1e23, 3))).isEqualTo("[0.002,1.0,1.0E23,3]");
  }

  @Test
  void noByteOfAListOfDigestsChangesUnseen() throws Exception {
    DerivationKey counted = derived.make(new Counts(), toCount());
    DerivationKey drawn = derived.make(new Draws(), new ToDraw(counted, List.of("a.txt", "b.txt")));
    Path list = derived.path(Draws.KIND, drawn, "sha256");
    byte[] whole = Files.readAllBytes(list);
    assertThat(named(Draws.KIND)).isEmpty();

    for (int at = 0; at < whole.length; at++) {
      // A lower-case figure made a capital, a gap or line's end made another, and any other byte.
      for (int change : new int[] {0x20, 0x29, 0x07, 0x80}) {
        byte[] bytes = whole.clone();
        bytes[at] ^= (byte) change;
        Files.write(list, bytes);
        assertThat(named(Draws.KIND)).as("byte " + at + " changed by " + change).isNotEmpty();
      }
    }
  }

  private List<Path> named(StageKind<?, ?> kind) {
    List<Path> named = new ArrayList<>();
    derived.eachLying(
        lying -> {
          if (lying.stage().equals(kind.name())) {
            try {
              named.addAll(derived.changed(lying));
            } catch (IOException e) {
              throw new UncheckedIOException(e);
            }
          }
        });
    return named;
  }

  @Test
  void aStageSeesNothingThatItsInputDoesNotName() throws Exception {
    DerivationKey counted = derived.make(new Counts(), toCount());
    Given given = derived.given(toCount());

    assertThat(given.original(ORIGINAL)).isEqualTo(BYTES);
    assertThat(given.original(ORIGINAL, 2, 10)).isEqualTo("photograph".getBytes(UTF_8));
    assertThatThrownBy(() -> given.original(Sha256.of("other")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("doesn't name");
    assertThatThrownBy(() -> given.result(Counts.KIND, counted))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void anOriginalThatIsMissingOrTooShortIsBadInputWithItsName() {
    Sha256 other = Sha256.of("other");

    assertThatThrownBy(() -> derived.make(new Counts(), new ToCount(other, Optional.empty())))
        .isInstanceOf(BadInputException.class)
        .hasMessageContaining(other.hex())
        .hasMessageContaining("missing");
    assertThatThrownBy(() -> derived.given(toCount()).original(ORIGINAL, 20, 20))
        .isInstanceOf(BadInputException.class)
        .hasMessageContaining("shorter");
  }

  @Test
  void aDamagedOriginalIsRefusedOnFirstUseAndNamed() throws Exception {
    Path file = archive.originals().find(ORIGINAL).orElseThrow();
    byte[] rotten = BYTES.clone();
    rotten[3] ^= 4;
    Files.delete(file);
    Files.write(file, rotten);

    assertThatThrownBy(() -> derived.make(new Counts(), toCount()))
        .isInstanceOf(BadInputException.class)
        .hasMessageContaining(file + " is damaged")
        .hasMessageContaining("ingest the same file again");
    assertThatThrownBy(() -> derived.given(toCount()).original(ORIGINAL, 0, 1))
        .isInstanceOf(BadInputException.class)
        .hasMessageContaining("is damaged");
  }

  @Test
  void aResultWhoseBytesHaveChangedIsMadeAnew() throws Exception {
    DerivationKey key = derived.make(new Counts(), toCount());
    Path result = derived.path(Counts.KIND, key, "json");
    Files.writeString(result, Files.readString(result).replaceFirst("[0-9]", "7"));

    assertThat(derived.result(Counts.KIND, key)).isEmpty();
    assertThat(derived.make(new Counts(), toCount())).isEqualTo(key);
    assertThat(derived.result(Counts.KIND, key)).contains(new Counted(BYTES.length));
    assertThat(runs).isEqualTo(2);
  }

  @Test
  void aResultOfSeveralFilesCountsOnceAllOfThemAreThere() throws Exception {
    DerivationKey counted = derived.make(new Counts(), toCount());
    ToDraw toDraw = new ToDraw(counted, List.of("a.png", "b.light-1.jpg"));
    DerivationKey key = derived.make(new Draws(), toDraw);
    assertThat(derived.names(Draws.KIND, key)).containsExactly("a.png", "b.light-1.jpg");
    assertThat(derived.file(Draws.KIND, key, "a.png").orElseThrow()).hasContent("24");
    assertThat(derived.file(Draws.KIND, key, "c.png")).isEmpty();

    Files.delete(derived.path(Draws.KIND, key, "b.light-1.jpg"));
    assertThat(derived.has(Draws.KIND, key)).isFalse();
    derived.make(new Draws(), toDraw);

    assertThat(runs).isEqualTo(3);
    assertThat(derived.result(Draws.KIND, key).orElseThrow().names())
        .containsExactly("a.png", "b.light-1.jpg");
  }

  @Test
  void aDerivationMadeWithoutAnArchiveIsTakenInAsItIs() throws Exception {
    Given elsewhere =
        new Given() {
          @Override
          public byte[] original(Sha256 digest) {
            return BYTES;
          }

          @Override
          public <O> O result(StageKind<?, O> kind, DerivationKey key) {
            throw new IllegalStateException("nothing else was made");
          }
        };
    Derivation made = Derivation.made(new Counts(), toCount(), elsewhere);
    Derivation sent = Json.read(Json.text(made), Derivation.class);

    derived.keep(sent);

    assertThat(sent.key()).isEqualTo(Counts.KIND.key(toCount()));
    assertThat(derived.result(Counts.KIND, derived.make(new Counts(), toCount())))
        .contains(new Counted(BYTES.length));
    assertThat(runs).isEqualTo(1);
  }

  @Test
  void whatLiesInTheFolderIsListedWithWhatItWasMadeFrom() throws Exception {
    DerivationKey counted = derived.make(new Counts(), toCount());
    DerivationKey drawn = derived.make(new Draws(), new ToDraw(counted, List.of("a.png", "b.png")));
    Path old = folder.resolve("derived/relief/ab/" + "ab".repeat(32) + ".cut.png");
    derived.write(old, out -> out.write(1));
    UUID subject = PhotographId.next().value();
    derived.write(derived.note("newest", subject), out -> out.write('0'));

    List<Derived.Lying> all = new ArrayList<>();
    derived.eachLying(all::add);

    assertThat(all)
        .extracting(Derived.Lying::stage)
        .containsExactly("counts", "draws", "newest", "relief");
    assertThat(all)
        .extracting(Derived.Lying::name)
        .containsExactly(counted.hex(), drawn.hex(), subject.toString(), "ab".repeat(32));
    assertThat(all.get(1).files()).hasSize(5);
    assertThat(all.get(1).sizeBytes()).isPositive();
    assertThat(all.get(1).input().orElseThrow().as(Draws.KIND).counted()).isEqualTo(counted);
    assertThat(all.get(3).input()).isEmpty();

    derived.drop(all.get(1));
    assertThat(derived.has(Draws.KIND, drawn)).isFalse();
    assertThat(all.get(1).files()).noneMatch(Files::exists);
  }

  @Test
  void aFileIsWholeOrAbsent() {
    Path file = folder.resolve("derived/counts/ab/x.json");

    assertThatThrownBy(
            () ->
                derived.write(
                    file,
                    out -> {
                      out.write(1);
                      throw new IOException("no more room");
                    }))
        .isInstanceOf(IOException.class);

    assertThat(file.getParent()).isEmptyDirectory();
  }

  @Test
  void theIdOfAProposalFollowsFromItsSubjectAndKey() {
    UUID subject = UUID.fromString("01900000-0000-7000-8000-000000000001");
    DerivationKey key = new DerivationKey("ab".repeat(32));

    ProposalId id = ProposalId.of(subject, key);

    assertThat(id).isEqualTo(ProposalId.of(subject, key));
    assertThat(id.value().version()).isEqualTo(8);
    assertThat(id.value().variant()).isEqualTo(2);
    assertThat(id).isNotEqualTo(ProposalId.of(subject, new DerivationKey("cd".repeat(32))));
    assertThat(id).isNotEqualTo(ProposalId.of(PhotographId.next().value(), key));
    assertThat(ProposalId.of("01900000-0000-7000-8000-00000000000a").value().version())
        .as("an id given before")
        .isEqualTo(7);
  }
}
