package rakelight.publish;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Letter;
import rakelight.inscription.RandomInscription;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.publish.epidoc.Epidoc;
import rakelight.publish.epidoc.EpidocSchema;
import rakelight.publish.epidoc.Xml;

class PublishedTest {
  /** The edition without letters {@code from} to {@code to}, counted from 0 in order of reading. */
  private static String edition(String text, int from, int to) {
    try {
      Inscription inscription = Leiden.parse(text);
      List<SignId> letters =
          inscription.signs().stream()
              .filter(sign -> sign instanceof Letter)
              .map(Sign::id)
              .toList();
      Set<SignId> withheld = new HashSet<>(letters.subList(from, to + 1));
      return print(Published.of(inscription, because(withheld)));
    } catch (LeidenException e) {
      throw new AssertionError(text, e);
    }
  }

  private static Map<SignId, Set<String>> because(Set<SignId> withheld) {
    Map<SignId, Set<String>> reasons = new HashMap<>();
    withheld.forEach(sign -> reasons.put(sign, Set.of("may be living")));
    return reasons;
  }

  private static String print(Published published) {
    String ab = Xml.print(Epidoc.print(published.inscription(), List.of(), published.withheld()));
    return ab.replaceAll("(?s).*<ab[^>]*>\\s*<lb n=\"1\"/>|</ab>\\s*", "")
        .replaceAll("<gap reason=\"ellipsis\".*?</gap>", "WITHHELD");
  }

  @Test
  void aNameGoesWhole() {
    assertThat(edition("ROBERT | ALICE GARSIDE HIS WIFE", 6, 17))
        .isEqualTo("ROBERT\n<lb n=\"2\"/>WITHHELD HIS WIFE");
    assertThat(edition("HANNAH WREN", 2, 2)).isEqualTo("WITHHELD WREN");
    assertThat(edition("HAN|NAH WREN", 0, 0))
        .isEqualTo("WITHHELD\n<lb n=\"2\" break=\"no\"/>WITHHELD WREN".replace("\n", ""));
  }

  @Test
  void whatIsSaidOfANameGoesWithIt() {
    assertThat(edition("W(illia)^m WREN", 0, 0)).isEqualTo("WITHHELD WREN");
    assertThat(edition("⸢HANAH=HANNAH⸣#note(Hannah) WREN", 0, 4)).isEqualTo("WITHHELD WREN");
    assertThat(edition("Æ(lfred Wren) X", 0, 0)).isEqualTo("WITHHELD X");
    assertThat(edition("HẠN(N or R)AH WREN", 1, 1)).isEqualTo("WITHHELD WREN");
  }

  @Test
  void nothingWithheldIsTheReadingItself() {
    assertThat(edition("HANNAH", 0, -1)).isEqualTo("HANNAH");
  }

  @Test
  void noLetterOfAnyReadingStaysBehindAndTheRestIsValid() {
    EpidocSchema schema = EpidocSchema.orSkip();
    Random random = new Random(13);
    for (int i = 0; i < 200; i++) {
      Inscription inscription = RandomInscription.next(random);
      Set<SignId> withheld = new HashSet<>();
      inscription.signs().stream()
          .filter(sign -> sign instanceof Letter && random.nextInt(4) == 0)
          .forEach(sign -> withheld.add(sign.id()));
      Published published = Published.of(inscription, because(withheld));
      assertThat(
              published.inscription().signs().stream()
                  .filter(sign -> sign instanceof Letter)
                  .map(Sign::id))
          .doesNotContainAnyElementsOf(withheld.isEmpty() ? Set.of(new SignId(9999)) : withheld);
      String ab = Xml.print(Epidoc.print(published.inscription(), List.of(), published.withheld()));
      String content = ab.substring(ab.indexOf("<lb"), ab.lastIndexOf("</ab>"));
      assertThat(schema.errors(EpidocSchema.around(content))).as(content).isEmpty();
    }
  }
}
