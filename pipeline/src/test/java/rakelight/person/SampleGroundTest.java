package rakelight.person;

import static java.util.stream.Collectors.joining;
import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.threeten.extra.chrono.JulianChronology;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;
import rakelight.person.calendar.CalendarChange;
import rakelight.person.edtf.Edtf;
import rakelight.samples.SampleFace;
import rakelight.samples.SampleGround;
import rakelight.samples.SampleMarker;
import rakelight.samples.SampleStatement;
import rakelight.samples.Samples;

/** Statements of the invented ground's stones as cut, against what is known of its people. */
class SampleGroundTest {
  private static final Set<String> COUNTED =
      Set.of("name", "birth", "marriage", "death", "burial", "age", "kin", "service", "origin");

  private final SampleGround ground = Samples.ground();

  private boolean byLine = true;

  /** A proposal may have lines more or fewer than the face, so that its lines aren't compared. */
  static SampleGroundTest onAnyLine() {
    SampleGroundTest scorer = new SampleGroundTest();
    scorer.byLine = false;
    return scorer;
  }

  /** The aims are those the project set itself: precision .98, recall .97. */
  @Test
  void nearlyAllStatementsOfTheInventedGroundAreFoundAndFewWrongOnesMade() throws Exception {
    Map<String, int[]> counts = new TreeMap<>();
    StringBuilder differences = new StringBuilder();
    score(counts, differences);
    int right = 0;
    int found = 0;
    int known = 0;
    for (Map.Entry<String, int[]> kind : counts.entrySet()) {
      int[] c = kind.getValue();
      right += c[0];
      found += c[1];
      known += c[2];
    }
    assertThat(right / (double) found).as("precision; %s", differences).isGreaterThan(0.98);
    assertThat(right / (double) known).as("recall; %s", differences).isGreaterThan(0.97);
    int[] names = counts.getOrDefault("name", new int[3]);
    int[] kin = counts.getOrDefault("kin", new int[3]);
    assertThat(names[0] / (double) names[2])
        .as("recall of names; %s", differences)
        .isGreaterThan(0.97);
    assertThat(kin[0]).as("kin by its value; %s", differences).isGreaterThan(20);
  }

  /** M44 and M48 are cut so on purpose: the dates give a year less than the age. */
  @Test
  void onlyTheTwoStonesThatContradictThemselvesAreReported() throws Exception {
    List<String> contradictions = new ArrayList<>();
    for (SampleMarker marker : ground.markers()) {
      for (SampleFace face : marker.faces()) {
        List<Statement> found = Statements.of(Leiden.parse(text(face)), CalendarChange.BRITISH);
        KinAgreement.of(found).stream()
            .filter(KinAgreement.Finding::contradiction)
            .forEach(finding -> contradictions.add(face.marker()));
      }
    }
    assertThat(contradictions).containsExactly("M44", "M48");
  }

  @Test
  void noWornStoneStopsTheStatementsAndEveryDateIsEdtf() throws Exception {
    Random random = new Random(1849);
    int dates = 0;
    for (SampleMarker marker : ground.markers()) {
      for (SampleFace face : marker.faces()) {
        for (int round = 0; round < 30; round++) {
          String worn = worn(text(face), random);
          List<Statement> found = Statements.of(Leiden.parse(worn), CalendarChange.BRITISH);
          for (Statement statement : found) {
            if (statement.isDate() && !statement.value().startsWith("--")) {
              dates++;
              assertThat(Edtf.parse(statement.value())).as(worn).isNotNull();
            }
          }
          KinAgreement.of(found);
        }
      }
    }
    assertThat(dates).isGreaterThan(1000);
  }

  /** Some letters and figures changed for others, or lost. */
  private static String worn(String text, Random random) {
    StringBuilder worn = new StringBuilder();
    for (char sign : text.toCharArray()) {
      boolean wears = Character.isLetterOrDigit(sign) && sign < 128 && random.nextInt(8) == 0;
      String figures = Character.isDigit(sign) ? "0123456789" : "abcdeimrstvx";
      char other = figures.charAt(random.nextInt(figures.length()));
      worn.append(
          wears ? (random.nextInt(3) == 0 ? "+" : String.valueOf(other)) : String.valueOf(sign));
    }
    return worn.toString();
  }

  private void score(Map<String, int[]> counts, StringBuilder differences) throws Exception {
    for (SampleMarker marker : ground.markers()) {
      List<Inscription> faces = new ArrayList<>();
      for (SampleFace face : marker.faces()) {
        faces.add(Leiden.parse(text(face)));
      }
      List<List<Statement>> found = Statements.ofFaces(faces, CalendarChange.BRITISH);
      for (int i = 0; i < faces.size(); i++) {
        SampleFace face = marker.faces().get(i);
        List<SampleStatement> truth =
            ground.statements().stream()
                .filter(s -> s.marker().equals(face.marker()) && s.face().equals(face.face()))
                .toList();
        score(truth, new ArrayList<>(found.get(i)), counts, differences);
      }
    }
  }

  /** Counts of each kind what is right, found and known. */
  void score(
      List<SampleStatement> truth,
      List<Statement> found,
      Map<String, int[]> counts,
      StringBuilder differences) {
    found.removeIf(s -> !COUNTED.contains(kind(s)) || isRankOfTitle(s) || s.isReckoned());
    for (SampleStatement expected : truth) {
      int[] c = counts.computeIfAbsent(expected.kind(), k -> new int[3]);
      c[2]++;
      Statement hit = found.stream().filter(s -> agree(expected, s)).findFirst().orElse(null);
      if (hit == null) {
        differences.append("missed ").append(expected).append('\n');
      } else {
        c[0]++;
        c[1]++;
        found.remove(hit);
      }
    }
    for (Statement wrong : found) {
      counts.computeIfAbsent(kind(wrong), k -> new int[3])[1]++;
      differences.append("wrong ").append(wrong).append('\n');
    }
  }

  /** The truth counts a title that is a rank as part of the name alone. */
  private static boolean isRankOfTitle(Statement statement) {
    return statement
        .detail(Detail.Service.class)
        .filter(s -> s.unit().isEmpty() && s.war().isEmpty() && s.office().isEmpty())
        .isPresent();
  }

  /** The face as a reader would write it: blanks left uncut are marked. */
  private static String text(SampleFace face) {
    return face.lines().stream()
        .map(line -> line.asCut().replaceAll("~+", "(vac.)").strip())
        .collect(joining("\n"));
  }

  private static String kind(Statement statement) {
    return statement.kind().name().toLowerCase(Locale.ROOT);
  }

  private boolean agree(SampleStatement expected, Statement s) {
    boolean there =
        !byLine || (s.lastLine() >= expected.firstLine() && s.firstLine() <= expected.lastLine());
    if (!there || !kind(s).equals(expected.kind())) {
      return false;
    }
    return switch (expected.kind()) {
      case "name" -> sameName(expected.value(), s.value());
      case "birth", "death" -> newStyle(expected.value()).equals(s.value());
      case "age" -> days(expected.value()).equals(days(s.value()));
      case "kin" -> sameKin(expected, s.detail(Detail.Kinship.class).orElseThrow());
      default -> true;
    };
  }

  /** The truth names one relative by his number or by name; the stone may name both parents. */
  private boolean sameKin(SampleStatement expected, Detail.Kinship found) {
    String[] parts = expected.value().split(" of ", 2);
    boolean sameRelation =
        switch (parts[0]) {
          case "wife" -> found.relation().matches("wife|consort");
          case "daughter", "son", "child" -> found.isChild();
          default -> found.relation().equals(parts[0]);
        };
    boolean isPerson = parts[1].matches("P[0-9]+");
    String name =
        isPerson
            ? ground.person(parts[1]).given() + "|" + ground.person(parts[1]).surname()
            : parts[1].replaceAll(" and [^ ]+", "").replaceFirst(" ([^ ]+)$", "|$1");
    return sameRelation && found.names().stream().anyMatch(n -> sameKinName(name, n));
  }

  /** Initials and a missing surname of the relative are as the stone gives them. */
  private static boolean sameKinName(String expected, String found) {
    String[] a = expected.split("\\|", -1);
    String[] b = found.split("\\|", -1);
    String given = NameForms.fold(b[0]);
    return (b[1].isEmpty() || NameForms.fold(a[1]).equals(NameForms.fold(b[1])))
        && (sameGiven(NameForms.fold(a[0]), given, false)
            || (given.length() == 1 && NameForms.fold(a[0]).startsWith(given)));
  }

  /** The ground's truth keeps days before the change of 1752 as they were carved, Old Style. */
  private static String newStyle(String date) {
    if (!date.matches("1[67][0-9]{2}-[0-9]{2}-[0-9]{2}") || date.compareTo("1752-09-14") >= 0) {
      return date;
    }
    String[] parts = date.split("-", -1);
    return LocalDate.from(
            JulianChronology.INSTANCE.date(
                Integer.parseInt(parts[0]), Integer.parseInt(parts[1]), Integer.parseInt(parts[2])))
        .toString();
  }

  private static String days(String age) {
    return age.matches("P[0-9]+W")
        ? "P" + 7 * Integer.parseInt(age.replaceAll("[PW]", "")) + "D"
        : age;
  }

  private static boolean sameName(String expected, String found) {
    String[] a = expected.split("\\|", -1);
    String[] b = found.split("\\|", -1);
    String surnameA = NameForms.fold(a[1]);
    String surnameB = NameForms.fold(b[1]);
    boolean initialsOnly = b[1].length() == 1;
    return (surnameA.equals(surnameB) || (initialsOnly && surnameA.startsWith(surnameB)))
        && sameGiven(NameForms.fold(a[0]), NameForms.fold(b[0]), initialsOnly);
  }

  private static boolean sameGiven(String a, String b, boolean initialsOnly) {
    return a.equals(b)
        || GivenNames.known().abbreviationsOf(b).contains(a)
        || GivenNames.known().nicknamesOf(b).contains(a)
        || (initialsOnly && !b.isEmpty() && a.startsWith(b.substring(0, 1)));
  }
}
