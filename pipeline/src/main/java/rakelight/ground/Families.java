package rakelight.ground;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.inscription.Inscription;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.marker.NaturalOrder;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;
import rakelight.person.Evidence;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.Statement;
import rakelight.person.edtf.Edtf;

/**
 * The families of a ground and whose their footstones are, worked out from the confirmed readings,
 * where markers stand, and what people said.
 *
 * <p>Two stones are taken for one family's by what they share: a surname (the rarer it is here, the
 * more), kin whom one names and the other tells of, closeness, a plot, a row, a carver. Weights are
 * decibans and choices, told in docs/family-groups.md; pairs are joined from the strongest on,
 * never against what people said.
 */
public final class Families {
  private static final double PRIOR_DECIBANS = -14;
  private static final double KIN_DECIBANS = 20;
  private static final double SAME_PLOT_DECIBANS = 6;
  private static final double ROW_NEIGHBOURS_DECIBANS = 5;
  private static final double CARVER_DECIBANS = 2;
  private static final double NEAR_METRES = 3;
  private static final double CLOSE_METRES = 8;
  private static final double FAR_METRES = 20;
  private static final double VERY_FAR_METRES = 60;
  private static final double LEAST_SHARE = 0.003;

  /** How far from its family's stones a footstone is looked for, and where nothing is known. */
  private static final double REACH_METRES = 12;

  private static final double UNKNOWN_METRES = 15;

  /** A span of years longer than this says nothing. */
  private static final int LONGEST_SPAN_YEARS = 40;

  private static final Pattern YEARS = Pattern.compile("P(?:(\\d+)Y)?.*");
  private static final int GROWN_UP = 18;
  private static final int INFANT = 3;

  private final Map<MarkerId, Marker> markers = new LinkedHashMap<>();
  private final Map<MarkerId, FootstoneReading> footstones = new LinkedHashMap<>();
  private final Map<MarkerId, List<Mention>> named = new LinkedHashMap<>();
  private final Map<MarkerId, Set<String>> carvers = new HashMap<>();
  private final Map<MarkerId, Double> fronts = new HashMap<>();
  private final Map<MarkerId, MarkerPosition> positions;
  private final Map<MarkerId, RowPlace> rowPlaces;
  private final List<Plot> plots;
  private final GroundPlane plane;
  private final Map<MarkerId, Spot> spots = new HashMap<>();
  private final List<FamilyStore.Saying> sayings;
  private final Map<MarkerId, List<Link>> linksFrom;
  private final List<LinkStore.Refusal> refusals;
  private final List<Person> persons;
  private final Map<MarkerId, Set<Integer>> personsOn = new HashMap<>();
  private final Map<String, Double> surnames = new HashMap<>();
  private final Map<MarkerId, Set<String>> surnamesOn = new LinkedHashMap<>();
  private final KeptAnswers answers;

  private Families(
      Archive archive, List<FaceStatements> faces, List<Person> persons, KeptAnswers answers) {
    PositionStore places = new PositionStore(archive);
    positions = places.best();
    rowPlaces = places.rowPlaces();
    plots = places.plots();
    plane = places.plane();
    positions.forEach(
        (id, at) -> spots.put(id, plane.spot(at.latitudeDegrees(), at.longitudeDegrees())));
    sayings = new FamilyStore(archive).sayings();
    linksFrom =
        new LinkStore(archive)
            .links().stream().collect(Collectors.groupingBy(Link::from, Collectors.toList()));
    refusals = new LinkStore(archive).refusals();
    this.persons = List.copyOf(persons);
    this.answers = answers;
    read(faces);
  }

  /**
   * Every family that has more than one person or a footstone, by the number of its first stone.
   */
  public static List<FamilyGroup> of(Archive archive) {
    return read(archive).groups();
  }

  /** The same with what sort each marker is, for the plan. */
  static Families read(Archive archive) {
    List<FaceStatements> faces = new Evidence(archive).confirmed();
    return read(
        archive, faces, People.of(archive, faces, Map.of()).persons(), new KeptAnswers(archive));
  }

  /**
   * The same for whoever has looked at the readings already.
   *
   * @param faces all that have a confirmed reading
   * @param persons of whom they speak
   */
  static Families read(
      Archive archive, List<FaceStatements> faces, List<Person> persons, KeptAnswers answers) {
    return new Families(archive, faces, persons, answers);
  }

  /** Whether a face bears what a footstone does and no more: initials, or a word of relation. */
  public static boolean isFootstone(Inscription inscription) {
    return FootstoneReading.of(inscription).isPresent();
  }

  /** Who is named for himself on which marker, by surname. */
  List<GroundPlan.Named> names() {
    return persons.stream()
        .flatMap(person -> person.mentions().stream())
        .filter(mention -> !mention.isKinOnly() && !mention.name().given().isEmpty())
        .map(
            mention ->
                new GroundPlan.Named(
                    (mention.name().surname().isEmpty() ? "" : mention.name().surname() + ", ")
                        + mention.name().given(),
                    mention.source().marker()))
        .distinct()
        .sorted(
            Comparator.comparing((GroundPlan.Named one) -> NameForms.fold(one.name()))
                .thenComparing(GroundPlan.Named::marker, MarkerStore.BY_NUMBER))
        .toList();
  }

  GroundPlan.Kind kind(MarkerId marker) {
    return footstones.containsKey(marker)
        ? GroundPlan.Kind.FOOTSTONE
        : named.containsKey(marker) ? GroundPlan.Kind.NAMES_PERSONS : GroundPlan.Kind.OTHER;
  }

  private void read(List<FaceStatements> faces) {
    Map<MarkerId, List<FaceStatements>> byMarker = new LinkedHashMap<>();
    for (FaceStatements face : faces) {
      markers.put(face.marker().id(), face.marker());
      byMarker.computeIfAbsent(face.marker().id(), id -> new ArrayList<>()).add(face);
      face.statements().stream()
          .filter(s -> s.kind() == Statement.Kind.MAKER)
          .forEach(
              s ->
                  carvers
                      .computeIfAbsent(face.marker().id(), id -> new HashSet<>())
                      .add(NameForms.fold(s.value())));
      face.face()
          .bearingDegrees()
          .filter(b -> face.face().name().equals(rakelight.photo.Face.FRONT))
          .ifPresent(b -> fronts.put(face.marker().id(), b));
    }
    byMarker.forEach(
        (id, own) -> {
          // A surname cut for all who are named elsewhere is no footstone's.
          boolean forAll =
              own.stream()
                  .flatMap(face -> face.statements().stream())
                  .anyMatch(s -> s.kind() == Statement.Kind.FAMILY);
          if (own.size() == 1 && !forAll) {
            FootstoneReading.of(own.get(0).inscription()).ifPresent(r -> footstones.put(id, r));
          }
        });
    for (int p = 0; p < persons.size(); p++) {
      for (Mention mention : persons.get(p).mentions()) {
        MarkerId marker = mention.source().marker().id();
        personsOn.computeIfAbsent(marker, id -> new TreeSet<>()).add(p);
        if (!footstones.containsKey(marker)) {
          named.computeIfAbsent(marker, id -> new ArrayList<>()).add(mention);
        }
      }
    }
    double all = 0;
    named.forEach((id, own) -> surnamesOn.put(id, surnamesOf(own)));
    for (Set<String> own : surnamesOn.values()) {
      for (String surname : own) {
        surnames.merge(surname, 1.0, Double::sum);
        all++;
      }
    }
    double sum = all;
    surnames.replaceAll((name, count) -> Math.max(LEAST_SHARE, count / sum));
  }

  private static Set<String> surnamesOf(List<Mention> mentions) {
    Set<String> surnames = new LinkedHashSet<>();
    for (Mention mention : mentions) {
      String folded = NameForms.fold(mention.name().surname());
      if (folded.length() > 1) {
        surnames.add(folded);
      }
    }
    return surnames;
  }

  /** Two stones with what speaks for one family. */
  private record Pair(MarkerId one, MarkerId other, double decibans, String words) {}

  List<FamilyGroup> groups() {
    Map<MarkerId, MarkerId> family = new HashMap<>();
    named.keySet().forEach(id -> family.put(id, id));
    Map<Set<MarkerId>, String> said = new LinkedHashMap<>();
    for (FamilyStore.Saying saying : sayings) {
      saying.other().ifPresent(other -> said.put(Set.of(saying.marker(), other), saying.what()));
    }
    Map<MarkerId, List<String>> reasons = new HashMap<>();
    said.forEach(
        (both, what) -> {
          if (what.equals(FamilyStore.TOGETHER) && family.keySet().containsAll(both)) {
            List<MarkerId> inOrder =
                both.stream()
                    .sorted(Comparator.comparing(this::number, new NaturalOrder()))
                    .toList();
            join(family, inOrder, reasons, "people said so");
          }
        });
    boolean anyApart = said.containsValue(FamilyStore.APART);
    for (Pair pair : pairs()) {
      MarkerId one = family.getOrDefault(pair.one(), pair.one());
      MarkerId other = family.getOrDefault(pair.other(), pair.other());
      boolean apart =
          anyApart
              && family.entrySet().stream()
                  .filter(e -> e.getValue().equals(one))
                  .anyMatch(
                      a ->
                          family.entrySet().stream()
                              .filter(e -> e.getValue().equals(other))
                              .anyMatch(
                                  b ->
                                      !a.getKey().equals(b.getKey())
                                          && FamilyStore.APART.equals(
                                              said.get(Set.of(a.getKey(), b.getKey())))));
      if (!one.equals(other) && !apart) {
        join(family, List.of(pair.one(), pair.other()), reasons, pair.words());
      }
    }
    Map<MarkerId, List<MarkerId>> stonesOf = new LinkedHashMap<>();
    for (MarkerId id : named.keySet()) {
      MarkerId root = family.getOrDefault(id, id);
      stonesOf.computeIfAbsent(root, r -> new ArrayList<>()).add(id);
    }
    Map<MarkerId, List<MarkerId>> footstonesOf = new HashMap<>();
    Map<MarkerId, List<Map<String, Double>>> formsOf = new HashMap<>();
    List<Near> near =
        stonesOf.entrySet().stream().map(one -> near(one.getKey(), one.getValue())).toList();
    for (MarkerId footstone : footstones.keySet()) {
      owner(footstone, near, formsOf, said)
          .ifPresent(
              root -> footstonesOf.computeIfAbsent(root, r -> new ArrayList<>()).add(footstone));
    }
    List<FamilyGroup> groups = new ArrayList<>();
    stonesOf.forEach(
        (root, stones) -> {
          FamilyGroup group =
              group(
                  stones,
                  footstonesOf.getOrDefault(root, List.of()),
                  reasons.getOrDefault(root, List.of()));
          if (group.persons().size() > 1 || !group.footstones().isEmpty()) {
            groups.add(group);
          }
        });
    answers.keep();
    groups.sort(Comparator.comparing(group -> group.stones().get(0), MarkerStore.BY_NUMBER));
    return groups;
  }

  private void join(
      Map<MarkerId, MarkerId> family,
      List<MarkerId> both,
      Map<MarkerId, List<String>> reasons,
      String words) {
    MarkerId kept = family.getOrDefault(both.get(0), both.get(0));
    MarkerId gone = family.getOrDefault(both.get(1), both.get(1));
    String told = number(both.get(0)) + " and " + number(both.get(1)) + ": " + words;
    reasons.computeIfAbsent(kept, k -> new ArrayList<>()).add(told);
    if (!kept.equals(gone)) {
      family.replaceAll((id, root) -> root.equals(gone) ? kept : root);
      List<String> more = reasons.remove(gone);
      if (more != null) {
        reasons.computeIfAbsent(kept, k -> new ArrayList<>()).addAll(more);
      }
    }
  }

  private String number(MarkerId id) {
    Marker marker = markers.get(id);
    return marker == null ? id.toString() : marker.number();
  }

  /** Pairs of stones with a surname or kin in common, the strongest first. */
  private List<Pair> pairs() {
    Map<String, List<MarkerId>> bySurname = new TreeMap<>();
    Map<String, List<MarkerId>> byName = new HashMap<>();
    named.forEach(
        (id, mentions) -> {
          surnamesOn
              .getOrDefault(id, Set.of())
              .forEach(n -> bySurname.computeIfAbsent(n, k -> new ArrayList<>()).add(id));
          mentions.stream()
              .filter(m -> !m.isKinOnly())
              .forEach(m -> byName.computeIfAbsent(key(m), k -> new ArrayList<>()).add(id));
        });
    Set<List<MarkerId>> kin = new LinkedHashSet<>();
    named.forEach(
        (id, mentions) ->
            mentions.stream()
                .filter(Mention::isKinOnly)
                .flatMap(m -> byName.getOrDefault(key(m), List.of()).stream())
                .filter(other -> !other.equals(id))
                .forEach(other -> kin.add(ordered(id, other))));
    // A frequent surname makes very many pairs, so those that nothing speaks for aren't kept.
    List<Pair> pairs = new ArrayList<>();
    kin.forEach(both -> addIfLikely(pairs, both, true));
    bySurname.forEach(
        (surname, ids) -> {
          for (int i = 0; i < ids.size(); i++) {
            for (int j = i + 1; j < ids.size(); j++) {
              List<MarkerId> both = ordered(ids.get(i), ids.get(j));
              if (isFirstInCommon(surname, both) && !kin.contains(both)) {
                addIfLikely(pairs, both, false);
              }
            }
          }
        });
    pairs.sort(
        Comparator.comparingDouble(Pair::decibans)
            .reversed()
            .thenComparing(p -> p.one().toString())
            .thenComparing(p -> p.other().toString()));
    return pairs;
  }

  private void addIfLikely(List<Pair> pairs, List<MarkerId> both, boolean kin) {
    Pair pair = pair(both.get(0), both.get(1), kin);
    if (pair.decibans() > 0) {
      pairs.add(pair);
    }
  }

  /** Stones with several surnames in common are one pair all the same. */
  private boolean isFirstInCommon(String surname, List<MarkerId> both) {
    Set<String> other = surnamesOn.getOrDefault(both.get(1), Set.of());
    return surnamesOn.getOrDefault(both.get(0), Set.of()).stream()
        .noneMatch(own -> own.compareTo(surname) < 0 && other.contains(own));
  }

  private static List<MarkerId> ordered(MarkerId one, MarkerId other) {
    return one.toString().compareTo(other.toString()) < 0
        ? List.of(one, other)
        : List.of(other, one);
  }

  private static String initials(Mention mention) {
    return FamilyGroup.initials(mention.name().given())
        + "|"
        + NameForms.fold(mention.name().surname());
  }

  private static String key(Mention mention) {
    return NameForms.fold(mention.name().given()) + "|" + NameForms.fold(mention.name().surname());
  }

  private Pair pair(MarkerId one, MarkerId other, boolean kin) {
    double sum = PRIOR_DECIBANS;
    List<String> words = new ArrayList<>();
    Optional<String> shared =
        surnamesOn.getOrDefault(one, Set.of()).stream()
            .filter(surnamesOn.getOrDefault(other, Set.of())::contains)
            .min(Comparator.comparingDouble(name -> surnames.getOrDefault(name, 1.0)));
    if (shared.isPresent()) {
      double decibans = -10 * Math.log10(surnames.getOrDefault(shared.get(), 1.0));
      sum += told(words, "both say " + capital(shared.get()), decibans);
    }
    if (kin) {
      sum += told(words, "one names kin of whom the other tells", KIN_DECIBANS);
    }
    Spot here = spots.get(one);
    Spot there = spots.get(other);
    if (here != null && there != null) {
      double metres = here.metresTo(there);
      double decibans =
          metres <= NEAR_METRES
              ? 6
              : metres <= CLOSE_METRES
                  ? 3
                  : metres <= FAR_METRES ? 0 : metres <= VERY_FAR_METRES ? -4 : -10;
      sum += told(words, String.format(Locale.ROOT, "%.0f m apart", metres), decibans);
      for (Plot plot : plots) {
        if (holds(plot, one) && holds(plot, other)) {
          sum += told(words, "both in plot " + plot.name(), SAME_PLOT_DECIBANS);
        }
      }
    }
    RowPlace mine = rowPlaces.get(one);
    RowPlace theirs = rowPlaces.get(other);
    if (mine != null
        && theirs != null
        && mine.row().equals(theirs.row())
        && Math.abs(mine.place() - theirs.place()) <= 2) {
      sum += told(words, "neighbours in row " + mine.row(), ROW_NEIGHBOURS_DECIBANS);
    }
    Set<String> carver = new HashSet<>(carvers.getOrDefault(one, Set.of()));
    carver.retainAll(carvers.getOrDefault(other, Set.of()));
    if (!carver.isEmpty()) {
      sum += told(words, "of one carver", CARVER_DECIBANS);
    }
    return new Pair(one, other, sum, String.join(", ", words));
  }

  private boolean holds(Plot plot, MarkerId marker) {
    return Optional.ofNullable(positions.get(marker))
        .filter(at -> plot.holds(at.latitudeDegrees(), at.longitudeDegrees()))
        .isPresent();
  }

  private static double told(List<String> words, String what, double decibans) {
    words.add(String.format(Locale.ROOT, "%s %+.0f", what, decibans));
    return decibans;
  }

  private static String capital(String folded) {
    return folded.substring(0, 1).toUpperCase(Locale.ROOT) + folded.substring(1);
  }

  /**
   * A family while its footstones are looked for.
   *
   * @param at where its stones are whose positions are known, and {@code errors} of these
   */
  private record Near(MarkerId root, List<MarkerId> stones, List<Spot> at, List<Double> errors) {
    /** How far off its nearest stone is beyond what errors explain; endless where none is known. */
    double metresFrom(Spot footstone, double error) {
      double nearest = Double.MAX_VALUE;
      for (int i = 0; i < at.size(); i++) {
        double beyond = footstone.metresTo(at.get(i)) - error - errors.get(i);
        nearest = Math.min(nearest, Math.max(0, beyond));
      }
      return nearest;
    }
  }

  private Near near(MarkerId root, List<MarkerId> stones) {
    List<MarkerId> known = stones.stream().filter(spots::containsKey).toList();
    return new Near(
        root,
        stones,
        known.stream().map(stone -> spot(stone, List.of())).toList(),
        known.stream().map(this::error).toList());
  }

  /** The family whose a footstone most likely is. */
  private Optional<MarkerId> owner(
      MarkerId footstone,
      List<Near> families,
      Map<MarkerId, List<Map<String, Double>>> formsOf,
      Map<Set<MarkerId>, String> said) {
    double[][] says = LetterFit.places(reading(footstone).letters());
    double stranger = LetterFit.stranger(says);
    Spot here = spots.get(footstone);
    double error = error(footstone);
    boolean spokenOf = said.keySet().stream().anyMatch(both -> both.contains(footstone));
    boolean linked = linksFrom.containsKey(footstone);
    MarkerId best = footstone;
    double most = 0;
    for (Near family : families) {
      double nearest = here == null ? Double.MAX_VALUE : family.metresFrom(here, error);
      boolean placed = nearest < Double.MAX_VALUE;
      boolean together = false;
      boolean apart = false;
      for (MarkerId stone : spokenOf || linked ? family.stones() : List.<MarkerId>of()) {
        String what = said.getOrDefault(Set.of(footstone, stone), "");
        together |= what.equals(FamilyStore.TOGETHER) || isLinked(footstone, stone);
        apart |= what.equals(FamilyStore.APART);
      }
      if (!together && (apart || placed && nearest > REACH_METRES)) {
        continue;
      }
      double fit = 0;
      for (Map<String, Double> forms :
          formsOf.computeIfAbsent(family.root(), root -> forms(family.stones()))) {
        fit += LetterFit.likelihood(says, forms) / stranger;
      }
      double score =
          together
              ? Double.MAX_VALUE
              : !placed && fit < 1
                  ? 0
                  : fit * Math.exp(-(placed ? nearest : UNKNOWN_METRES) / CLOSE_METRES);
      if (score > most) {
        most = score;
        best = family.root();
      }
    }
    return most > 0 ? Optional.of(best) : Optional.empty();
  }

  /** What may be cut for each of those whom stones name. */
  private List<Map<String, Double>> forms(List<MarkerId> stones) {
    return ownPersons(stones).stream()
        .map(person -> LetterFit.forms(asked(person, stones)))
        .toList();
  }

  private boolean isLinked(MarkerId footstone, MarkerId stone) {
    return linksFrom.getOrDefault(footstone, List.of()).stream()
        .anyMatch(
            link ->
                link.toMarker().filter(stone::equals).isPresent()
                    || link.toPerson()
                        .filter(
                            to ->
                                named.getOrDefault(stone, List.of()).stream()
                                    .anyMatch(m -> m.id().equals(to)))
                        .isPresent());
  }

  private List<Person> personsOn(List<MarkerId> stones) {
    return stones.stream()
        .flatMap(stone -> personsOn.getOrDefault(stone, Set.of()).stream())
        .distinct()
        .sorted()
        .map(persons::get)
        .toList();
  }

  private FamilyGroup group(
      List<MarkerId> stones, List<MarkerId> footstonesHere, List<String> reasons) {
    List<Person> own = ownPersons(stones);
    List<FamilyPerson> asked = own.stream().map(person -> asked(person, stones)).toList();
    List<Footstone> initials =
        footstonesHere.stream()
            .map(
                id -> {
                  FootstoneReading reading = reading(id);
                  return new Footstone(
                      number(id),
                      reading.letters(),
                      reading.year(),
                      spot(id, stones),
                      error(id),
                      Optional.empty());
                })
            .toList();
    Set<FamilyPlot.Tie> confirmed = new HashSet<>();
    Set<FamilyPlot.Tie> refused = new HashSet<>();
    for (int s = 0; s < footstonesHere.size(); s++) {
      for (int p = 0; p < own.size(); p++) {
        said(footstonesHere.get(s), own.get(p), s, p, confirmed, refused);
      }
    }
    refused.removeAll(confirmed);
    keepOne(confirmed);
    Optional<Double> front =
        stones.stream().filter(fronts::containsKey).map(fronts::get).findFirst();
    FamilyPlot plot = new FamilyPlot(asked, initials, front, confirmed, refused);
    Optional<String> called =
        sayings.stream()
            .filter(s -> s.what().equals(FamilyStore.CALLED))
            .filter(s -> stones.contains(s.marker()) || footstonesHere.contains(s.marker()))
            .reduce((first, second) -> second)
            .flatMap(FamilyStore.Saying::name);
    return new FamilyGroup(
        called.orElseGet(() -> commonest(own)),
        called.isPresent(),
        stones.stream().map(this::marker).sorted(MarkerStore.BY_NUMBER).toList(),
        footstonesHere.stream().map(this::marker).toList(),
        own,
        reasons,
        plot,
        initials.isEmpty() || own.isEmpty() ? Optional.empty() : Optional.of(answers.of(plot)));
  }

  /**
   * Those whom the stones name. A child under three may have no name. Somebody who is only named as
   * kin and whose name one of the family bears, or whose initials where no more is cut, is taken
   * for that one, whom he would else be a rival of.
   */
  private List<Person> ownPersons(List<MarkerId> stones) {
    List<Person> all =
        personsOn(stones).stream()
            .filter(
                person ->
                    !person.isUnnamed()
                        || person.isCommemorated()
                            && !person.mentions().isEmpty()
                            && age(person).filter(years -> years < INFANT).isPresent())
            .toList();
    Set<String> forThemselves = new HashSet<>();
    Set<String> inInitials = new HashSet<>();
    all.stream()
        .filter(Person::isCommemorated)
        .flatMap(person -> person.mentions().stream())
        .forEach(
            mention -> {
              forThemselves.add(key(mention));
              inInitials.add(initials(mention));
            });
    return all.stream()
        .filter(
            person ->
                person.isCommemorated()
                    || person.mentions().stream()
                        .noneMatch(
                            m ->
                                forThemselves.contains(key(m))
                                    || inInitials.contains(initials(m))
                                        && FamilyGroup.isInitials(m.name().given())))
        .toList();
  }

  private FootstoneReading reading(MarkerId footstone) {
    return Optional.ofNullable(footstones.get(footstone)).orElseThrow();
  }

  private Marker marker(MarkerId id) {
    return Optional.ofNullable(markers.get(id)).orElseThrow();
  }

  /** Two stones confirmed to be one person's, or one of two persons: the model takes the first. */
  private static void keepOne(Set<FamilyPlot.Tie> confirmed) {
    Set<Integer> stones = new HashSet<>();
    Set<Integer> persons = new HashSet<>();
    List<FamilyPlot.Tie> ordered =
        confirmed.stream()
            .sorted(
                Comparator.comparingInt(FamilyPlot.Tie::stone)
                    .thenComparingInt(FamilyPlot.Tie::person))
            .toList();
    for (FamilyPlot.Tie tie : ordered) {
      if (stones.contains(tie.stone()) || persons.contains(tie.person())) {
        confirmed.remove(tie);
      }
      stones.add(tie.stone());
      persons.add(tie.person());
    }
  }

  private void said(
      MarkerId footstone,
      Person person,
      int s,
      int p,
      Set<FamilyPlot.Tie> confirmed,
      Set<FamilyPlot.Tie> refused) {
    Set<MentionId> ids = new HashSet<>();
    Set<MarkerId> on = new HashSet<>();
    person
        .mentions()
        .forEach(
            mention -> {
              ids.add(mention.id());
              on.add(mention.source().marker().id());
            });
    for (Link link : linksFrom.getOrDefault(footstone, List.of())) {
      boolean his = link.toPerson().filter(ids::contains).isPresent();
      if (his && (link.kind() == Link.Kind.BURIED_HERE || link.kind() == Link.Kind.COMMEMORATED)) {
        confirmed.add(new FamilyPlot.Tie(s, p));
      }
      if (link.toMarker().filter(marker -> !on.contains(marker)).isPresent()) {
        refused.add(new FamilyPlot.Tie(s, p));
      }
    }
    refusals.stream()
        .filter(r -> r.from().equals(footstone) && ids.contains(r.toPerson()))
        .forEach(r -> refused.add(new FamilyPlot.Tie(s, p)));
  }

  private static String commonest(List<Person> persons) {
    Map<String, Integer> counts = new LinkedHashMap<>();
    persons.forEach(
        person ->
            person
                .fullest()
                .map(m -> m.name().surname())
                .filter(name -> !name.isEmpty())
                .ifPresent(name -> counts.merge(name, 1, Integer::sum)));
    return counts.entrySet().stream()
        .max(Map.Entry.comparingByValue())
        .map(Map.Entry::getKey)
        .orElse("unnamed");
  }

  private double error(MarkerId id) {
    MarkerPosition at = positions.get(id);
    return at == null ? UNKNOWN_METRES : at.errorMetres();
  }

  /** Where a marker stands; where nobody knows, in the middle of its family's stones. */
  private Spot spot(MarkerId id, List<MarkerId> stones) {
    Spot at = spots.get(id);
    if (at != null) {
      return at;
    }
    List<Spot> known =
        stones.stream()
            .filter(positions::containsKey)
            .map(stone -> spot(stone, List.of()))
            .toList();
    return new Spot(
        known.stream().mapToDouble(Spot::eastMetres).average().orElse(0),
        known.stream().mapToDouble(Spot::northMetres).average().orElse(0));
  }

  private FamilyPerson asked(Person person, List<MarkerId> stones) {
    Mention fullest = person.fullest().orElseThrow();
    List<String> given = List.of(fullest.name().given().strip().split("[\\s.]+"));
    LinkedHashSet<String> borne = new LinkedHashSet<>(List.of(fullest.name().surname()));
    Set<String> kin = new HashSet<>();
    List<FamilyPerson.NamedAt> at = new ArrayList<>();
    boolean elsewhere = false;
    for (Mention mention : person.mentions()) {
      borne.add(mention.name().surname());
      borne.add(mention.name().birthSurname());
      mention.kin().forEach(one -> kin.add(one.relation()));
      elsewhere |=
          mention.about().stream()
              .filter(s -> s.kind() == Statement.Kind.CAUSE)
              .anyMatch(s -> NameForms.fold(s.value()).matches(".*(lost|drown|atsea).*"));
      MarkerId marker = mention.source().marker().id();
      if (!stones.contains(marker)) {
        continue;
      }
      boolean own =
          named.getOrDefault(marker, List.of()).stream()
              .allMatch(other -> other.isKinOnly() || other.id().equals(mention.id()));
      at.add(
          new FamilyPerson.NamedAt(
              number(marker),
              spot(marker, stones),
              error(marker),
              mention.source().face().bearingDegrees(),
              own && !mention.isKinOnly(),
              mention.number()));
    }
    borne.remove("");
    Optional<Integer> age = age(person);
    return new FamilyPerson(
        person.called(),
        given.stream().filter(name -> !name.isEmpty()).toList(),
        List.copyOf(borne),
        relations(given.get(0), kin, age),
        age,
        years(person, Statement.Kind.DEATH),
        years(person, Statement.Kind.BIRTH),
        at,
        elsewhere ? FamilyPerson.Lies.ELSEWHERE : FamilyPerson.Lies.HERE_OR_UNKNOWN);
  }

  /** In completed years; of who lived for months or days 0. */
  private static Optional<Integer> age(Person person) {
    return person.values(Statement.Kind.AGE).stream()
        .map(YEARS::matcher)
        .filter(Matcher::matches)
        .map(matcher -> Optional.ofNullable(matcher.group(1)).map(Integer::parseInt).orElse(0))
        .findFirst();
  }

  private static Set<String> relations(String given, Set<String> kin, Optional<Integer> age) {
    Set<String> words = new LinkedHashSet<>();
    boolean woman = GivenNames.known().isWomans(NameForms.fold(given));
    boolean man = GivenNames.known().isMans(NameForms.fold(given));
    boolean grownUp = age.isEmpty() || age.get() >= GROWN_UP;
    if (grownUp && (kin.contains("spouse") || kin.contains("child"))) {
      words.addAll(
          woman ? List.of("MOTHER", "WIFE") : man ? List.of("FATHER", "HUSBAND") : List.of());
    }
    if (kin.contains("parent")) {
      words.addAll(woman ? List.of("DAUGHTER") : man ? List.of("SON") : List.of());
    }
    if (age.filter(years -> years < INFANT).isPresent()) {
      words.addAll(List.of("BABY", "BABE", "INFANT"));
    }
    return words;
  }

  private static Map<Integer, Double> years(Person person, Statement.Kind kind) {
    Map<Integer, Double> years = new TreeMap<>();
    for (String value : person.values(kind)) {
      Edtf date = Edtf.parse(value);
      if (date.earliest().isPresent() && date.latest().isPresent()) {
        int first = (int) date.earliest().get().year();
        int last = (int) date.latest().get().year();
        for (int y = first; y <= last && last - first <= LONGEST_SPAN_YEARS; y++) {
          years.merge(y, 1.0 / (last - first + 1), Double::sum);
        }
      }
    }
    double sum = years.values().stream().mapToDouble(Double::doubleValue).sum();
    years.replaceAll((year, share) -> share / sum);
    return years;
  }
}
