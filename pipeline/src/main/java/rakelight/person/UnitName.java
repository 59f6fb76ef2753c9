package rakelight.person;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A unit under arms however it is spelt: {@code CO. B 5TH REGT. SKER. INF.} and {@code Company B, 5
 * Sker. Infantry} are one. Ordinals are numbers, abbreviations are written out, "regiment" and
 * little words are dropped. A word that isn't known stays as it is, so that {@code Sker.} and
 * {@code Skerry} are two: only what is carved often, or stands in the tables here, is taken for
 * one. The tables are common practice, no source.
 *
 * @param company its letter or number with what it is of, such as {@code company b}; empty without
 * @param regiment the rest, in words parted by spaces; empty where only a company is named
 */
public record UnitName(String company, String regiment) {
  private static final Pattern WORD = Pattern.compile("[\\p{L}\\p{N}?…]+(['’]\\p{L}+)?");
  private static final Pattern ORDINAL = Pattern.compile("([0-9]+)(st|nd|rd|th|d)");
  private static final Pattern ROMAN = Pattern.compile("x{0,3}(ix|iv|v?i{0,3})");

  private static final Pattern COMPANY =
      Pattern.compile(
          "(?i)(?<!\\p{L})(?:(?:co|coy|comp|company|troop|trp|squadron|sqn|battery|batty|bat['’]y|bty"
              + "|btry)(?!\\p{L})[.,]?\\s*[\"“]?(?:\\p{L}|[0-9]{1,2})(?![\\p{L}\\p{N}])[\"”]?"
              + "|\\p{L}\\s+(?:co|coy|company|troop|battery)(?!\\p{L}))[.,]*");

  /** What a company is, by how it is written. */
  private static final Map<String, String> COMPANIES =
      Map.ofEntries(
          Map.entry("co", "company"),
          Map.entry("coy", "company"),
          Map.entry("comp", "company"),
          Map.entry("company", "company"),
          Map.entry("troop", "troop"),
          Map.entry("trp", "troop"),
          Map.entry("squadron", "squadron"),
          Map.entry("sqn", "squadron"),
          Map.entry("battery", "battery"),
          Map.entry("batty", "battery"),
          Map.entry("bat'y", "battery"),
          Map.entry("bty", "battery"),
          Map.entry("btry", "battery"));

  private static final Set<String> DROPPED =
      Set.of(
          "regiment", "regt", "rgt", "reg", "regtl", "the", "of", "in", "and", "late", "h", "hm");

  private static final Map<String, String> WHOLE =
      Map.ofEntries(
          Map.entry("inf", "infantry"),
          Map.entry("infy", "infantry"),
          Map.entry("inft", "infantry"),
          Map.entry("cav", "cavalry"),
          Map.entry("cavy", "cavalry"),
          Map.entry("art", "artillery"),
          Map.entry("arty", "artillery"),
          Map.entry("arti", "artillery"),
          Map.entry("artly", "artillery"),
          Map.entry("vol", "volunteers"),
          Map.entry("vols", "volunteers"),
          Map.entry("volunteer", "volunteers"),
          Map.entry("bn", "battalion"),
          Map.entry("batn", "battalion"),
          Map.entry("battn", "battalion"),
          Map.entry("batt", "battalion"),
          Map.entry("brig", "brigade"),
          Map.entry("bde", "brigade"),
          Map.entry("div", "division"),
          Map.entry("fus", "fusiliers"),
          Map.entry("fusrs", "fusiliers"),
          Map.entry("fusileers", "fusiliers"),
          Map.entry("gds", "guards"),
          Map.entry("drag", "dragoons"),
          Map.entry("drags", "dragoons"),
          Map.entry("dgns", "dragoons"),
          Map.entry("hldrs", "highlanders"),
          Map.entry("highrs", "highlanders"),
          Map.entry("eng", "engineers"),
          Map.entry("engs", "engineers"),
          Map.entry("engrs", "engineers"),
          Map.entry("mil", "militia"),
          Map.entry("yeo", "yeomanry"),
          Map.entry("rif", "rifles"),
          Map.entry("rifl", "rifles"),
          Map.entry("rfls", "rifles"),
          Map.entry("rifle", "rifles"),
          Map.entry("hvy", "heavy"),
          Map.entry("lt", "light"),
          Map.entry("mtd", "mounted"),
          Map.entry("grs", "grenadiers"),
          Map.entry("gren", "grenadiers"),
          Map.entry("hus", "hussars"),
          Map.entry("lcrs", "lancers"),
          Map.entry("raf", "royal air force"),
          Map.entry("rfc", "royal flying corps"),
          Map.entry("rfa", "royal field artillery"),
          Map.entry("rga", "royal garrison artillery"),
          Map.entry("ra", "royal artillery"),
          Map.entry("re", "royal engineers"),
          Map.entry("rn", "royal navy"),
          Map.entry("ramc", "royal army medical corps"),
          Map.entry("rasc", "royal army service corps"),
          Map.entry("asc", "army service corps"),
          Map.entry("usn", "united states navy"),
          Map.entry("usmc", "united states marine corps"),
          Map.entry("usa", "united states army"),
          Map.entry("us", "united states"));

  private static final Map<String, String> NUMBERS =
      Map.ofEntries(
          Map.entry("first", "1"),
          Map.entry("second", "2"),
          Map.entry("third", "3"),
          Map.entry("fourth", "4"),
          Map.entry("fifth", "5"),
          Map.entry("sixth", "6"),
          Map.entry("seventh", "7"),
          Map.entry("eighth", "8"),
          Map.entry("ninth", "9"),
          Map.entry("tenth", "10"),
          Map.entry("eleventh", "11"),
          Map.entry("twelfth", "12"));

  /** States as their soldiers' stones shorten them. */
  private static final Map<String, String> STATES =
      Map.ofEntries(
          Map.entry("ala", "alabama"),
          Map.entry("ark", "arkansas"),
          Map.entry("cal", "california"),
          Map.entry("conn", "connecticut"),
          Map.entry("del", "delaware"),
          Map.entry("fla", "florida"),
          Map.entry("ga", "georgia"),
          Map.entry("ill", "illinois"),
          Map.entry("ind", "indiana"),
          Map.entry("kans", "kansas"),
          Map.entry("ky", "kentucky"),
          Map.entry("la", "louisiana"),
          Map.entry("mass", "massachusetts"),
          Map.entry("md", "maryland"),
          Map.entry("me", "maine"),
          Map.entry("mich", "michigan"),
          Map.entry("minn", "minnesota"),
          Map.entry("miss", "mississippi"),
          Map.entry("mo", "missouri"),
          Map.entry("nc", "north carolina"),
          Map.entry("nh", "new hampshire"),
          Map.entry("nj", "new jersey"),
          Map.entry("ny", "new york"),
          Map.entry("pa", "pennsylvania"),
          Map.entry("penn", "pennsylvania"),
          Map.entry("penna", "pennsylvania"),
          Map.entry("ri", "rhode island"),
          Map.entry("sc", "south carolina"),
          Map.entry("tenn", "tennessee"),
          Map.entry("tex", "texas"),
          Map.entry("va", "virginia"),
          Map.entry("vt", "vermont"),
          Map.entry("wis", "wisconsin"));

  /** The unit that these words of a stone name. */
  public static UnitName of(String carved) {
    List<String> words = words(carved);
    Optional<String> company = Optional.empty();
    List<String> rest = new ArrayList<>();
    for (int i = 0; i < words.size(); i++) {
      String kind = COMPANIES.getOrDefault(words.get(i), "");
      boolean beforeIt = i + 1 < words.size() && isCompany(words.get(i + 1));
      boolean afterIt = !rest.isEmpty() && rest.get(rest.size() - 1).matches("\\p{L}");
      if (kind.isEmpty() || company.isPresent()) {
        rest.add(words.get(i));
      } else if (beforeIt) {
        company = Optional.of(kind + " " + number(words.get(++i)));
      } else if (afterIt) {
        company = Optional.of(kind + " " + rest.remove(rest.size() - 1));
      } else {
        rest.add(words.get(i));
      }
    }
    return new UnitName(company.orElse(""), regiment(rest));
  }

  /** The words as carved without those of the company; all of them where nothing else is left. */
  public static String withoutCompany(String carved) {
    String left = COMPANY.matcher(carved).replaceFirst("").replaceAll("^[\\s,.]+|[\\s,]+$", "");
    return left.isEmpty() ? carved : left;
  }

  private static boolean isCompany(String word) {
    return word.matches("\\p{L}|[0-9]{1,2}");
  }

  /** Words without points, single letters with a point after each drawn together: {@code R.A.}. */
  private static List<String> words(String carved) {
    String drawn =
        carved
            .replace(" / ", " ")
            .toLowerCase(Locale.ROOT)
            .replaceAll("(?<![\\p{L}\\p{N}])(\\p{L})\\.\\s?(?=\\p{L}(?:\\.|\\s|$))", "$1");
    List<String> words = new ArrayList<>();
    Matcher word = WORD.matcher(drawn);
    while (word.find()) {
      words.add(word.group().replace('’', '\''));
    }
    return words;
  }

  private static String regiment(List<String> words) {
    List<String> told = new ArrayList<>();
    for (int i = 0; i < words.size(); i++) {
      String word = words.get(i);
      if (!DROPPED.contains(word)) {
        String whole = WHOLE.getOrDefault(word, STATES.getOrDefault(word, word));
        boolean roman = i == 0 && word.length() > 1 && ROMAN.matcher(word).matches();
        told.add(roman ? String.valueOf(roman(word)) : number(whole));
      }
    }
    return String.join(" ", told);
  }

  private static String number(String word) {
    Matcher ordinal = ORDINAL.matcher(word);
    String bare = ordinal.matches() ? ordinal.group(1) : NUMBERS.getOrDefault(word, word);
    return bare.matches("0+[0-9]+") ? bare.replaceFirst("^0+", "") : bare;
  }

  private static int roman(String word) {
    int sum = 0;
    for (int i = 0; i < word.length(); i++) {
      int value = value(word.charAt(i));
      boolean less = i + 1 < word.length() && value < value(word.charAt(i + 1));
      sum += less ? -value : value;
    }
    return sum;
  }

  private static int value(char sign) {
    return sign == 'x' ? 10 : sign == 'v' ? 5 : 1;
  }
}
