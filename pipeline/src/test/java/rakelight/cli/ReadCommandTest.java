package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.GivenProposal;
import rakelight.work.QuickReaders;
import rakelight.work.Role;

/** The terminal's `read`: the rules of the desk, in words. */
class ReadCommandTest {
  @TempDir Path folder;
  private Path root;
  private FaceId face;
  private final InputStream keyboard = System.in;

  @BeforeEach
  void aFaceIsProposed() throws IOException {
    root = folder.resolve("archive");
    try (Archive archive =
        Archive.init(
            root,
            new Ground("Fenn Lane", 54.1, -3.2, ZoneId.of("Europe/London")),
            Projections.all())) {
      face = new PhotoStore(archive).faceOf("12", "front", "Ada Fenn").id();
      GivenProposal.of(
          archive, face, "IN MEMORY OF", "HANNAH W(R60K30)EN", "died 18(350840)4", "AGED 61");
    }
  }

  @AfterEach
  void giveTheKeyboardBack() {
    System.setIn(keyboard);
  }

  private Ran read(String reader, String... answers) {
    System.setIn(
        new ByteArrayInputStream(
            (String.join("\n", answers) + "\n").getBytes(StandardCharsets.UTF_8)));
    return Ran.command("read", root, "12", "--reader", reader);
  }

  private Optional<String> signed() {
    try (Archive archive = Archive.open(root, Projections.all())) {
      return new ReadingStore(archive).current(face).map(Reading::inscription).map(Leiden::print);
    }
  }

  /** A keyboard at which something happens between one line and the next. */
  private static final class Typing extends InputStream {
    private final Deque<Object> left;
    private byte[] line = {};
    private int at;

    Typing(List<Object> linesAndWhatHappens) {
      left = new ArrayDeque<>(linesAndWhatHappens);
    }

    @Override
    public int read() {
      while (at == line.length) {
        if (left.isEmpty()) {
          return -1;
        }
        Object next = left.remove();
        if (next instanceof Runnable happens) {
          happens.run();
        } else {
          line = (next + "\n").getBytes(StandardCharsets.UTF_8);
          at = 0;
        }
      }
      return line[at++];
    }

    @Override
    public int read(byte[] into, int offset, int length) {
      int first = read();
      if (first < 0) {
        return -1;
      }
      into[offset] = (byte) first;
      int count = 1;
      while (count < length && at < line.length) {
        into[offset + count++] = line[at++];
      }
      return count;
    }
  }

  @Test
  void fiveTimesEnterSignsNoNameAndNoDateInWhichALetterIsDoubtful() {
    Ran ran = read("Ada Fenn", "", "", "", "", "", "sign");
    assertThat(ran.out()).contains("Letter 8, R, is doubtful: it may be K");
    assertThat(signed()).isEmpty();
    assertThat(read("Ada Fenn", "2", "8=R", "", "7=3/8", "", "", "sign").code()).isZero();
    assertThat(signed()).contains("IN MEMORY OF | HANNAH WREN | died 18(3 or 8)4 | AGED 61");
  }

  @Test
  void aLineThatAnotherTerminalHasChangedIsNotWrittenOver() {
    List<Ran> other = new ArrayList<>();
    Runnable atTheOtherTerminal =
        () ->
            other.add(
                read("Ada Fenn", "line 1", "change IN LOVING MEMORY OF", "line 4", "l", "quit"));
    System.setIn(
        new Typing(List.of("line 4", atTheOtherTerminal, "change AGED 67", "line 1", "quit")));
    Ran ran = Ran.command("read", root, "12", "--reader", "Ada Fenn");
    assertThat(other).extracting(Ran::code).containsExactly(0);
    assertThat(ran.out())
        .contains("has been changed in another window")
        .contains("IN LOVING MEMORY OF");
    Ran afterwards = read("Ada Fenn", "line 4", "line 1", "quit");
    assertThat(afterwards.out())
        .contains("Line 1 of 4:  IN LOVING MEMORY OF")
        .contains("Line 4 of 4:  [- - - - - -]");
  }

  @Test
  void aGuestIsToldThatHeOnlyLooks() {
    try (Archive archive = Archive.open(root, Projections.all())) {
      QuickReaders.of(archive)
          .admit("Gil Orme", Role.GUEST, "moss on slate at noon".toCharArray(), "Ada Fenn");
    }
    Ran ran = read("gil orme", "sign");
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.errLines()).containsExactly("A guest may look, but not decide.");
  }

  @Test
  void whatWasReadBeforeIsOpenedAndAThirdReaderSettlesWhereTwoDiffer() {
    Ran.command("readers", root, "require", "2", "--reader", "Ada Fenn");
    String[] ada = {"", "change HANNAH WREN", "change died 1834", "change AGED 61", "sign"};
    String[] col = {"", "change HANNAH WREN", "change died 1884", "change AGED 61", "sign"};
    assertThat(read("Ada Fenn", ada).err()).isEmpty();
    Ran second = read("Col Reeve", col);
    assertThat(second.out()).doesNotContain("HANNAH W\u1E5AEN").doesNotContain("1834");
    assertThat(signed()).isEmpty();
    Ran third = read("Eve Marsh", "7=8", "sign");
    assertThat(third.out())
        .contains("Two readings differ; yours settles them.")
        .contains("Read by Ada Fenn:")
        .contains("    died 1884");
    assertThat(signed()).contains("IN MEMORY OF | HANNAH WREN | died 1884 | AGED 61");
    Ran again = read("Eve Marsh", "line 4", "change AGED 67", "sign");
    assertThat(again.out()).contains("It is open to be changed");
    assertThat(signed()).contains("IN MEMORY OF | HANNAH WREN | died 1884 | AGED 67");
  }
}
