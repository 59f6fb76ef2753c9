package rakelight.inscription;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rakelight.publish.epidoc.Epidoc;
import rakelight.publish.epidoc.EpidocException;
import rakelight.publish.epidoc.EpidocRules;
import rakelight.publish.epidoc.EpidocSchema;
import rakelight.publish.epidoc.Xml;
import rakelight.publish.epidoc.XmlElement;

/**
 * Leiden texts and EpiDoc documents, spoilt at random: read or refused, never worse. For a few
 * seconds; {@code -Drakelight.fuzz.seconds=300} for as long as one likes.
 */
class ReadingFuzzTest {
  private static final int SECONDS = Integer.getInteger("rakelight.fuzz.seconds", 2);
  private static final String SIGNS = "[](){}<>⸢⸣«»`´+.-?|/^#= \"&;ạ\u0323\u0332\u0361éſ한8aZ\n\t";

  @Test
  void noSpoiltTextOrDocumentDoesWorseThanBeRefused() {
    long end = System.nanoTime() + SECONDS * 1_000_000_000L;
    long read = 0;
    long refused = 0;
    for (long seed = System.nanoTime(); System.nanoTime() < end; seed++) {
      Random random = new Random(seed);
      Inscription reading = RandomInscription.next(random);
      String text = spoilt(Leiden.print(reading), random);
      String document =
          EpidocSchema.around(
              Xml.print(Epidoc.print(reading)).replaceAll("(?s)^.*?<ab[^>]*>|</ab>\\s*$", ""));
      try {
        int taken = leiden(text) + epidoc(spoilt(document, random));
        read += taken;
        refused += 2 - taken;
      } catch (RuntimeException | Error e) {
        fail("seed " + seed, e);
      }
    }
    System.out.println("fuzzed " + SECONDS + " s: " + read + " read, " + refused + " refused");
    assertThat(read).isPositive();
    assertThat(refused).isPositive();
  }

  private static int leiden(String text) {
    try {
      Inscription read = Leiden.parse(text);
      assertThat(Leiden.parse(Leiden.print(read))).isEqualTo(read);
      return 1;
    } catch (LeidenException e) {
      return 0;
    }
  }

  private static int epidoc(String document) {
    try {
      XmlElement root = Xml.parse(document.getBytes(StandardCharsets.UTF_8));
      EpidocRules.broken(root);
      Inscription read = Epidoc.parse(root).inscription();
      assertThat(Epidoc.parse(Epidoc.print(read)).inscription()).isEqualTo(read);
      return 1;
    } catch (EpidocException e) {
      return 0;
    }
  }

  /** The text with one to four places taken out, put in, changed or doubled. */
  private static String spoilt(String text, Random random) {
    StringBuilder spoilt = new StringBuilder(text);
    for (int i = random.nextInt(4); i >= 0 && !spoilt.isEmpty(); i--) {
      int at = random.nextInt(spoilt.length());
      int to = Math.min(spoilt.length(), at + 1 + random.nextInt(8));
      char sign = SIGNS.charAt(random.nextInt(SIGNS.length()));
      switch (random.nextInt(4)) {
        case 0 -> spoilt.delete(at, to);
        case 1 -> spoilt.insert(at, sign);
        case 2 -> spoilt.setCharAt(at, sign);
        default -> spoilt.insert(random.nextInt(spoilt.length()), spoilt.substring(at, to));
      }
    }
    return spoilt.toString();
  }
}
