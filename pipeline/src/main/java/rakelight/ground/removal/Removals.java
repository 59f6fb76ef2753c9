package rakelight.ground.removal;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.archive.SourceId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.names.Likeness;
import rakelight.names.NameForms;
import rakelight.person.Evidence;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Linkage;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.Sought;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;

/**
 * Works out the accounts: each register's rows brought together grave by grave, set beside the
 * markers here by row and number and beside the persons on the stones by {@link Linkage}. A place
 * is the register's word; who is who on a stone is proposed, and people decide.
 */
public final class Removals {
  /** Surnames less alike are of two persons; a choice, no source. */
  private static final double ALIKE = 0.8;

  private static final Set<String> SAY_UNKNOWN =
      Set.of("unknown", "unnamed", "unbekannt", "inconnu");

  private final PlacesHere places;
  private final Map<MarkerId, Stone> stones = new HashMap<>();
  private final List<Marker> unknownStones = new ArrayList<>();
  private final List<Person> persons;
  private final Map<MentionId, Person> personOf = new HashMap<>();
  private final List<RemovalRegister> registers;
  private final List<RemovalStore.RemovalOpinion> opinions;
  private final Map<String, List<Linkage.Match>> matches;

  /**
   * What a stone says of whose it is.
   *
   * @param read whether any face has a confirmed reading
   * @param unknown whether it says that nobody knows
   */
  private record Stone(boolean read, boolean unknown, List<Person> named) {
    static final Stone NOT_READ = new Stone(false, false, List.of());

    int capacity() {
      return Math.max(1, named.size());
    }
  }

  private Removals(
      List<Marker> markers,
      List<FaceStatements> faces,
      List<Person> persons,
      List<RemovalRegister> registers,
      List<RemovalStore.RemovalOpinion> opinions) {
    places = new PlacesHere(markers);
    this.persons = persons;
    this.registers = registers;
    this.opinions = opinions;
    for (Person person : persons) {
      person.mentions().forEach(mention -> personOf.put(mention.id(), person));
    }
    stones(markers, faces);
    matches = matches();
  }

  /** The account of each old ground by each register, in the order of sources and first rows. */
  public static List<RemovalAccount> of(Archive archive) {
    return of(archive, new RemovalStore(archive).registers());
  }

  /** The accounts that would be if this register were taken in; nothing is kept. */
  public static List<RemovalAccount> with(Archive archive, RemovalRegister register) {
    List<RemovalRegister> registers = new ArrayList<>(new RemovalStore(archive).registers());
    registers.removeIf(one -> one.source().equals(register.source()));
    registers.add(register);
    return of(archive, registers);
  }

  private static List<RemovalAccount> of(Archive archive, List<RemovalRegister> registers) {
    if (registers.isEmpty()) {
      return List.of();
    }
    return new Removals(
            new MarkerStore(archive).markers(),
            new Evidence(archive).confirmed(),
            People.of(archive).persons(),
            registers,
            new RemovalStore(archive).opinions())
        .accounts();
  }

  private void stones(List<Marker> markers, List<FaceStatements> faces) {
    Map<MarkerId, Set<String>> words = new HashMap<>();
    for (FaceStatements face : faces) {
      words.computeIfAbsent(face.marker().id(), m -> new HashSet<>()).addAll(face.words());
    }
    Map<MarkerId, Set<Person>> named = new HashMap<>();
    for (Person person : persons) {
      for (Mention mention : person.mentions()) {
        if (!mention.isKinOnly() && !person.isUnnamed()) {
          named
              .computeIfAbsent(mention.source().marker().id(), m -> new LinkedHashSet<>())
              .add(person);
        }
      }
    }
    for (Marker marker : markers) {
      Set<String> says = words.get(marker.id());
      if (says != null) {
        List<Person> own = List.copyOf(named.getOrDefault(marker.id(), Set.of()));
        boolean unknown = own.isEmpty() && says.stream().anyMatch(SAY_UNKNOWN::contains);
        stones.put(marker.id(), new Stone(true, unknown, own));
        if (unknown) {
          unknownStones.add(marker);
        }
      }
    }
  }

  private Stone stone(Marker marker) {
    return stones.getOrDefault(marker.id(), Stone.NOT_READ);
  }

  // Who is who

  private Map<String, List<Linkage.Match>> matches() {
    Set<String> refused = new HashSet<>();
    Set<String> settled = new HashSet<>();
    Set<String> taken = new HashSet<>();
    for (RemovalStore.RemovalOpinion opinion : opinions) {
      Optional<UUID> whom = Optional.ofNullable(personOf.get(opinion.mention())).map(Person::id);
      String row = key(opinion.source(), opinion.row());
      // Where the reading is gone that named him, the row is open again.
      if (opinion.is() && whom.isPresent()) {
        settled.add(row);
        taken.add(opinion.source() + " " + whom.get());
      } else {
        whom.ifPresent(id -> refused.add(row + " " + id));
      }
    }
    List<Sought> asked = new ArrayList<>();
    for (RemovalRegister register : registers) {
      // Rows that name one person don't take odds from each other.
      Set<String> done = new HashSet<>();
      register.rows().stream()
          .filter(row -> settled.contains(key(register.source(), row.number())))
          .forEach(row -> row.personAsked().ifPresent(done::add));
      for (Removal row : register.rows()) {
        if (row.personAsked().filter(done::add).isPresent()) {
          asked.add(
              new Sought(
                  register.source(),
                  register.sourceNumber(),
                  new Sought.Row(
                      row.number(),
                      row.given(),
                      row.surname(),
                      Optional.empty(),
                      row.diedOn(),
                      Optional.empty(),
                      Optional.empty(),
                      "",
                      "",
                      "",
                      "")));
        }
      }
    }
    Map<String, List<Linkage.Match>> found = new HashMap<>();
    for (Linkage.Match match :
        asked.isEmpty() ? List.<Linkage.Match>of() : Linkage.match(asked, persons)) {
      SourceId source = match.sought().source();
      String row = key(source, match.sought().row().number());
      UUID whom = match.person().id();
      if (!refused.contains(row + " " + whom) && !taken.contains(source + " " + whom)) {
        found.computeIfAbsent(row, r -> new ArrayList<>()).add(match);
      }
    }
    return found;
  }

  private static String key(SourceId source, int row) {
    return source + " " + row;
  }

  private Optional<Mention> confirmed(SourceId source, List<Removal> rows) {
    return opinions.stream()
        .filter(opinion -> opinion.is() && opinion.source().equals(source))
        .filter(opinion -> rows.stream().anyMatch(row -> row.number() == opinion.row()))
        .flatMap(
            opinion ->
                Optional.ofNullable(personOf.get(opinion.mention())).stream()
                    .flatMap(person -> person.mentions().stream())
                    .filter(mention -> mention.id().equals(opinion.mention())))
        .findFirst();
  }

  // Accounts

  private List<RemovalAccount> accounts() {
    Set<MarkerId> claimed = new HashSet<>();
    List<RemovalAccount> accounts = new ArrayList<>();
    for (RemovalRegister register : registers) {
      Map<String, List<Removal>> grounds = new LinkedHashMap<>();
      for (Removal row : register.rows()) {
        grounds.computeIfAbsent(row.oldGround(), ground -> new ArrayList<>()).add(row);
        places.at(row.newRow(), row.newNumber()).forEach(marker -> claimed.add(marker.id()));
      }
      grounds.forEach((ground, rows) -> accounts.add(new Account(register, ground, rows).close()));
    }
    List<Marker> unclaimed =
        unknownStones.stream().filter(marker -> !claimed.contains(marker.id())).toList();
    return accounts.stream()
        .map(account -> account.with(account.graves(), account.faults(), unclaimed))
        .toList();
  }

  /** One account in the making. */
  private final class Account {
    private final RemovalRegister register;
    private final String oldGround;
    private final List<Removal> rows;
    private final List<RemovalFault> faults = new ArrayList<>();
    private final List<Integer> repeated = new ArrayList<>();
    private final List<List<Removal>> graves = new ArrayList<>();

    Account(RemovalRegister register, String oldGround, List<Removal> rows) {
      this.register = register;
      this.oldGround = oldGround;
      this.rows = rows;
    }

    RemovalAccount close() {
      rows.forEach(this::ofItself);
      bringTogether();
      numbersTwice();
      List<RemovedGrave> told = standing();
      RemovalAccount account =
          new RemovalAccount(register, oldGround, rows.size(), repeated, told, faults, List.of());
      for (RemovalRegister.Stated stated : register.stated()) {
        int counted = account.count(stated.figure());
        if (stated.oldGround().equals(oldGround) && stated.count() != counted) {
          fault(
              RemovalFault.Kind.STATED_OTHERWISE,
              List.of(),
              "the register states "
                  + stated.count()
                  + " "
                  + stated.figure().label()
                  + ", counted are "
                  + counted);
        }
      }
      faults.sort(
          (one, other) ->
              Integer.compare(
                  one.rows().isEmpty() ? Integer.MAX_VALUE : one.rows().get(0),
                  other.rows().isEmpty() ? Integer.MAX_VALUE : other.rows().get(0)));
      return account.with(told, faults, List.of());
    }

    private void fault(RemovalFault.Kind kind, Collection<Integer> numbers, String words) {
      faults.add(new RemovalFault(kind, List.copyOf(numbers), words));
    }

    /** What is wrong with a row, whatever the others say. */
    private void ofItself(Removal row) {
      List<Integer> own = List.of(row.number());
      if (row.oldNumber().isEmpty()) {
        fault(RemovalFault.Kind.NO_OLD_NUMBER, own, "has no number in the old ground");
      }
      if (!row.died().isEmpty() && row.diedOn().isEmpty()) {
        fault(
            RemovalFault.Kind.NO_SUCH_DAY, own, "died “" + row.died() + "”, no day that ever was");
      }
      if (!row.moved().isEmpty() && row.movedOn().isEmpty()) {
        fault(
            RemovalFault.Kind.NO_SUCH_DAY,
            own,
            "moved “" + row.moved() + "”, no day that ever was");
      }
      if (Removal.StoneKind.of(row.stone()).isEmpty()) {
        fault(
            RemovalFault.Kind.NO_SUCH_STONE,
            own,
            "stone “"
                + row.stone()
                + "” is none of original, replacement, unknown; taken for unknown");
      }
      Optional<Day> earliestDeath = row.diedOn().flatMap(date -> Edtf.parse(date).earliest());
      Optional<Day> latestMove = row.movedOn().flatMap(date -> Edtf.parse(date).latest());
      if (earliestDeath.isPresent()
          && latestMove.isPresent()
          && latestMove.get().compareTo(earliestDeath.get()) < 0) {
        fault(
            RemovalFault.Kind.MOVED_BEFORE_DEATH,
            own,
            "moved " + row.moved() + ", before the death " + row.died());
      }
    }

    /** Rows of one person at one old place, or that say the very same, are of one grave. */
    private void bringTogether() {
      Map<String, List<Removal>> byKey = new LinkedHashMap<>();
      for (Removal row : rows) {
        Optional<String> old = row.oldKey();
        Optional<String> person = row.personKey();
        String key =
            old.isPresent() && person.isPresent()
                ? old.get() + "|" + person.get()
                : "as written|" + row.content();
        byKey.computeIfAbsent(key, k -> new ArrayList<>()).add(row);
      }
      graves.addAll(byKey.values());
      for (List<Removal> grave : graves) {
        List<Integer> numbers = grave.stream().map(Removal::number).toList();
        grave.stream().skip(1).map(Removal::number).forEach(repeated::add);
        List<Removal> targets = targets(grave);
        if (targets.size() > 1) {
          twoPlaces(numbers, targets);
        } else if (grave.size() > 1) {
          fault(
              RemovalFault.Kind.ROW_TWICE,
              numbers,
              grave.get(0).called() + " is written " + grave.size() + " times; counted once");
        }
      }
    }

    private void twoPlaces(List<Integer> numbers, List<Removal> targets) {
      fault(
          RemovalFault.Kind.TWO_PLACES,
          numbers,
          targets.get(0).called()
              + " has two places here, "
              + targets.stream().map(Removal::newPlace).collect(Collectors.joining(" and ")));
    }

    private static List<Removal> targets(List<Removal> grave) {
      Map<String, Removal> targets = new LinkedHashMap<>();
      grave.stream()
          .filter(Removal::hasTarget)
          .forEach(row -> targets.putIfAbsent(row.targetKey(), row));
      return List.copyOf(targets.values());
    }

    /** Graves apart that share a number in the old ground, or a person. */
    private void numbersTwice() {
      Map<String, List<List<Removal>>> byNumber = new LinkedHashMap<>();
      Map<String, List<List<Removal>>> byPerson = new LinkedHashMap<>();
      for (List<Removal> grave : graves) {
        Removal first = grave.get(0);
        first
            .oldKey()
            .ifPresent(k -> byNumber.computeIfAbsent(k, o -> new ArrayList<>()).add(grave));
        if (first.diedOn().isPresent()) {
          first
              .personKey()
              .ifPresent(k -> byPerson.computeIfAbsent(k, o -> new ArrayList<>()).add(grave));
        }
      }
      byNumber.values().stream()
          .filter(same -> same.size() > 1)
          .forEach(
              same ->
                  fault(
                      RemovalFault.Kind.NUMBER_TWICE,
                      numbers(same),
                      "number "
                          + same.get(0).get(0).oldPlace()
                          + " of the old ground is given to "
                          + same.stream()
                              .map(grave -> grave.get(0).called())
                              .collect(Collectors.joining(" and "))));
      for (List<List<Removal>> same : byPerson.values()) {
        List<Removal> targets = targets(same.stream().flatMap(List::stream).toList());
        if (same.size() > 1 && targets.size() > 1) {
          twoPlaces(numbers(same), targets);
        }
      }
    }

    private static List<Integer> numbers(List<List<Removal>> same) {
      return same.stream().flatMap(List::stream).map(Removal::number).toList();
    }

    // What became of each grave

    private List<RemovedGrave> standing() {
      Verdict[] verdicts = new Verdict[graves.size()];
      Map<Marker, List<Integer>> claims = new LinkedHashMap<>();
      for (int i = 0; i < verdicts.length; i++) {
        verdicts[i] = alone(graves.get(i));
        Optional<Marker> marker = verdicts[i].marker();
        if (marker.isPresent()) {
          claims.computeIfAbsent(marker.get(), m -> new ArrayList<>()).add(i);
        }
      }
      claims.forEach((marker, who) -> share(marker, who, verdicts));
      return IntStream.range(0, verdicts.length)
          .mapToObj(
              i -> {
                List<Removal> grave = graves.get(i);
                return new RemovedGrave(
                    register.place(grave.get(0)),
                    grave,
                    verdicts[i].standing(),
                    verdicts[i].why(),
                    verdicts[i].marker(),
                    leadsTo(grave, verdicts[i]),
                    verdicts[i].found(),
                    matches.getOrDefault(key(register.source(), grave.get(0).number()), List.of()),
                    false,
                    false);
              })
          .toList();
    }

    private List<Marker> leadsTo(List<Removal> grave, Verdict verdict) {
      Set<Marker> all = new LinkedHashSet<>();
      verdict.marker().ifPresent(all::add);
      targets(grave).forEach(row -> all.addAll(places.at(row.newRow(), row.newNumber())));
      return List.copyOf(all);
    }

    private Verdict alone(List<Removal> grave) {
      List<Integer> numbers = grave.stream().map(Removal::number).toList();
      Optional<Mention> found = confirmed(register.source(), grave);
      List<Removal> targets = targets(grave);
      if (found.isPresent()) {
        Marker marker = found.get().source().marker();
        if (targets.size() == 1
            && !places.at(targets.get(0).newRow(), targets.get(0).newNumber()).contains(marker)) {
          fault(
              RemovalFault.Kind.CONFIRMED_ELSEWHERE,
              numbers,
              "people confirmed marker "
                  + marker.number()
                  + ", the register says "
                  + targets.get(0).newPlace());
        }
        return new Verdict(RemovedGrave.Standing.MARKED, "confirmed by people", marker, found);
      }
      if (targets.isEmpty()) {
        return lost(
            grave.get(0).isMoved()
                ? "moved, and no place here is given"
                : "not said to have been moved");
      }
      if (targets.size() > 1) {
        return lost("two places are given; which is right isn’t known");
      }
      Removal target = targets.get(0);
      Set<Marker> at = places.at(target.newRow(), target.newNumber());
      if (at.size() != 1) {
        return lost(missing(target, at, numbers));
      }
      Marker marker = at.iterator().next();
      Stone stone = stone(marker);
      if (!stone.named().isEmpty()
          && target.isNamed()
          && stone.named().stream().noneMatch(p -> fits(target, p))) {
        // Whom it names isn't said here: he may be somebody who isn't told.
        String words = "marker " + marker.number() + " names somebody else";
        fault(RemovalFault.Kind.NAMES_ANOTHER, numbers, words);
        return lost(words);
      }
      return new Verdict(
          stone.unknown() ? RemovedGrave.Standing.UNKNOWN : RemovedGrave.Standing.MARKED,
          stone.read() ? "" : "the stone isn’t read yet",
          marker,
          Optional.empty());
    }

    private String missing(Removal target, Set<Marker> at, List<Integer> numbers) {
      if (!at.isEmpty()) {
        String several = at.stream().map(Marker::number).collect(Collectors.joining(", "));
        fault(
            RemovalFault.Kind.SEVERAL_MARKERS,
            numbers,
            target.newPlace() + " may be any of " + several);
        return "its place may be any of " + several;
      }
      boolean noRow = !target.newRow().isEmpty() && !places.hasRow(target.newRow());
      String words =
          noRow
              ? "there is no row " + target.newRow() + " here"
              : "there is no marker at " + target.newPlace() + " here";
      fault(
          noRow ? RemovalFault.Kind.NO_SUCH_ROW : RemovalFault.Kind.NO_SUCH_MARKER, numbers, words);
      return words;
    }

    /** A stone marks no more graves than it can: those that people confirmed or it names first. */
    private void share(Marker marker, List<Integer> who, Verdict[] verdicts) {
      int capacity = stone(marker).capacity();
      if (who.size() <= capacity) {
        return;
      }
      List<Integer> ordered = new ArrayList<>(who);
      ordered.sort(
          (one, other) ->
              Integer.compare(
                  rank(marker, one, verdicts[one]), rank(marker, other, verdicts[other])));
      List<Integer> all = new ArrayList<>();
      who.forEach(i -> graves.get(i).forEach(row -> all.add(row.number())));
      fault(
          RemovalFault.Kind.MARKER_TWICE,
          all,
          "marker "
              + marker.number()
              + " is given to "
              + who.size()
              + " graves and marks "
              + capacity
              + "; which isn’t known, it is counted once");
      for (int i : ordered.subList(capacity, ordered.size())) {
        verdicts[i] =
            lost(
                "marker "
                    + marker.number()
                    + " is counted for row "
                    + graves.get(ordered.get(0)).get(0).number()
                    + " already");
      }
    }

    private int rank(Marker marker, int grave, Verdict verdict) {
      boolean named =
          matches
              .getOrDefault(key(register.source(), graves.get(grave).get(0).number()), List.of())
              .stream()
              .anyMatch(match -> isOn(match.person(), marker));
      return verdict.found().isPresent() ? 0 : named ? 1 : 2;
    }
  }

  private record Verdict(
      RemovedGrave.Standing standing,
      String why,
      Optional<Marker> marker,
      Optional<Mention> found) {
    Verdict(RemovedGrave.Standing standing, String why, Marker marker, Optional<Mention> found) {
      this(standing, why, Optional.of(marker), found);
    }
  }

  private static Verdict lost(String why) {
    return new Verdict(
        RemovedGrave.Standing.UNACCOUNTED, why, Optional.<Marker>empty(), Optional.empty());
  }

  private static boolean isOn(Person person, Marker marker) {
    return person.mentions().stream().anyMatch(m -> m.source().marker().id().equals(marker.id()));
  }

  /** Whether a stone's name may be the register's; a worn one may be any. */
  private static boolean fits(Removal row, Person person) {
    String asWritten = NameForms.fold(row.surname());
    String carved = person.fullest().map(mention -> mention.name().surname()).orElse("");
    return asWritten.isEmpty()
        || carved.length() < 2
        || carved.matches(".*[?…].*")
        || Likeness.jaroWinkler(asWritten, NameForms.fold(carved)) >= ALIKE;
  }
}
