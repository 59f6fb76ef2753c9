package rakelight.publish.epidoc;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.RandomInscription;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;

/** What holds for every reading and for every edition. */
class EpidocLawsTest {
  @Provide
  Arbitrary<Inscription> readings() {
    return Arbitraries.longs().map(seed -> RandomInscription.next(new Random(seed)));
  }

  @Provide
  Arbitrary<String> scribbles() {
    Arbitrary<String> parts =
        Arbitraries.of(
            "<supplied reason=\"lost\">",
            "</supplied>",
            "<supplied reason=\"omitted\">",
            "<ex>",
            "</ex>",
            "<expan>",
            "</expan>",
            "<abbr>",
            "</abbr>",
            "<hi rend=\"ligature\">",
            "</hi>",
            "<hi rend=\"ligature next\">",
            "<del>",
            "</del>",
            "<lb/>",
            "<lb break=\"no\"/>",
            "a",
            "B",
            " ",
            "\n",
            "1",
            "é",
            "<unclear>",
            "</unclear>",
            "<choice>",
            "</choice>",
            "<gap reason=\"lost\"/>",
            "<gap quantity=\"-1\"/>",
            "<space/>",
            "<note>n</note>",
            "<note/>",
            "<orig>",
            "</orig>",
            "<surplus>",
            "</surplus>",
            "<am>",
            "</am>",
            "<sic>",
            "</sic>",
            "<corr>",
            "</corr>",
            "<damage>",
            "</damage>",
            "<num value=\"7\">",
            "</num>",
            "<seg type=\"expansion\">",
            "</seg>",
            "&amp;",
            "&lt;",
            "ạ",
            "\u0323",
            "<!--x-->");
    return parts.list().ofMinSize(0).ofMaxSize(20).map(list -> String.join("", list));
  }

  @Property(tries = 1000)
  void aReadingMarkedUpIsReadBackIdsIncluded(@ForAll("readings") Inscription reading)
      throws EpidocException {
    Inscription moved = withOtherIds(reading);
    byte[] document = Xml.print(Epidoc.print(moved)).getBytes(StandardCharsets.UTF_8);
    Epidoc.Edition back = Epidoc.parse(Xml.parse(document));
    assertThat(back.remarks()).isEmpty();
    assertThat(Epidoc.withSignIds(back.inscription(), Epidoc.signIds(moved))).contains(moved);
  }

  @Property(tries = 1000)
  void noEditionDoesWorseThanBeRefused(@ForAll("scribbles") String content) {
    try {
      Inscription read =
          Epidoc.parse(
                  Xml.parse(EpidocSchema.around(content).getBytes(StandardCharsets.UTF_8))
                      .first("text", "body", "div", "ab")
                      .orElseThrow())
              .inscription();
      assertThat(Epidoc.parse(Epidoc.print(read)).inscription()).isEqualTo(read);
    } catch (EpidocException e) {
      assertThat(e).hasMessageStartingWith("line ");
    }
  }

  @Test
  void everyReadingMarkedUpIsValid() {
    EpidocSchema schema = EpidocSchema.orSkip();
    Random random = new Random(7);
    for (int i = 0; i < 400; i++) {
      Inscription reading = RandomInscription.next(random);
      String ab = Xml.print(Epidoc.print(reading)).replaceFirst("(?s).*?<ab[^>]*>", "");
      String edition = ab.substring(0, ab.lastIndexOf("</ab>"));
      assertThat(schema.errors(EpidocSchema.around(edition)))
          .as("%s%n%s", Leiden.print(reading), edition)
          .isEmpty();
    }
  }

  /** As a reading that has been corrected many times. */
  private static Inscription withOtherIds(Inscription reading) {
    Map<SignId, SignId> newIds = new HashMap<>();
    for (Sign sign : reading.signs()) {
      newIds.put(sign.id(), new SignId(2000 - sign.id().number() % 7 * 250 - sign.id().number()));
    }
    return reading.withIds(newIds);
  }
}
