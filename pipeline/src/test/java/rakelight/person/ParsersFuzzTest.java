package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rakelight.archive.Table;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.person.calendar.CalendarChange;
import rakelight.person.calendar.MonthName;
import rakelight.person.calendar.RomanDate;
import rakelight.person.calendar.RomanNumeral;
import rakelight.person.edtf.Edtf;

/**
 * No text crashes a parser: each either reads it or refuses it in the way it says it does. A second
 * here; as long as wished with {@code -Drakelight.fuzz.seconds=300}.
 */
class ParsersFuzzTest {
  private static final long SECONDS = Long.getLong("rakelight.fuzz.seconds", 1);
  private static final String[] PIECES = {
    "[",
    "]",
    "[...]",
    "[- - -]",
    "(",
    ")",
    "(vac.)",
    "(3 or 8)",
    "+",
    "|",
    "/",
    "<",
    ">",
    "{",
    "}",
    "⸢",
    "⸣",
    "〚",
    "〛",
    "«",
    "»",
    "`",
    "´",
    "\u0323",
    "\u0332",
    "\u0361",
    "?",
    "\n",
    "\t",
    " ",
    "died",
    "born",
    "aged",
    "in the",
    "year of his age",
    "wife of",
    "his wife",
    "children of",
    "also",
    "&",
    "In memory of",
    "Here lyes",
    "JOHN",
    "Mary",
    "WREN",
    "Capt.",
    "née",
    "relict",
    "their",
    "anno",
    "aetatis",
    "suae",
    "XIV",
    "MDCC",
    "IV Non. Oct.",
    "9ber",
    "1 mo",
    "inst.",
    "ult.",
    "Friday",
    "1731/2",
    "1848",
    "18[..]",
    "0000",
    "Feb. 30",
    "31",
    "29",
    "Y170000002",
    "1984~",
    "201X",
    "..",
    "[1667,1668]",
    "{1960}",
    "2004-06-XX/2004-07-03",
    "E7",
    "S3",
    "-",
    "–",
    "·",
    ",",
    "surname,died\n",
    "\"",
    "\r\n",
    "CO. B",
    "the above",
    "the said",
    "formerly",
    "alias",
    "He",
    "the latter",
    "sadly missed by",
    "Erected by",
    "b.",
    "d.",
    "1850-1920",
    "1942-",
    "12-30-1861",
    "4/7/1863",
    "Good Friday",
    "2½ years",
    "seventy four",
    "wanting 3 days of",
    "XVI Kal. Mart.",
    "obiit",
    "uxor",
    "twin",
    "H. S. E.",
    "12345 PRIVATE",
    "ROYAL",
    "REGIMENT",
    "blacksmith",
    "a native of",
    "INF.",
    "Rev. xiv. 13",
    "drowned",
    "of",
    "removed from",
    "first interred",
    "é",
    "ſ",
    "ʸ",
    "þ",
    "\uD83D\uDE00",
    "\uD800",
    "\u0000",
    "99999999999999999999",
    "ↀ",
    "CIↃ"
  };

  @Test
  void noTextCrashesAParser() {
    long seed = System.nanoTime();
    Random random = new Random(seed);
    long until = System.nanoTime() + SECONDS * 1_000_000_000L;
    long tried = 0;
    while (System.nanoTime() < until) {
      String text = text(random);
      try {
        leiden(text);
        edtf(text);
        sought(text);
        CalendarChange.parse("british");
        calendar(text);
        MonthName.parse(text);
        RomanNumeral.parse(text);
        RomanDate.parse(text);
      } catch (RuntimeException e) {
        throw new AssertionError("seed " + seed + ", text “" + text + "”", e);
      }
      tried++;
    }
    System.out.println("fuzzed " + tried + " texts in " + SECONDS + " s, seed " + seed);
    assertThat(tried).isPositive();
  }

  private static String text(Random random) {
    StringBuilder text = new StringBuilder();
    int pieces = random.nextInt(14);
    for (int i = 0; i < pieces; i++) {
      int kind = random.nextInt(8);
      if (kind == 0) {
        text.append((char) random.nextInt(0x250));
      } else if (kind == 1) {
        text.append(random.nextInt(3000));
      } else {
        text.append(PIECES[random.nextInt(PIECES.length)]);
      }
      text.append(random.nextInt(3) > 0 ? " " : "");
    }
    return text.toString();
  }

  private static void leiden(String text) {
    Inscription inscription;
    try {
      inscription = Leiden.parse(text);
    } catch (LeidenException refused) {
      return;
    }
    List<Statement> statements = Statements.of(inscription, CalendarChange.BRITISH);
    for (Statement statement : statements) {
      if (statement.isDate()) {
        assertThat(Edtf.parse(statement.value())).as(text).isNotNull();
      }
    }
    KinAgreement.of(statements);
  }

  private static void edtf(String text) {
    try {
      Edtf date = Edtf.parse(text.strip());
      assertThat(Edtf.parse(date.toString())).isEqualTo(date);
    } catch (IllegalArgumentException refused) {
      assertThat(refused.getMessage()).isNotBlank();
    }
  }

  private static void sought(String text) {
    try {
      SoughtFile.parse(text, "fuzz.csv", CalendarChange.BRITISH);
    } catch (Table.RefusedException refused) {
      assertThat(refused.problems()).isNotEmpty();
    }
  }

  private static void calendar(String text) {
    try {
      CalendarChange.parse(text);
    } catch (IllegalArgumentException refused) {
      assertThat(refused.getMessage()).contains("1752-09-14");
    }
  }
}
