package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.Ground;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

class PeopleTest {
  private static final String ADA = "Ada Penrose";
  private static final String HUGH = "Hugh Sallow";

  @TempDir Path folder;

  @Test
  void whoIsOnOneMarkerIsToldWithoutLookingAtAnyOther() {
    try (ReadGround ground = new ReadGround(folder.resolve("archive"))) {
      for (int i = 1; i <= 20; i++) {
        ground.sign("" + i, "front", "JOHN WREN\ndied 18" + (10 + i), ADA);
      }
      ground.sign("7", "back", "Also MARY\nhis wife", ADA);
      ground.spoilAllBut("7");
      assertThat(People.on(ground.archive(), ground.marker("7")))
          .extracting(Person::called)
          .containsExactly("Mary Wren", "John Wren");
      Mention john = People.mention(ground.archive(), "7:front:1");
      new PersonStore(ground.archive()).died(john, "register", ADA);
      new LinkStore(ground.archive())
          .confirm("8", Link.Kind.BURIED_HERE, "7:front:1", "by the sexton's book", ADA);
      Set<String> parsed = new TreeSet<>();
      ground.keptStatements().keySet().forEach(key -> parsed.add(key.substring(0, 36)));
      assertThat(parsed).as("readings parsed").hasSize(2);
    }
  }

  @Test
  void whoIsOneWithSomebodyElsewhereIsToldWithThatMarkerAndNoFurtherOne() {
    try (ReadGround ground = new ReadGround(folder.resolve("archive"))) {
      for (int i = 1; i <= 9; i++) {
        ground.sign("" + i, "front", "JOHN WREN\ndied 18" + (10 + i), ADA);
      }
      same(ground, "9:front:1", "3:front:1");
      same(ground, "3:front:1", "5:front:1");
      same(ground, "1:front:1", "2:front:1");
      List<Person> here = People.on(ground.archive(), ground.marker("5"));
      assertThat(here).hasSize(1);
      assertThat(here.get(0).mentions())
          .extracting(Mention::label)
          .containsExactlyInAnyOrder("3:front:1", "5:front:1", "9:front:1");
      assertThat(here).isEqualTo(on(People.of(ground.archive()).persons(), ground.marker("5")));
    }
  }

  @Test
  void whoIsMeantIsLookedUpBeforeTheTransactionThatWritesIt() throws Exception {
    try (ReadGround ground = new ReadGround(folder.resolve("archive"))) {
      ground.sign("1", "front", "JOHN WREN\ndied 1840", ADA);
      LinkStore links = new LinkStore(ground.archive());
      CountDownLatch writing = new CountDownLatch(1);
      CountDownLatch done = new CountDownLatch(1);
      Thread writer =
          new Thread(
              () ->
                  ground
                      .archive()
                      .ledger()
                      .write(
                          handle -> {
                            writing.countDown();
                            try {
                              done.await();
                            } catch (InterruptedException e) {
                              Thread.currentThread().interrupt();
                            }
                            return 0;
                          }));
      writer.start();
      writing.await();
      try {
        assertTimeoutPreemptively(
            Duration.ofSeconds(20),
            () ->
                assertThatThrownBy(
                        () -> links.confirm("1", Link.Kind.BURIED_HERE, "1:front:9", "", ADA))
                    .isInstanceOf(ArchiveException.class)
                    .hasMessageContaining("nobody is spoken of there"));
      } finally {
        done.countDown();
        writer.join();
      }
    }
  }

  @Test
  void whatRestsOnAFaceThatWasReadAnewMeanwhileIsRefused() {
    try (ReadGround ground = new ReadGround(folder.resolve("archive"))) {
      ground.sign("1", "front", "JOHN WREN\ndied 1840", ADA);
      ground.sign("2", "front", "J. WREN", ADA);
      Mention one = People.mention(ground.archive(), "1:front:1");
      Mention other = People.mention(ground.archive(), "2:front:1");
      Reading anew = ground.sign("2", "front", "T. WREN", HUGH);
      PersonStore store = new PersonStore(ground.archive());
      long before = ground.archive().journal().lastCounter();
      for (var decision :
          List.<org.assertj.core.api.ThrowableAssert.ThrowingCallable>of(
              () -> store.same(one, other, "", ADA),
              () -> store.different(other, one, "", ADA),
              () -> store.died(other, "register", ADA))) {
        assertThatThrownBy(decision)
            .isInstanceOf(ArchiveException.class)
            .hasMessageContaining("2:front:1: the face has been read anew");
      }
      assertThat(ground.archive().journal().lastCounter()).isEqualTo(before);
      ground.archive().journal().undo(anew.decision(), HUGH);
      assertThat(store.same(one, other, "", ADA).kind()).isEqualTo(Opinion.Kind.SAME);
    }
  }

  /**
   * The same journal has the same answer, whatever came before and whoever asked when: nothing kept
   * may differ from what is concluded from nothing.
   */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4})
  void afterAnySigningsAndUndosPersonsAreThoseConcludedFromNothing(long seed) throws IOException {
    Path root = folder.resolve("archive" + seed);
    Random random = new Random(seed);
    try (ReadGround ground = new ReadGround(root);
        ReadGround otherProgram = new ReadGround(root)) {
      for (int step = 1; step <= 60; step++) {
        change(random.nextBoolean() ? ground : otherProgram, random);
        if (step % 12 == 0) {
          check((random.nextBoolean() ? ground : otherProgram), "seed " + seed + " step " + step);
        }
      }
      Files.delete(root.resolve("derived/conclusions.sqlite"));
      check(ground, "seed " + seed + ", nothing kept");
      check(otherProgram, "seed " + seed + ", kept by another program");
    }
  }

  private static void check(ReadGround ground, String when) {
    Archive archive = ground.archive();
    People truth = ground.peopleFromNothing();
    People kept = People.of(archive);
    assertThat(kept.persons()).as(when).isEqualTo(truth.persons());
    assertThat(kept.proposals(List.of())).as(when).isEqualTo(truth.proposals(List.of()));
    for (Marker marker : new MarkerStore(archive).markers()) {
      assertThat(People.on(archive, marker))
          .as("%s, marker %s", when, marker.number())
          .isEqualTo(on(truth.persons(), marker));
    }
    for (Mention mention : truth.mentions()) {
      assertThat(People.mention(archive, mention.label()).label()).isEqualTo(mention.label());
    }
  }

  private static List<Person> on(List<Person> persons, Marker marker) {
    return persons.stream()
        .filter(
            person ->
                person.mentions().stream()
                        .anyMatch(m -> m.source().marker().id().equals(marker.id()))
                    || person
                        .fromForm()
                        .flatMap(Opinion::marker)
                        .filter(marker.id()::equals)
                        .isPresent())
        .toList();
  }

  private static final List<String> TEXTS =
      List.of(
          "JOHN WREN\ndied 3 May 1840\naged 61",
          "J. W.\n1840",
          "Also MARY\nhis wife\ndied 1851",
          "WREN",
          "HANNAH\nwife of John Wren\ndied 14 March 1851",
          "HANNAH WREN\ndied 14 March 1851\ndaughter of Abel & Ruth Sallow",
          "ABEL SALLOW\ndied 2 Feb 1740",
          "RUTH\nrelict of Abel Sallow",
          "In memory of\n[- - -] SALLOW",
          "AMOS LIDGATE\nCO. B");

  private static void change(ReadGround ground, Random random) {
    Archive archive = ground.archive();
    String marker = "" + (1 + random.nextInt(6));
    String by = random.nextBoolean() ? ADA : HUGH;
    PersonStore store = new PersonStore(archive);
    try {
      switch (random.nextInt(12)) {
        case 0, 1, 2, 3, 4 ->
            ground.sign(
                marker,
                random.nextInt(3) == 0 ? "back" : "front",
                TEXTS.get(random.nextInt(TEXTS.size())),
                by);
        case 5, 6, 7 -> {
          List<Decision> all = archive.journal().since(1);
          if (!all.isEmpty()) {
            int back = Math.min(all.size(), 1 + random.nextInt(12));
            archive.journal().undo(all.get(all.size() - back).id(), by);
          }
        }
        case 8, 9 -> {
          List<Mention> mentions = People.of(archive).mentions();
          if (mentions.size() > 1) {
            Mention one = mentions.get(random.nextInt(mentions.size()));
            Mention other = mentions.get(random.nextInt(mentions.size()));
            if (random.nextInt(4) == 0) {
              store.different(one, other, "", by);
            } else {
              store.same(one, other, "", by);
            }
            if (random.nextInt(3) == 0) {
              store.died(one, "register", by);
            }
          }
        }
        case 10 -> {
          if (random.nextBoolean()) {
            store.unnamed(marker, "one side bare", by);
          } else {
            new MarkerStore(archive).renumber(ground.marker(marker).id(), marker + "a", by);
          }
        }
        default -> {
          if (random.nextBoolean()) {
            new ReadingStore(archive).require(1 + random.nextInt(2), by);
          } else {
            Ground described = archive.ground();
            archive.describe(
                described.with(
                    new Ground.Calendar(
                        LocalDate.of(random.nextBoolean() ? 1752 : 1582, 9, 14), 1600)),
                by);
          }
        }
      }
    } catch (ArchiveException | java.util.NoSuchElementException refused) {
      // A refused decision changes nothing; that is what is checked.
    }
  }

  private static void same(ReadGround ground, String one, String other) {
    new PersonStore(ground.archive())
        .same(
            People.mention(ground.archive(), one),
            People.mention(ground.archive(), other),
            "",
            ADA);
  }
}
