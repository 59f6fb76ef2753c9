package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Faces in forms that somebody wrote who never saw the rules for the living, {@code
 * samples/inscriptions/living.txt}, each filled in once, or {@code -Drakelight.living.times} times.
 * A name of somebody living is of nobody dead, and a year of the living is even, one of the dead
 * odd.
 */
class LivingFormsTest {
  private static final int TIMES = Integer.getInteger("rakelight.living.times", 1);
  private static final long SEED = 20261130;
  private static final Path FORMS = Path.of("../samples/inscriptions/living.txt");

  /** "KYLIE / DARLING WIFE OF / ALBERT WHO DIED 1990" reads as the wife's own death. */
  private static final String UNTOLD = "F032";

  private static final Pattern PLACE =
      Pattern.compile("\\{(LS|L|D|S|LY|DB|DD)(\\d)([fmi]?)(~?)(?::(\\d{4})-(\\d{4}))?}");
  private static final Pattern ID =
      Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");

  /** Given names of the living by language, women's and men's. */
  private static final Map<String, List<String>> LIVING =
      Map.ofEntries(
          names(
              "",
              "Kylie Sharon Maureen Gillian Yvonne Zoë Aisling Xanthia Jodie Chantelle",
              "Darren Craig Kevin Stuart Nigel Tyrone Hamish Jayden Quenby Ravinder"),
          names("WELSH", "Eirlys Gwenllian Blodwen", "Hefin Iolo Rhodri"),
          names("IRISH", "Caoimhe Sorcha Siobhán", "Fiachra Tadhg Cormac"),
          names("GAELIC", "Mòrag Oighrig Seonaid", "Ruairidh Torcuil Coinneach"),
          names("POLISH", "Jadwiga Bożena Halina", "Zbigniew Leszek Paweł"),
          names("CZECH", "Zdeňka Libuše Jarmila", "Bohumil Zdeněk Vlastimil"),
          names("CHINESE", "美玲 淑芬 麗華 秀英", "志明 家豪 俊傑 建國"),
          names("JAPANESE", "千代子 和子 幸子", "健一 正雄 義男"),
          names("PUNJABI", "Harpreet Simran Gurinder", "Gurdeep Manjit Balbir"),
          names("GREEK", "Ελένη Δέσποινα Κατερίνα", "Σταύρος Παναγιώτης Θανάσης"),
          names("SERBIAN", "Милица Драгана Јелена", "Драган Милош Живко"),
          names("UKRAINIAN", "Оксана Галина Дарія", "Тарас Богдан Остап"),
          names("CROATIAN", "Zrinka Dubravka Snježana", "Zvonimir Dražen Hrvoje"),
          names("ITALIAN", "Concetta Giuseppina Carmela", "Gaetano Salvatore Rocco"),
          names("JEWISH", "Shoshana Rivka Tzipora", "Menachem Yehuda Avrom"),
          names("GERMAN", "Heike Ingeborg Liesel", "Jürgen Detlef Günther"),
          names("FRENCH", "Solange Ghislaine Mireille", "Thibault Gaétan Loïc"),
          names("SPANISH", "Consuelo Remedios Guadalupe", "Joaquín Ramiro Fulgencio"),
          names("PORTUGUESE", "Conceição Fátima Lurdes", "João Nuno Vasco"),
          names("AFRIKAANS", "Annelie Hettie Marietjie", "Hannes Kobus Gideon"),
          names("ZULU", "Nomvula Thandeka Zanele", "Sipho Bhekizizwe Mandla"),
          names("MAORI", "Ngaire Hinemoa Aroha", "Wiremu Tāmati Hoani"),
          names("VIETNAMESE", "Hương Nguyệt Thủy", "Tuấn Dũng Khải"));

  private static final List<String> WOMEN =
      List.of("Elsie", "Mabel", "Edith", "Doris", "Florence", "Agnes");
  private static final List<String> MEN =
      List.of("Albert", "Stanley", "Herbert", "Wilfred", "Cyril", "Ernest");
  private static final List<String> SURNAMES =
      List.of("Cobley", "Thornwick", "Pellgrave", "Hadstead", "Oakshaw", "Wexby");
  private static final String LIVING_SURNAME = "Trevanyon";

  @TempDir static Path folder;
  private static final Set<String> NOBODY_LIVING = new LinkedHashSet<>();
  private static final Map<String, Carved> CARVED = new LinkedHashMap<>();
  private static PublicDoors doors;

  /** One face: its form, and what of it may not be told or may. */
  private record Carved(String form, Set<String> living, Set<String> years, Set<String> dead) {}

  private static Map.Entry<String, List<String>> names(String language, String women, String men) {
    return Map.entry(language, List.of(women, men));
  }

  @BeforeAll
  static void publish() throws IOException {
    List<String> rows = new ArrayList<>();
    Random random = new Random(SEED);
    String[] blocks = Files.readString(FORMS).split("\\n\\s*\\n(?=face )");
    for (int i = 0; i < TIMES; i++) {
      for (String block : blocks) {
        if (block.startsWith("face ")) {
          carve(block, i, random, rows);
        }
      }
    }
    doors = PublicDoors.of(folder, rows);
  }

  @Test
  void nobodyWhoMayBeLivingIsNamedByAnyDoor() {
    Map<String, Set<String>> told = new TreeMap<>();
    CARVED.forEach(
        (marker, face) ->
            face.living().stream()
                .filter(name -> !face.form().equals(UNTOLD))
                .forEach(
                    name ->
                        sayings(marker, name)
                            .forEach(s -> put(told, face.form() + " " + name, s))));
    assertThat(told).as("names of the living").isEmpty();
  }

  @Test
  void noBirthOfSomebodyLivingIsTold() {
    Map<String, Set<String>> told = new TreeMap<>();
    CARVED.forEach(
        (marker, face) ->
            face.years()
                .forEach(
                    year ->
                        sayings(marker, year)
                            .forEach(s -> put(told, face.form() + " " + year, s))));
    assertThat(told).as("years of the living").isEmpty();
  }

  /** Where nobody living is named the dead are told, but for a face now and then. */
  @Test
  void theLongDeadAreTold() {
    List<String> silent = new ArrayList<>();
    int named = 0;
    for (Map.Entry<String, Carved> face : CARVED.entrySet()) {
      if (NOBODY_LIVING.contains(face.getValue().form())) {
        for (String name : face.getValue().dead()) {
          named++;
          if (sayings(face.getKey(), name).isEmpty()) {
            silent.add(face.getValue().form() + " " + name);
          }
        }
      }
    }
    assertThat(silent.size()).as(silent.toString()).isLessThan(named / 2);
  }

  private static void put(Map<String, Set<String>> told, String key, String saying) {
    told.computeIfAbsent(key, k -> new LinkedHashSet<>()).add(saying);
  }

  /** Where a word stands in what is written of a marker: its file, and the rows that name it. */
  private static List<String> sayings(String marker, String word) {
    Pattern pattern =
        Pattern.compile(
            isIdeographic(word)
                ? Pattern.quote(word)
                : "(?<![\\p{L}\\d])" + worn(word) + "(?![\\p{L}\\d])",
            Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);
    List<String> found = new ArrayList<>();
    for (Map.Entry<String, String> door : of(marker).entrySet()) {
      Matcher matcher = pattern.matcher(door.getValue());
      if (matcher.find()) {
        found.add(door.getKey() + ": " + PublicDoors.around(door.getValue(), matcher.start()));
      }
    }
    return found;
  }

  private static boolean isIdeographic(String word) {
    return word.codePoints().anyMatch(Character::isIdeographic);
  }

  private static String worn(String word) {
    // A lost letter is written by signs or as the letter it was, not by several others.
    return word.contains("[.]")
        ? word.replace("[.]", "(?:[^\\p{L}\\s]{0,5}|\\p{L})")
        : Pattern.quote(word);
  }

  private static final Map<String, Map<String, String>> OF = new HashMap<>();

  private static Map<String, String> of(String marker) {
    return OF.computeIfAbsent(
        marker,
        m -> {
          Map<String, String> texts = new HashMap<>();
          Pattern label = Pattern.compile("(?<![\\w])" + m + "(?![\\w])");
          doors
              .texts()
              .forEach(
                  (door, text) -> {
                    String plain =
                        door.startsWith(m + "-")
                            ? text.replaceAll("<[^>]+>", "")
                            : text.lines()
                                .filter(line -> label.matcher(line).find())
                                .collect(Collectors.joining("\n"));
                    texts.put(door, ID.matcher(plain).replaceAll(""));
                  });
          return texts;
        });
  }

  private static void carve(String block, int time, Random random, List<String> rows) {
    List<String> lines = new ArrayList<>(List.of(block.strip().split("\n")));
    String form = lines.remove(0).substring(5).strip();
    String remark = lines.remove(lines.size() - 1).substring(1).strip();
    String language =
        LIVING.keySet().stream()
            .filter(l -> !l.isEmpty() && remark.matches("(?s).*\\b" + l + "\\b.*"))
            .findFirst()
            .orElse("");
    boolean capitals = remark.contains("ALLCAPS");
    boolean lower = remark.contains("LOWERCASE");
    String marker = form + "T" + time;
    Set<String> literal =
        Pattern.compile("\\d{4}")
            .matcher(PLACE.matcher(block).replaceAll(""))
            .results()
            .map(MatchResult::group)
            .collect(Collectors.toSet());
    Map<String, String> filled = new HashMap<>();
    Carved carved =
        new Carved(form, new LinkedHashSet<>(), new LinkedHashSet<>(), new LinkedHashSet<>());
    for (int i = 0; i < lines.size(); i++) {
      String line =
          PLACE
              .matcher(lines.get(i))
              .replaceAll(
                  place ->
                      Matcher.quoteReplacement(
                          cased(
                              fill(place, language, literal, random, filled, carved),
                              capitals,
                              lower)));
      rows.add(marker + "\tfront\t" + (i + 1) + "\t" + line);
    }
    CARVED.put(marker, carved);
    if (remark.contains("NONELIVING")) {
      NOBODY_LIVING.add(form);
    }
  }

  private static String cased(String word, boolean capitals, boolean lower) {
    return capitals ? word.toUpperCase(Locale.ROOT) : lower ? word.toLowerCase(Locale.ROOT) : word;
  }

  private static String fill(
      MatchResult place,
      String language,
      Set<String> literal,
      Random random,
      Map<String, String> filled,
      Carved carved) {
    String kind = place.group(1);
    boolean woman =
        place.group(3).equals("f") || (place.group(3).equals("i") && random.nextBoolean());
    String known = filled.get(kind + place.group(2));
    String word =
        known != null
            ? known
            : switch (kind) {
              case "LS" -> LIVING_SURNAME;
              case "S" -> unused(SURNAMES, filled, random);
              case "D" -> unused(woman ? WOMEN : MEN, filled, random);
              case "L" ->
                  unused(
                      List.of(
                          LIVING.getOrDefault(language, List.of()).get(woman ? 0 : 1).split(" ")),
                      filled,
                      random);
              default -> year(kind, place, literal, filled, random);
            };
    filled.put(kind + place.group(2), word);
    if (place.group(3).equals("i")) {
      return word.substring(0, 1);
    }
    String shown =
        place.group(4).isEmpty() ? word : word.substring(0, 2) + "[.]" + word.substring(3);
    switch (kind) {
      case "L", "LS" -> carved.living().add(shown);
      case "LY" -> carved.years().add(word);
      case "D" -> carved.dead().add(word);
      default -> {}
    }
    return shown;
  }

  /** A name that stands for nobody else on the face, while there is one. */
  private static String unused(List<String> names, Map<String, String> filled, Random random) {
    List<String> free = names.stream().filter(name -> !filled.containsValue(name)).toList();
    List<String> from =
        free.isEmpty()
            ? LIVING.getOrDefault("", List.of()).stream()
                .flatMap(n -> List.of(n.split(" ")).stream())
                .filter(n -> !filled.containsValue(n))
                .toList()
            : free;
    return from.get(random.nextInt(from.size()));
  }

  /** An even year of somebody living, an odd one of somebody dead, that isn't carved besides. */
  private static String year(
      String kind,
      MatchResult place,
      Set<String> literal,
      Map<String, String> filled,
      Random random) {
    int from = Integer.parseInt(place.group(5));
    int to = Integer.parseInt(place.group(6));
    int parity = kind.equals("LY") ? 0 : 1;
    while (true) {
      int year = from + random.nextInt(to - from + 1);
      year += (year % 2 == parity) ? 0 : year < to ? 1 : -1;
      String word = Integer.toString(year);
      if (!literal.contains(word) && !filled.containsValue(word)) {
        return word;
      }
    }
  }
}
