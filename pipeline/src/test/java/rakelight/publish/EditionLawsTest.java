package rakelight.publish;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.publish.Withholding.Cause;
import rakelight.publish.Withholding.Subject;

/**
 * Whatever is withheld of whatever ground, no file of an export holds a given name or a year of it,
 * and what is told of is there. Every given name and every year stands once on the ground, so that
 * finding one is finding its person.
 */
class EditionLawsTest {
  private static final int YEARS = 75;
  private static final List<String> NAMES =
      List.of(
          "AARON",
          "ABNER",
          "ADELINE",
          "AGNES",
          "AMBROSE",
          "AMOS",
          "BARNABY",
          "BEATRICE",
          "CALEB",
          "CAROLINE",
          "CHLOE",
          "CLARA",
          "CYRUS",
          "DEBORAH",
          "DORCAS",
          "EDMUND",
          "ELSIE",
          "EMILY",
          "ENOCH",
          "ESTHER",
          "FERGUS",
          "FLORA",
          "GIDEON",
          "GILBERT",
          "HARRIET",
          "HESTER",
          "HIRAM",
          "ISAAC",
          "JABEZ",
          "JEMIMA",
          "JOSIAH",
          "KETURAH",
          "LAVINIA",
          "LEMUEL",
          "LYDIA",
          "MABEL");
  private static final Set<String> WOMEN =
      Set.of(
          "ADELINE",
          "AGNES",
          "BEATRICE",
          "CAROLINE",
          "CHLOE",
          "CLARA",
          "DEBORAH",
          "DORCAS",
          "ELSIE",
          "EMILY",
          "ESTHER",
          "FLORA",
          "HARRIET",
          "HESTER",
          "JEMIMA",
          "KETURAH",
          "LAVINIA",
          "LYDIA",
          "MABEL");
  private static final List<String> SURNAMES = List.of("GARSIDE", "LIDGATE", "SALLOW", "QUILLAN");

  private final Map<String, Set<String>> yearsOf = new HashMap<>();
  private final Map<String, Integer> deathOf = new HashMap<>();
  private final Set<String> living = new HashSet<>();
  private List<String> names = List.of();
  private List<Integer> years = List.of();
  private int nextName;
  private int nextYear;

  @Property(tries = 25, shrinking = ShrinkingMode.OFF)
  void nothingWithheldIsInAnyFileAndWhatIsToldIs(@ForAll Random random) throws IOException {
    Path folder = Files.createTempDirectory("edition-laws");
    try (SmallGround ground = new SmallGround(folder)) {
      yearsOf.clear();
      deathOf.clear();
      living.clear();
      shuffle(random);
      int stones = 2 + random.nextInt(3);
      for (int i = 1; i <= stones; i++) {
        carve(ground, Integer.toString(i), random);
      }
      check(ground, random);
    } finally {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(file);
        }
      }
    }
  }

  private void shuffle(Random random) {
    names = new ArrayList<>(NAMES);
    Collections.shuffle(names, random);
    years = new ArrayList<>();
    // As carved, the living are born from 1930 on; before that everybody is dead. Before the
    // calendar
    // changed a date may be of two years.
    for (int year = 1753; year < 1930; year++) {
      years.add(year);
    }
    Collections.shuffle(years, random);
    nextName = 0;
    nextYear = 0;
  }

  /** One or two faces, each of one to three persons, some of them read wrongly at first. */
  private void carve(SmallGround ground, String marker, Random random) {
    String surname = SURNAMES.get(Integer.parseInt(marker) % SURNAMES.size());
    for (String face : random.nextBoolean() ? List.of("front") : List.of("front", "back")) {
      StringBuilder text = new StringBuilder();
      int persons = 1 + random.nextInt(3);
      for (int i = 0; i < persons; i++) {
        text.append(i == 0 ? "" : " | ").append(person(surname, i, random));
      }
      if (random.nextInt(3) == 0) {
        String wrong = names.get(nextName - 1);
        ground.stone(marker, face, text.toString().replace(wrong, misread(wrong)));
      }
      ground.stone(marker, face, text.toString());
    }
  }

  private static String misread(String name) {
    return name.replace(name.charAt(1), 'X');
  }

  private String person(String surname, int place, Random random) {
    String name = names.get(nextName++);
    int year = years.get(nextYear++);
    String whole = (place == 0 || random.nextBoolean() ? name + " " + surname : name);
    String kin = place > 0 && random.nextInt(3) > 0 ? kin(name, random.nextBoolean()) : "";
    if (random.nextInt(5) == 0) {
      int born = 1930 + nextYear;
      living.add(name);
      yearsOf.put(name, Set.of(Integer.toString(born)));
      return whole + kin + " | born " + born;
    }
    if (random.nextInt(4) == 0) {
      int born = years.get(nextYear++);
      int first = Math.min(year, born);
      int last = Math.max(year, born);
      deathOf.put(name, last);
      yearsOf.put(name, Set.of(Integer.toString(first), Integer.toString(last)));
      return whole + kin + " | " + first + " - " + last;
    }
    deathOf.put(name, year);
    yearsOf.put(name, Set.of(Integer.toString(year)));
    return "In memory of | " + whole + kin + " | died " + day(random) + " " + year;
  }

  private static String kin(String name, boolean either) {
    return !WOMEN.contains(name) ? " their son" : either ? " HIS WIFE" : " their daughter";
  }

  private static String day(Random random) {
    return (1 + random.nextInt(28)) + " " + List.of("March", "Aug.", "Octr").get(random.nextInt(3));
  }

  private void check(SmallGround ground, Random random) throws IOException {
    Set<String> withheld = new HashSet<>(living);
    List<Mention> mentions = People.of(ground.archive).mentions();
    Set<String> found = new HashSet<>();
    mentions.forEach(mention -> found.add(name(mention)));
    for (Mention mention : mentions) {
      if (random.nextInt(6) == 0) {
        ground.withhold(new Subject.OfPerson(mention.id()), Cause.FAMILY);
        withheld.add(name(mention));
      }
      if (random.nextInt(10) == 0) {
        ground.withhold(new Subject.OfFace(mention.id().face()), Cause.KEEPER);
        mentions.stream()
            .filter(other -> other.id().face().equals(mention.id().face()))
            .forEach(other -> withheld.add(name(other)));
      }
      if (random.nextInt(15) == 0) {
        ground.withhold(new Subject.OfMarker(mention.source().marker().id()), Cause.TAKEN_DOWN);
        sameMarker(mentions, mention).forEach(other -> withheld.add(name(other)));
      }
    }
    if (random.nextInt(3) == 0) {
      ground.withholdings.tellAfter(OptionalInt.of(YEARS + 50), "Ada Penrose");
      int latestTold = SmallGround.TODAY.getYear() - YEARS - 50;
      for (Mention mention : mentions) {
        int latest =
            sameMarker(mentions, mention).stream()
                .mapToInt(other -> deathOf.getOrDefault(name(other), 0))
                .max()
                .orElse(0);
        // In the year of the border the day decides; that is EditionTest's.
        if (latest > latestTold
            || latest == 0
            || deathOf.getOrDefault(name(mention), Integer.MAX_VALUE) > latestTold) {
          withheld.add(name(mention));
        }
      }
    }
    Set<String> told = new HashSet<>();
    ground.edition().persons().forEach(p -> p.mentions().forEach(m -> told.add(name(m))));
    // The days on which readings were signed have figures of their own.
    String words =
        ground
            .exported()
            .toUpperCase(Locale.ROOT)
            .replaceAll("20[0-9]{2}-[0-9]{2}-[0-9]{2}T[^\",]*", "")
            // And so have the sources of the words by which markers are described.
            .replaceAll("(?s)<CLASSDECL>.*?</CLASSDECL>", "");
    for (String name : yearsOf.keySet()) {
      if (withheld.contains(name)) {
        Set<String> letters = new HashSet<>(yearsOf.get(name));
        letters.addAll(List.of(name, misread(name)));
        assertThat(letters.stream().filter(word -> lineWith(words, word).isPresent()))
            .as(name + ": " + letters.stream().flatMap(w -> lineWith(words, w).stream()).toList())
            .isEmpty();
      } else if (found.contains(name)) {
        assertThat(lineWith(words, name).isPresent()).as(name).isEqualTo(told.contains(name));
      }
    }
  }

  private static Optional<String> lineWith(String words, String word) {
    Pattern whole = Pattern.compile("\\b" + word + "\\b");
    return words.lines().filter(line -> whole.matcher(line).find()).findFirst();
  }

  private static List<Mention> sameMarker(List<Mention> mentions, Mention mention) {
    return mentions.stream()
        .filter(m -> m.source().marker().id().equals(mention.source().marker().id()))
        .toList();
  }

  private static String name(Mention mention) {
    return mention.name().given().toUpperCase(Locale.ROOT);
  }
}
