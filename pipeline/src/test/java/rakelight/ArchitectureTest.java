package rakelight;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** The shape of the house: data goes one way, and each library is seen from few rooms. */
@AnalyzeClasses(packages = "rakelight", importOptions = DoNotIncludeTests.class)
class ArchitectureTest {
  private static final List<String> LEFT_TO_RIGHT =
      List.of(
          "archive",
          "marker",
          "photo",
          "picture",
          "finding",
          "relief",
          "reading",
          "inscription",
          "person",
          "ground",
          "search",
          "publish",
          "measure",
          "desk",
          "cli");

  /**
   * Where the program starts is nobody's room; the search core and the samples are modules of their
   * own.
   */
  @ArchTest
  static void everyPackageHasItsPlaceInTheHouse(JavaClasses classes) {
    Set<String> modules = Set.of("index", "names", "samples");
    Set<String> unlisted = new TreeSet<>();
    for (JavaClass type : classes) {
      String room =
          type.getPackageName().replaceFirst("^rakelight\\.?", "").replaceFirst("\\..*", "");
      if (!LEFT_TO_RIGHT.contains(room) && !modules.contains(room)) {
        unlisted.add(type.getName());
      }
    }
    assertThat(unlisted).isEmpty();
  }

  @ArchTest
  static void oneNameMeansOneType(JavaClasses classes) {
    Map<String, Set<String>> named = new TreeMap<>();
    for (JavaClass type : classes) {
      if (type.isTopLevelClass() && !type.getSimpleName().equals("package-info")) {
        named.computeIfAbsent(type.getSimpleName(), n -> new TreeSet<>()).add(type.getName());
      }
    }
    named.values().removeIf(types -> types.size() == 1);
    assertThat(named).isEmpty();
  }

  @ArchTest
  static void aPackageImportsOnlyPackagesToItsLeft(JavaClasses classes) {
    for (int i = 0; i < LEFT_TO_RIGHT.size() - 1; i++) {
      String[] toTheRight =
          LEFT_TO_RIGHT.subList(i + 1, LEFT_TO_RIGHT.size()).stream()
              .map(name -> "rakelight." + name + "..")
              .toArray(String[]::new);
      noClasses()
          .that()
          .resideInAPackage("rakelight." + LEFT_TO_RIGHT.get(i) + "..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(toTheRight)
          .allowEmptyShould(true)
          .check(classes);
    }
  }

  @ArchTest
  static final ArchRule openCvIsSeenOnlyByPictureFindingAndRelief =
      noClasses()
          .that()
          .resideOutsideOfPackages(
              "rakelight.picture..", "rakelight.finding..", "rakelight.relief..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.opencv..", "nu.pattern..");

  @ArchTest
  static final ArchRule recognisersAreSeenOnlyByFindingAndReading =
      noClasses()
          .that()
          .resideOutsideOfPackages("rakelight.finding..", "rakelight.reading..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("ai.onnxruntime..", "net.sourceforge.tess4j..");

  @ArchTest
  static final ArchRule sqlIsSeenOnlyByTheArchiveAndTheStoresAndTheirProjections =
      noClasses()
          .that()
          .resideOutsideOfPackage("rakelight.archive..")
          .and()
          .haveSimpleNameNotEndingWith("Store")
          .and()
          .haveSimpleNameNotEndingWith("Projection")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("java.sql..", "org.jdbi..", "org.sqlite..", "org.flywaydb..")
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule luceneStaysInTheSearchCore =
      noClasses()
          .that()
          .resideOutsideOfPackage("rakelight.index..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.apache.lucene..")
          .allowEmptyShould(true);
}
