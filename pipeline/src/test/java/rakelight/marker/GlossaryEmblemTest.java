package rakelight.marker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Emblems as CHECKS-guide.md, part B, has them, with the sources named there. */
class GlossaryEmblemTest {
  private static final Map<String, GlossaryEmblem.Strength> STRENGTHS =
      Map.of(
          "A", GlossaryEmblem.Strength.MANY_AGREE,
          "B", GlossaryEmblem.Strength.POPULAR_LISTS,
          "C", GlossaryEmblem.Strength.DISPUTED);

  private static GlossaryEmblem named(String name) {
    return GlossaryEmblem.named(name).orElseThrow();
  }

  /**
   * How far sources agree: A scholars, officials or the sign itself, B popular lists, C thin or
   * conflicting. Willsher, 1985; City of Boston; Wolsey, Tulliallan; Lea, Swithland; Craughwell
   * study; and the lists named in part B.
   */
  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '"',
      value = {
        "clasped hands|A|parting",
        "hand, finger up|B|heaven",
        "hand, finger down|C|sudden death",
        "hand with book|C|clergy",
        "praying hands|B|devotion",
        "lamb|B|innocence",
        "dove|B|Holy Spirit",
        "winged death's head|A|new life",
        "skull and crossed bones|A|death comes to all",
        "winged face|C|soul rising",
        "hourglass|A|time",
        "coffin|A|death",
        "spade and turf cutter|A|sexton",
        "dead bell|A|funeral bell",
        "scythe, dart or bow|A|weapons of Death",
        "Father Time|A|time",
        "skeleton|A|Death in person",
        "Adam and Eve|A|Fall",
        "angel with trumpet|A|resurrection",
        "scales|A|weighed",
        "torch|B|eternal life",
        "snake in a ring|A|eternity",
        "urn|A|mourning",
        "willow|A|mourning",
        "broken column|B|head of a family",
        "obelisk|C|Egyptian",
        "anchor|A|hope",
        "ship|C|voyage",
        "crown|B|righteousness",
        "heart|A|married pair",
        "IHS|A|Iesus Hominum Salvator",
        "ringed cross|B|Irish",
        "shamrock, thistle or harp|B|nation",
        "open book|B|Bible",
        "gates ajar|B|heaven",
        "sheaf of wheat|B|full age",
        "ivy, oak, palm or laurel|B|victory",
        "rose|C|age",
        "lily|B|purity",
        "poppy|B|sleep",
        "tree stump|B|life cut short",
        "butterfly|C|soul",
        "scallop shell|B|baptism",
        "weeping figure|B|grief",
        "square and compasses|A|Freemason",
        "three links|A|Odd Fellow",
        "trade tools|A|occupation",
        "priestly hands|A|Cohen",
        "ewer|A|Levite",
        "candlestick|B|woman",
        "six-pointed star|A|Jewish",
        "lion, deer, bear or wolf|B|name or tribe",
        "crescent|A|Shriner",
        "turban on a pillar|A|man of rank",
        "standing rough stone|C|revival",
        "sword, cannon, drum or flag|C|faith",
        "shield|C|arms",
      })
  void eachEmblemHasItsReadingAndItsStrength(String name, String strength, String reading) {
    GlossaryEmblem emblem = named(name);
    assertThat(emblem.strength()).isEqualTo(STRENGTHS.get(strength));
    assertThat(String.join("; ", emblem.readings())).contains(reading);
    assertThat(emblem.mistakenFor()).isNotBlank();
    assertThat(emblem.neverProves()).isNotBlank();
    assertThat(emblem.source()).isNotBlank();
  }

  /** What CHECKS.md, section 14, says of the trade: common practice, no source. */
  @Test
  void whatTheTradeWarnsOfIsSaid() {
    assertThat(named("lamb").neverProves()).contains("age");
    assertThat(named("anchor").neverProves()).contains("service");
    assertThat(named("sword, cannon, drum or flag").readings())
        .anyMatch(one -> one.contains("faith"));
    assertThat(named("star on a ribbon under an eagle").neverProves()).contains("award");
    assertThat(named("clasped hands").neverProves()).contains("which of the two died");
    assertThat(named("obelisk").mistakenFor()).contains("tip");
    assertThat(named("broken column").mistakenFor()).contains("dressed");
  }

  /** Part A 3 and B: Markers XVII, 2000; a veterans' society's badge and a decoration. */
  @Test
  void whatAloneProvesNothingSaysWhatWouldProveIt() {
    assertThat(named("tree stump").neverProves()).contains("letters or sign");
    assertThat(named("star on a ribbon under an eagle").readings())
        .anyMatch(one -> one.contains("legend"));
    assertThat(named("priestly hands").neverProves()).contains("rabbi");
    assertThat(named("ringed cross").neverProves()).contains("19th century");
  }
}
