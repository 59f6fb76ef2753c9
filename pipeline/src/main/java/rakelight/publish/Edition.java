package rakelight.publish;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.ground.FamilyGroup;
import rakelight.ground.GroundPlan;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.ground.PlannedWalk;
import rakelight.ground.Walk;
import rakelight.ground.removal.RemovalAccount;
import rakelight.ground.removal.RemovedGrave;
import rakelight.inscription.Inscription;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.names.NameForms;
import rakelight.person.DeathCircumstance;
import rakelight.person.Deaths;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.FoldedWords;
import rakelight.person.Linkage;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.Opinion;
import rakelight.person.Person;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.person.Sought;
import rakelight.person.SourceStore;
import rakelight.person.Statement;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.reading.FacePictures;
import rakelight.reading.FaceView;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.reading.ProposedLine;
import rakelight.relief.SquaredFace;

/**
 * What of an archive may be told on a day, decided once: whatever is written for the public takes
 * an edition and nothing else. It answers of each thing whether it is told and, if not, why; and
 * what it hands out is free of all that isn't. Good as long as the archive is open.
 *
 * <p>A face of a marker that is withheld isn't told; a photograph isn't told if its face isn't or
 * holds anything withheld; a sign isn't if anything stated of somebody withheld is read from it; a
 * person isn't who is named on no face that is told. Words that people wrote themselves, such as a
 * witness or a note of evidence, are handed out as they are.
 */
public final class Edition {
  private final String ground;
  private final Archive archive;
  private final MarkerStore markers;
  private final PhotoStore photographs;
  private final ReadingStore readings;
  private final ProposalStore proposals;
  private final Concluded concluded;
  private final Noted noted;
  private final FacePictures pictures;
  private final Withheld withheld;
  private final Map<FaceId, Face> faces = new HashMap<>();
  private final Set<FaceId> read = new HashSet<>();
  private final List<ToldFace> told = new ArrayList<>();
  private final Set<String> toldWords = new HashSet<>();
  private Optional<List<Set<String>>> hiddenNames = Optional.empty();
  private Optional<Predicate<String>> namesUntold = Optional.empty();

  /** What sort of thing is left out. */
  public enum Sort {
    MARKER,
    FACE,
    /** Only the photographs of a marker or face; each of them is left out by itself as well. */
    PHOTOGRAPHS,
    PHOTOGRAPH,
    PERSON
  }

  /**
   * Something that isn't told.
   *
   * @param called by which people know it
   * @param markers the numbers of those it is on
   * @param why never empty
   */
  public record LeftOut(Sort sort, UUID id, String called, List<String> markers, List<Why> why) {
    public LeftOut {
      markers = List.copyOf(markers);
      why = List.copyOf(why);
    }
  }

  private Edition(Archive archive, LocalDate day) {
    this.archive = archive;
    ground = archive.ground().name();
    markers = new MarkerStore(archive);
    photographs = new PhotoStore(archive);
    readings = new ReadingStore(archive);
    proposals = new ProposalStore(archive);
    concluded = new Concluded(archive);
    noted = new Noted(archive);
    pictures = new FacePictures(archive);
    WithholdingStore store = new WithholdingStore(archive);
    withheld =
        new Withheld(
            concluded.faces(),
            concluded.persons(),
            store.withholdings(),
            store.toldAfterYears(),
            day);
    photographs.faces().forEach(face -> faces.put(face.id(), face));
    concluded.faces().forEach(face -> read.add(face.face().id()));
    Map<MarkerId, Set<String>> hidden = new HashMap<>();
    for (FaceStatements face : concluded.faces()) {
      if (why(face.face().id()).isEmpty()) {
        ToldFace left = told(face);
        told.add(left);
        Set<String> words = new HashSet<>(face.words());
        words.removeAll(left.says().words());
        hidden.computeIfAbsent(face.marker().id(), m -> new HashSet<>()).addAll(words);
      }
    }
    told.replaceAll(
        face -> withoutSurnamesOf(face, hidden.getOrDefault(face.says().marker().id(), Set.of())));
  }

  /** The edition of an archive on a day of publication. */
  public static Edition of(Archive archive, LocalDate day) {
    return new Edition(archive, day);
  }

  /** Whether somebody may be living on a day, and so isn't told. */
  public static boolean mayBeLiving(Person person, LocalDate day) {
    return Concluded.mayBeLiving(person, day);
  }

  /** The ground's name. */
  public String ground() {
    return ground;
  }

  // Whether something is told: it is where there is no reason against it.

  /** Why a marker isn't told. */
  public List<Why> why(MarkerId marker) {
    return withheld.of(marker).stream().filter(Edition::isOfAll).toList();
  }

  /** Why a face isn't told: what it says, and its photographs. */
  public List<Why> why(FaceId face) {
    return reasons(face, Edition::isOfAll);
  }

  /** Why a photograph isn't told. */
  public List<Why> why(PhotographId photograph) {
    return photographs.photograph(photograph).map(this::why).orElse(List.of(new Why.NotRead()));
  }

  /** Why a sign of a face's current reading isn't told. */
  public List<Why> why(FaceId face, SignId sign) {
    Set<Why> why = new LinkedHashSet<>(why(face));
    why.addAll(withheld.signs(face).getOrDefault(sign, Set.of()));
    return List.copyOf(why);
  }

  /** Why a statement of a face isn't told. */
  public List<Why> why(FaceId face, Statement statement) {
    Set<Why> why = new LinkedHashSet<>();
    statement.signs().forEach(sign -> why.addAll(why(face, sign)));
    return List.copyOf(why);
  }

  /** Why a person isn't told at all. */
  public List<Why> why(Person person) {
    Set<Why> why = new LinkedHashSet<>(withheld.of(person));
    person.fromForm().flatMap(Opinion::marker).ifPresent(marker -> why.addAll(why(marker)));
    boolean elsewhere =
        person.mentions().stream().anyMatch(mention -> why(mention.id().face()).isEmpty());
    if (!elsewhere) {
      person.mentions().forEach(mention -> why.addAll(why(mention.id().face())));
    }
    return List.copyOf(why);
  }

  private static boolean isOfAll(Why why) {
    return !(why instanceof Why.Decided decided && decided.withholding().cause().isOfPhotographs());
  }

  private List<Why> reasons(FaceId face, Predicate<Why> which) {
    Set<Why> why = new LinkedHashSet<>();
    Optional.ofNullable(faces.get(face)).ifPresent(f -> why.addAll(withheld.of(f.marker())));
    why.addAll(withheld.of(face));
    if (!read.contains(face)) {
      why.add(new Why.NotRead());
    }
    return why.stream().filter(which).toList();
  }

  private List<Why> why(Photograph photograph) {
    Set<Why> why = new LinkedHashSet<>(withheld.of(photograph.id()));
    List<FaceId> faces = photographs.facesOn(photograph);
    faces.forEach(face -> why.addAll(reasons(face, reason -> true)));
    if (faces.isEmpty()) {
      why.add(new Why.NotRead());
    }
    // A face that isn't there any more is withdrawn; what else shows it isn't told either.
    if (faces.stream()
        .anyMatch(face -> photographs.face(face).isEmpty() || !withheld.signs(face).isEmpty())) {
      why.add(new Why.ShowsWithheld());
    }
    return List.copyOf(why);
  }

  // What is told

  /** The faces that are told, by marker number and face name. */
  public List<ToldFace> faces() {
    return Collections.unmodifiableList(told);
  }

  private ToldFace told(FaceStatements face) {
    Map<SignId, Set<Why>> hidden = withheld.signs(face.face().id());
    Reading reading = face.reading().orElseThrow();
    Map<SignId, Set<String>> words = new HashMap<>();
    hidden.forEach(
        (sign, why) -> words.put(sign, new TreeSet<>(why.stream().map(Why::words).toList())));
    Published published = Published.of(reading.inscription(), words);
    Supplier<Inscription> letters =
        published.withheld().isEmpty() ? reading.letters() : published::inscription;
    FaceStatements says =
        new FaceStatements(
            face.marker(),
            face.face(),
            Optional.of(
                new Reading(
                    reading.id(),
                    reading.face(),
                    reading.version(),
                    reading.basis(),
                    reading.proposal(),
                    reading.settles(),
                    letters,
                    reading.reader(),
                    reading.at(),
                    reading.decision())),
            Optional.empty(),
            letters,
            face.statements().stream()
                .filter(statement -> why(face.face().id(), statement).isEmpty())
                .toList());
    return new ToldFace(says, published.withheld());
  }

  /** A face without surnames that were worked out from words, folded, which aren't told. */
  private static ToldFace withoutSurnamesOf(ToldFace face, Set<String> words) {
    FaceStatements says = face.says();
    return new ToldFace(
        new FaceStatements(
            says.marker(),
            says.face(),
            says.reading(),
            says.proposal(),
            says.letters(),
            says.statements().stream()
                .map(statement -> statement.withoutSurnameOf(words))
                .toList()),
        face.withheld());
  }

  /** The persons that are told, each with those places and facts alone that are. */
  public List<Person> persons() {
    Map<MentionId, Mention> mentions =
        Concluded.mentions(told.stream().map(ToldFace::says).toList());
    List<Person> persons = new ArrayList<>();
    for (Person person : concluded.persons()) {
      List<Mention> own =
          person.mentions().stream()
              .flatMap(m -> Optional.ofNullable(mentions.get(m.id())).stream())
              .toList();
      if (why(person).isEmpty() && !(own.isEmpty() && person.fromForm().isEmpty())) {
        persons.add(new Person(person.id(), own, person.fromForm(), person.died()));
      }
    }
    return List.copyOf(persons);
  }

  /**
   * The links that are told: from markers that are, to such markers or to persons named where they
   * are told. A link to a person whom only its own words name is none of them.
   */
  public List<Link> links() {
    Set<MentionId> named = new HashSet<>();
    persons().forEach(person -> person.mentions().forEach(m -> named.add(m.id())));
    return new LinkStore(archive)
        .links().stream()
            .filter(link -> why(link.from()).isEmpty())
            .filter(
                link ->
                    link.toPerson().filter(named::contains).isPresent()
                        || link.toMarker().filter(marker -> why(marker).isEmpty()).isPresent())
            .toList();
  }

  /**
   * Weeks and months with many deaths of persons who are told, with what their stones, sources and
   * questions say of them; questions about markers that aren't told are left out.
   */
  public List<DyingTimes.DyingTime> dyingTimes() {
    SourceStore sources = new SourceStore(archive);
    List<Sought> sought = sources.sought();
    Map<MentionId, Sought> found = new HashMap<>();
    for (SourceStore.Judgement judgement : sources.judgements()) {
      if (judgement.found()) {
        sought.stream()
            .filter(one -> one.source().equals(judgement.source()))
            .filter(one -> one.row().number() == judgement.row())
            .forEach(one -> found.put(judgement.mention(), one));
      }
    }
    List<Question> questions =
        new QuestionStore(archive)
            .questions().stream()
                .filter(question -> question.marker().stream().allMatch(m -> why(m).isEmpty()))
                .toList();
    return Deaths.of(persons()).stream()
        .map(
            cluster ->
                new DyingTimes.DyingTime(
                    cluster, DeathCircumstance.of(cluster, sought, found, questions)))
        .toList();
  }

  /**
   * Accounts of graves moved here as far as they are told. The figures stay; a grave whose marker
   * isn't told has no place, and one whose person people or the ground's rule keep back, or that
   * may be his, has no name.
   */
  public List<RemovalAccount> told(List<RemovalAccount> accounts) {
    Map<MentionId, Person> named = new HashMap<>();
    persons().forEach(person -> person.mentions().forEach(m -> named.put(m.id(), person)));
    return accounts.stream()
        .map(
            account -> {
              Set<Integer> touched = new HashSet<>();
              List<RemovedGrave> graves =
                  account.graves().stream().map(grave -> told(grave, named, touched)).toList();
              return account.with(
                  graves,
                  account.faults().stream()
                      .map(
                          fault ->
                              fault.rows().stream().anyMatch(touched::contains)
                                  ? fault.inGeneral()
                                  : fault)
                      .toList(),
                  account.unclaimed().stream()
                      .filter(marker -> why(marker.id()).isEmpty())
                      .toList());
            })
        .toList();
  }

  private RemovedGrave told(
      RemovedGrave grave, Map<MentionId, Person> named, Set<Integer> touched) {
    boolean nameKept =
        Stream.concat(
                    grave.found().stream().map(concluded::personOf).flatMap(Optional::stream),
                    grave.proposals().stream().map(Linkage.Match::person))
                .flatMap(person -> withheld.of(person).stream())
                .anyMatch(why -> !(why instanceof Why.MayBeLiving))
            || withheld.isYoung(latestDeath(grave));
    boolean placeKept = grave.leadsTo().stream().anyMatch(marker -> !why(marker.id()).isEmpty());
    if (nameKept || placeKept) {
      touched.addAll(grave.numbers());
    }
    RemovedGrave left =
        grave.with(
            grave.found().filter(mention -> named.containsKey(mention.id())),
            grave.proposals().stream()
                .filter(match -> named.containsKey(match.mention().id()))
                .toList());
    left = nameKept ? left.withoutName() : left;
    return placeKept ? left.withoutPlace() : left;
  }

  /** The last day on which somebody moved can have died, by death or removal. */
  private static Optional<Day> latestDeath(RemovedGrave grave) {
    return grave.rows().stream()
        .flatMap(row -> Stream.concat(row.diedOn().stream(), row.movedOn().stream()))
        .flatMap(date -> Edtf.parse(date).latest().stream())
        .max(Day::compareTo);
  }

  /** What a face was read from. */
  public ReadFrom readFrom(ToldFace face) {
    Reading current = face.says().reading().orElseThrow();
    List<Reading> versions = new ArrayList<>(readings.versions(current.face()));
    versions.removeIf(version -> version.version() > current.version());
    Collections.reverse(versions);
    Optional<Proposal> proposal = counted(current);
    List<ReadFrom.Shot> shots = face.isTouched() ? List.of() : shots(current.face(), proposal);
    Set<PhotographId> shown = new HashSet<>();
    shots.forEach(shot -> shown.add(shot.id()));
    List<ProposedLine> lines = proposal.map(Proposal::lines).orElse(List.of());
    return new ReadFrom(
        versions.stream().map(version -> version(face, current, version)).toList(),
        shots,
        lines.stream()
            .filter(line -> shown.contains(line.photograph()))
            .map(line -> new ReadFrom.FoundAt(line.photograph(), line.number(), line.box()))
            .toList(),
        lines.size() == current.inscription().lines().size() ? lines.size() : 0);
  }

  /** What was read before isn't told where something is withheld now, or would have been then. */
  private ReadFrom.Version version(ToldFace face, Reading current, Reading version) {
    boolean isCurrent = version.version() == current.version();
    boolean isTold =
        isCurrent
            || (!face.isTouched()
                && concluded.namedBefore(face.says(), version).stream()
                    .allMatch(person -> withheld.reasons(person).isEmpty()));
    return new ReadFrom.Version(
        version.version(),
        version.reader(),
        version.at(),
        version.basis(),
        isTold
            ? Optional.of(isCurrent ? current.inscription() : version.inscription())
            : Optional.empty());
  }

  /** Those on the face now, and those on which its lines were found. */
  private List<ReadFrom.Shot> shots(FaceId face, Optional<Proposal> proposal) {
    Map<PhotographId, Photograph> all = new LinkedHashMap<>();
    photographs.ofFace(face).forEach(shot -> all.put(shot.id(), shot));
    for (ProposedLine line : proposal.map(Proposal::lines).orElse(List.of())) {
      photographs.photograph(line.photograph()).ifPresent(shot -> all.put(shot.id(), shot));
    }
    return all.values().stream()
        .filter(shot -> why(shot).isEmpty())
        .map(
            shot ->
                new ReadFrom.Shot(
                    shot.id(),
                    shot.sha256(),
                    archive.originals().path(shot.sha256(), shot.format().extension()),
                    shot.format(),
                    shot.originalName(),
                    shot.taken(),
                    shot.uprightWidthPx(),
                    shot.uprightHeightPx(),
                    shot.photographer(),
                    shot.credit(),
                    shot.rights()))
        .toList();
  }

  /** The proposal whose lines the reading counts. */
  private Optional<Proposal> counted(Reading reading) {
    return reading
        .proposal()
        .flatMap(
            id ->
                proposals
                    .kept(id)
                    .or(() -> proposals.latest(reading.face()).filter(p -> p.id().equals(id))));
  }

  /** What is told of the ground around the readings. */
  public ToldGround around() {
    return ToldGround.of(archive, this, this::mayTell);
  }

  // What people noted, and what machines made

  /**
   * Whether words that people wrote may be told: they don't name anybody who isn't. A word that is
   * only in names that aren't told gives somebody away, and so do a given name and surname that
   * stand together in one of them.
   */
  public boolean mayTell(String words) {
    Set<String> own = folded(words);
    return !namesUntold().test(words)
        && hiddenNames().stream()
            .noneMatch(
                name ->
                    name.stream().anyMatch(part -> own.contains(part) && !toldWords.contains(part))
                        || (name.size() > 1 && own.containsAll(name)));
  }

  /** The same words; none where they may not be told. */
  private String toldOf(String words) {
    return mayTell(words) ? words : "";
  }

  /** Whether words hold the whole name of somebody who isn't told, though letters of it be lost. */
  private Predicate<String> namesUntold() {
    if (namesUntold.isEmpty()) {
      Set<UUID> shown = new HashSet<>();
      persons().forEach(person -> shown.add(person.id()));
      namesUntold =
          Optional.of(
              FoldedWords.naming(
                  concluded.persons().stream()
                      .filter(person -> !shown.contains(person.id()) && !person.isUnnamed())
                      .map(Person::called)
                      .distinct()
                      .toList()));
    }
    return namesUntold.orElseThrow();
  }

  private List<Set<String>> hiddenNames() {
    if (hiddenNames.isEmpty()) {
      Set<MentionId> named = new HashSet<>();
      for (Person person : persons()) {
        for (Mention mention : person.mentions()) {
          named.add(mention.id());
          toldWords.addAll(folded(mention.called()));
        }
      }
      told.forEach(face -> toldWords.addAll(face.says().words()));
      List<Set<String>> hidden = new ArrayList<>();
      for (Person person : concluded.persons()) {
        for (Mention mention : person.mentions()) {
          if (!named.contains(mention.id())) {
            hidden.add(folded(mention.name().given() + " " + mention.name().surname()));
            hidden.add(folded(mention.name().birthSurname()));
          }
        }
      }
      hidden.removeIf(Set::isEmpty);
      hiddenNames = Optional.of(hidden);
    }
    return hiddenNames.orElseThrow();
  }

  private static Set<String> folded(String words) {
    Set<String> folded = new HashSet<>();
    for (String word : words.split("[^\\p{L}\\p{M}\\p{N}’']+", -1)) {
      folded.add(NameForms.fold(word.replaceFirst("[’']s$", "")));
    }
    folded.remove("");
    return folded;
  }

  /** A marker that is told. */
  public Optional<Marker> marker(MarkerId id) {
    return noted.marker(id).filter(marker -> why(marker.id()).isEmpty());
  }

  /**
   * A walk that people planned, past markers that are told.
   *
   * @param notes what is to be said at each of its stops, in their order; may be empty
   */
  public record ToldWalk(PlannedWalk planned, Walk walk, List<String> notes) {
    public ToldWalk {
      notes = List.copyOf(notes);
    }
  }

  /** The walks that people planned, without stops and notes that aren't told. */
  public List<ToldWalk> walks() {
    List<ToldWalk> walks = new ArrayList<>();
    for (PlannedWalk planned : noted.walks()) {
      List<Marker> stops =
          planned.stops().stream()
              .flatMap(stop -> marker(stop.marker()).stream())
              .distinct()
              .toList();
      if (!stops.isEmpty() && mayTell(planned.name())) {
        Walk walk = noted.inOrder(stops, planned.back());
        walks.add(
            new ToldWalk(
                planned,
                walk,
                walk.stops().stream()
                    .map(stop -> toldOf(planned.note(stop.marker().id())))
                    .toList()));
      }
    }
    return List.copyOf(walks);
  }

  /**
   * The plan of the ground as what is told alone makes it: families and ties follow from faces and
   * persons that are told, and a family is called as people call it only where that names nobody
   * else.
   */
  public GroundPlan plan() {
    GroundPlan all = noted.plan(told.stream().map(ToldFace::says).toList(), persons());
    Map<String, List<Marker>> rows = new LinkedHashMap<>();
    all.rows().forEach((row, in) -> rows.put(row, in.stream().filter(this::isTold).toList()));
    rows.values().removeIf(List::isEmpty);
    Map<String, String> called = new HashMap<>();
    List<FamilyGroup> families = all.families().stream().map(this::told).toList();
    for (int i = 0; i < families.size(); i++) {
      called.put(all.families().get(i).name(), families.get(i).name());
    }
    return new GroundPlan(
        all.ground(),
        all.plane(),
        all.markers().stream()
            .filter(placed -> isTold(placed.marker()))
            .map(
                placed ->
                    new GroundPlan.Placed(
                        placed.marker(),
                        placed.kind(),
                        placed.position(),
                        placed.at(),
                        placed.row(),
                        placed.plots(),
                        placed.family().map(name -> called.getOrDefault(name, name))))
            .toList(),
        all.unplaced().stream().filter(this::isTold).toList(),
        rows,
        all.plots().stream().filter(plot -> mayTell(plot.name())).toList(),
        families,
        all.ties(),
        all.names());
  }

  private boolean isTold(Marker marker) {
    return why(marker.id()).isEmpty();
  }

  private FamilyGroup told(FamilyGroup family) {
    return new FamilyGroup(
        family.isNamed() && !mayTell(family.name()) ? surname(family) : family.name(),
        family.isNamed() && mayTell(family.name()),
        family.stones(),
        family.footstones(),
        family.persons(),
        family.reasons().stream().filter(this::mayTell).toList(),
        family.plot(),
        family.answer());
  }

  private static String surname(FamilyGroup family) {
    return family.persons().stream()
        .flatMap(person -> person.fullest().stream())
        .map(mention -> mention.name().surname())
        .filter(surname -> !surname.isEmpty())
        .findFirst()
        .orElse("unnamed");
  }

  /**
   * A photograph that is told, in colour, upright.
   *
   * @param longestPx the longest side it may have
   * @return a JPEG file; empty if the photograph can't be decoded
   */
  public Optional<Path> picture(ReadFrom.Shot shot, int longestPx) throws IOException {
    Optional<Photograph> photograph = shown(shot);
    if (photograph.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(pictures.smaller(photograph.get(), longestPx));
    } catch (BadInputException e) {
      return Optional.empty();
    }
  }

  /** Whether a photograph can be shown; a damaged file may still fail. */
  public boolean shows(ReadFrom.Shot shot) {
    return shown(shot).isPresent();
  }

  private Optional<Photograph> shown(ReadFrom.Shot shot) {
    return photographs
        .photograph(shot.id())
        .filter(one -> why(one).isEmpty())
        .filter(one -> one.isShown(Picture::isRead));
  }

  /**
   * The relief images of a face by name, made of photographs that are all told.
   *
   * @return PNG files; none where there is no proposal, or a photograph can't be decoded
   */
  public Map<String, Path> reliefs(ToldFace face) throws IOException {
    Optional<Proposal> proposal = picturesOf(face);
    if (proposal.isEmpty()) {
      return Map.of();
    }
    try {
      return pictures.reliefs(proposal.get());
    } catch (BadInputException e) {
      return Map.of();
    }
  }

  /**
   * The proposal that a face's reading counts, else the latest one, which saw the same letters; if
   * all its photographs are told.
   */
  private Optional<Proposal> picturesOf(ToldFace face) {
    return face.isTouched()
        ? Optional.empty()
        : counted(face.says().reading().orElseThrow())
            .or(() -> proposals.latest(face.says().face().id()))
            .filter(proposal -> !proposal.views().isEmpty())
            .filter(proposal -> proposal.photographs().stream().allMatch(id -> why(id).isEmpty()));
  }

  /**
   * Where the letters of a face stand on its leading photograph: of lines that a machine found,
   * where it found as many as were read.
   *
   * @param from what the face was read from
   */
  public Optional<LaidReading> laid(ToldFace face, ReadFrom from) {
    Optional<Proposal> proposal = picturesOf(face);
    if (proposal.isEmpty()) {
      return Optional.empty();
    }
    FaceView leading = proposal.get().views().get(0);
    Optional<ReadFrom.Shot> shot =
        from.shots().stream().filter(one -> one.id().equals(leading.photograph())).findFirst();
    List<List<Sign>> lines = face.says().inscription().lines();
    List<LaidReading.LetterAt> letters = new ArrayList<>();
    List<ProposedLine> found = proposal.get().lines();
    for (int i = 0; found.size() == lines.size() && i < lines.size(); i++) {
      ProposedLine line = found.get(i);
      Optional<Homography> toLeading = proposal.get().view(line.photograph()).toLeading();
      toLeading.ifPresent(
          map ->
              LettersLaid.along(lines.get(line.number() - 1), line)
                  .forEach(
                      (sign, part) ->
                          letters.add(
                              new LaidReading.LetterAt(
                                  sign, line.boxOf(part[0], part[1]).map(map::map)))));
    }
    SquaredFace.Shape shape = FacePictures.shape(proposal.get());
    return shot.map(
        on ->
            new LaidReading(
                on,
                letters,
                shape.widthPx(),
                shape.heightPx(),
                Optional.of(shape.toPhotograph().inverse())));
  }

  // What isn't told

  /**
   * Everything that is withheld, markers and faces first, then photographs and persons. What nobody
   * has read yet isn't withheld and isn't in it.
   */
  public List<LeftOut> leftOut() {
    List<LeftOut> all = new ArrayList<>();
    for (Marker marker : markers.markers()) {
      List<String> number = List.of(marker.number());
      String called = "marker " + marker.number();
      add(all, Sort.MARKER, marker.id().value(), called, number, why(marker.id()));
      add(all, marker.id().value(), called, number, withheld.of(marker.id()));
      for (Face face : photographs.faces(marker.id())) {
        String name = marker.number() + " " + face.name();
        List<Why> own = withheld.of(face.id()).stream().filter(Edition::isOfAll).toList();
        add(all, Sort.FACE, face.id().value(), name, number, own);
        add(all, face.id().value(), name, number, withheld.of(face.id()));
      }
    }
    for (Photograph photograph : photographs.photographs()) {
      Optional<Marker> marker =
          photograph.face().map(faces::get).map(Face::marker).flatMap(markers::marker);
      List<Why> why =
          why(photograph).stream().filter(reason -> !(reason instanceof Why.NotRead)).toList();
      add(
          all,
          Sort.PHOTOGRAPH,
          photograph.id().value(),
          photograph.originalName() + marker.map(m -> " on marker " + m.number()).orElse(""),
          marker.map(Marker::number).stream().toList(),
          why);
    }
    for (Person person : concluded.persons()) {
      List<String> places = person.mentions().stream().map(Mention::label).toList();
      add(
          all,
          Sort.PERSON,
          person.id(),
          person.called() + (places.isEmpty() ? "" : " at " + String.join(", ", places)),
          markers(person),
          why(person));
    }
    return List.copyOf(all);
  }

  private List<String> markers(Person person) {
    return person.mentions().isEmpty()
        ? person.fromForm().flatMap(Opinion::marker).flatMap(markers::marker).stream()
            .map(Marker::number)
            .toList()
        : person.mentions().stream().map(m -> m.source().marker().number()).distinct().toList();
  }

  private static void add(
      List<LeftOut> all, UUID id, String called, List<String> markers, Set<Why> why) {
    List<Why> ofPhotographs = why.stream().filter(reason -> !isOfAll(reason)).toList();
    add(all, Sort.PHOTOGRAPHS, id, "photographs of " + called, markers, ofPhotographs);
  }

  private static void add(
      List<LeftOut> all, Sort sort, UUID id, String called, List<String> markers, List<Why> why) {
    if (!why.isEmpty()) {
      all.add(new LeftOut(sort, id, called, markers, why));
    }
  }
}
