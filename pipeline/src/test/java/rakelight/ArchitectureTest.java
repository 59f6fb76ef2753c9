package rakelight;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaCall.Predicates.target;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.simpleNameEndingWith;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.type;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.name;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.nameMatching;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import rakelight.archive.Archive;
import rakelight.archive.Derived;
import rakelight.archive.Incoming;
import rakelight.archive.Journal;
import rakelight.archive.Ledger;
import rakelight.archive.Originals;
import rakelight.archive.Stage;
import rakelight.inscription.ReadingStore;
import rakelight.person.CorrectionStore;
import rakelight.person.Evidence;
import rakelight.person.LivingRule;
import rakelight.person.People;
import rakelight.publish.ToldFace;

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
          "survey",
          "ground",
          "search",
          "publish",
          "measure",
          "work",
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

  /** What signs a reading or keeps a draft has its rules in one room; nobody goes round them. */
  @ArchTest
  static final ArchRule onlyWorkSignsReadingsAndKeepsDrafts =
      noClasses()
          .that()
          .resideOutsideOfPackage("rakelight.work..")
          .and()
          .doNotHaveFullyQualifiedName(ReadingStore.class.getName())
          .should()
          .callMethodWhere(
              target(owner(type(ReadingStore.class)))
                  .and(
                      target(
                          nameMatching("sign|keepDraft|keepImported|know|knowLetters|require"))));

  /** The same of what people say of how words are to be taken. */
  @ArchTest
  static final ArchRule onlyWorkKeepsCorrections =
      noClasses()
          .that()
          .resideOutsideOfPackage("rakelight.work..")
          .should()
          .callMethodWhere(
              target(owner(type(CorrectionStore.class))).and(target(nameMatching("keep"))));

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

  /** What is written for the public gets everything through an edition. */
  @ArchTest
  static final ArchRule nobodyWhoWritesForThePublicReachesBehindTheEdition =
      noClasses()
          .that()
          .resideInAPackage("rakelight.publish..")
          .and()
          .haveNameNotMatching(
              "rakelight\\.publish\\.(Edition|ToldGround|Concluded|Noted|Withholding(Store|Projection)"
                  + "|epidoc\\.EpidocImport)(\\$.*)?")
          .or()
          .haveNameMatching("rakelight\\.cli\\.(Export|Book)Command(\\$.*)?")
          .should()
          .dependOnClassesThat(
              simpleNameEndingWith("Store")
                  .or(type(Ledger.class))
                  .or(type(Journal.class))
                  .or(type(Originals.class))
                  .or(type(Derived.class))
                  .or(type(Evidence.class))
                  .or(type(People.class))
                  .or(type(LivingRule.class)))
          .orShould()
          .callMethodWhere(
              target(owner(type(Archive.class)))
                  .and(target(not(name("open"))))
                  .and(target(not(name("close")))));

  @ArchTest
  static final ArchRule onlyAnEditionAsksWhoMayBeLivingAndTellsFaces =
      noClasses()
          .that()
          .resideOutsideOfPackage("rakelight.person..")
          .and()
          .doNotHaveFullyQualifiedName("rakelight.publish.Concluded")
          .and()
          .doNotHaveFullyQualifiedName("rakelight.publish.Edition")
          .should()
          .dependOnClassesThat(type(LivingRule.class))
          .orShould()
          .callConstructorWhere(target(owner(type(ToldFace.class))));

  @ArchTest
  static final ArchRule luceneStaysInTheSearchCore =
      noClasses()
          .that()
          .resideOutsideOfPackage("rakelight.index..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.apache.lucene..")
          .allowEmptyShould(true);

  private static final DescribedPredicate<JavaClass> WHAT_CHANGES =
      JavaClass.Predicates.resideInAnyPackage(
              "java.sql..", "org.jdbi..", "org.sqlite..", "org.flywaydb..")
          .or(
              JavaClass.Predicates.belongToAnyOf(
                  Archive.class,
                  Ledger.class,
                  Journal.class,
                  Originals.class,
                  Incoming.class,
                  Derived.class,
                  Clock.class,
                  InstantSource.class,
                  SecureRandom.class))
          .as("the ledger, the archive's writers, a clock or random ids");

  /** Follows every way through our own classes; what the JDK does inside is its own affair. */
  @ArchTest
  static void noStageReachesTheArchiveAClockOrRandomIdsNotEvenByWayOfOthers(JavaClasses classes) {
    Deque<JavaClass> next = new ArrayDeque<>();
    classes.stream()
        .filter(type -> type.isAssignableTo(Stage.class) && !type.isInterface())
        .forEach(next::add);
    assertThat(next).hasSizeGreaterThan(6);
    Map<String, String> reachedFrom = new TreeMap<>();
    next.forEach(stage -> reachedFrom.put(stage.getName(), "a stage"));
    Set<String> wrong = new TreeSet<>();
    while (!next.isEmpty()) {
      JavaClass from = next.remove();
      for (Dependency dependency : from.getDirectDependenciesFromSelf()) {
        JavaClass to = dependency.getTargetClass().getBaseComponentType();
        if (WHAT_CHANGES.test(to)) {
          wrong.add(
              from.getName()
                  + " -> "
                  + to.getName()
                  + ", reached from "
                  + reachedFrom.get(from.getName()));
        }
        if (classes.contain(to.getName())
            && reachedFrom.putIfAbsent(to.getName(), from.getName()) == null) {
          next.add(classes.get(to.getName()));
        }
      }
    }
    assertThat(wrong).isEmpty();
  }

  @ArchTest
  static final ArchRule picturesFindingAndReliefKnowNoArchiveClockOrRandomIds =
      noClasses()
          .that()
          .resideInAnyPackage("rakelight.picture..", "rakelight.finding..", "rakelight.relief..")
          .should()
          .dependOnClassesThat(WHAT_CHANGES);

  @ArchTest
  static final ArchRule whereStagesAreNobodyAsksForTheTimeOrForChance =
      noClasses()
          .that()
          .implement(Stage.class)
          .or()
          .resideInAnyPackage("rakelight.picture..", "rakelight.finding..", "rakelight.relief..")
          .or()
          .resideInAPackage("rakelight.reading..")
          .should()
          .callMethod(Instant.class, "now")
          .orShould()
          .callMethod(UUID.class, "randomUUID")
          .orShould()
          .callMethod(System.class, "currentTimeMillis")
          .orShould()
          .callMethod(Math.class, "random")
          .orShould()
          .callConstructor(Random.class);
}
