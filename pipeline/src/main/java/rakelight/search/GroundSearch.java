package rakelight.search;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.ground.MarkerPosition;
import rakelight.ground.PositionStore;
import rakelight.index.Entry;
import rakelight.index.Hit;
import rakelight.index.HitList;
import rakelight.index.IndexException;
import rakelight.index.IndexWriting;
import rakelight.index.QueryException;
import rakelight.index.SearchIndex;
import rakelight.index.Widening;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

/**
 * The index of an archive: brought up to date by following the journal, and searched. Only
 * confirmed readings and what people noted are in it.
 *
 * <p>Whoever searches more than once keeps one and closes it at the end: it holds the index open,
 * and looks for what is new before each search. Safe for many threads.
 */
public final class GroundSearch implements AutoCloseable {
  private static final String FOLDER = "index";
  private static final Pattern ASKED_BY_NUMBER = Pattern.compile("(^|\\s)marker:(\"[^\"]*\"|\\S+)");

  /** Who stands so near is near: some graves, and the error of a telephone. A choice. */
  private static final double NEAR_METRES = 15;

  /**
   * The marker that a name is on must be so likely, and those named that might be are so likely.
   */
  private static final double ONLY_ONE = 0.5;

  private static final double LEAST_NAMED = 0.05;
  private static final int NAMED_AT_MOST = 8;

  /** So many unread markers that could answer are told, if they are so likely. Choices. */
  private static final int FEW = 5;

  private static final double LEAST_TOLD = 0.01;

  private final Archive archive;
  private final PhotoStore photographs;
  private final ReadingStore readings;
  private final MarkerStore markers;
  private final LinkStore links;
  private final PositionStore places;
  private final Path folder;
  private Optional<SearchIndex> held = Optional.empty();

  /**
   * What bringing the index up to date did.
   *
   * @param changed markers put in anew or taken out
   * @param entries markers in the index now
   */
  public record Updated(int changed, int entries) {}

  /**
   * A face of a hit.
   *
   * @param reading the reading as it stands; empty if it was undone since the index was made
   * @param originals the photographs of the face, as they lie in the archive
   */
  public record AnsweringFace(
      FaceId id,
      String name,
      Optional<Reading> reading,
      List<Photograph> photographs,
      List<Path> originals) {
    public AnsweringFace {
      photographs = List.copyOf(photographs);
      originals = List.copyOf(originals);
    }
  }

  /**
   * A hit with what the archive has of it.
   *
   * @param faces those on which words answered come first
   */
  public record Answer(Hit hit, List<AnsweringFace> faces) {
    public Answer {
      faces = List.copyOf(faces);
    }
  }

  /**
   * What a search found.
   *
   * @param found the hits as the index has them
   * @param answers the same hits
   */
  public record Answers(HitList found, List<Answer> answers) {
    public Answers {
      answers = List.copyOf(answers);
    }
  }

  /**
   * A marker with an unread face that could still answer.
   *
   * @param id of the marker
   * @param probability that it is the one asked for, of all that are proposed and not read
   */
  public record Unread(String id, String number, double probability) {}

  public GroundSearch(Archive archive) {
    this.archive = archive;
    this.photographs = new PhotoStore(archive);
    this.readings = new ReadingStore(archive);
    this.markers = new MarkerStore(archive);
    this.links = new LinkStore(archive);
    this.places = new PositionStore(archive);
    Path own = archive.root().resolve(FOLDER);
    this.folder =
        archive.isOnlyLookedAt() && !isUpToDate(own)
            ? archive.workingFolder().resolve(FOLDER)
            : own;
  }

  /**
   * Brings the index up to date with the journal.
   *
   * @param anew whether to make it from the beginning even if it is sound
   * @return empty while another process does so
   * @throws ArchiveException if it can't be written
   */
  public Optional<Updated> update(boolean anew) {
    try (IndexWriting writing = IndexWriting.open(folder, anew).orElse(null)) {
      if (writing == null) {
        return Optional.empty();
      }
      int changed =
          archive
              .ledger()
              .read(
                  handle -> {
                    long last = archive.journal().lastCounter();
                    int entries = follow(writing, archive.journal().since(writing.counter()));
                    writing.commit(last);
                    return entries;
                  });
      return Optional.of(new Updated(changed, writing.size()));
    } catch (IndexException e) {
      throw new ArchiveException(String.valueOf(e.getMessage()), e);
    }
  }

  /** Makes the index anew where there is one, so that no trace is left of what went out of it. */
  public void makeAnewIfThere() {
    if (Files.isDirectory(folder)) {
      update(true);
    }
  }

  /** Whether the index has followed the whole journal. */
  public boolean isUpToDate() {
    try {
      return index().counter() == archive.journal().lastCounter();
    } catch (IndexException e) {
      return false;
    }
  }

  private boolean isUpToDate(Path own) {
    try (SearchIndex index = SearchIndex.open(own)) {
      return index.counter() == archive.journal().lastCounter();
    } catch (IndexException e) {
      return false;
    }
  }

  /** The index as it stands, opened once. */
  private synchronized SearchIndex index() {
    if (held.isEmpty()) {
      held = Optional.of(SearchIndex.open(folder));
    } else {
      held.get().refresh();
    }
    return held.get();
  }

  /**
   * The markers that answer a query, the likeliest first, with every widening.
   *
   * @param limit so many at most, 1 or more
   * @throws QueryException if the query can't be understood
   * @throws ArchiveException if there is no index, or it is damaged
   */
  public Answers search(String query, int limit) throws QueryException {
    return search(query, limit, SearchIndex.EVERY_WIDENING);
  }

  /**
   * The markers that answer a query, the likeliest first.
   *
   * @param limit so many at most, 1 or more
   * @throws QueryException if the query can't be understood
   * @throws ArchiveException if there is no index, or it is damaged
   */
  public Answers search(String query, int limit, Set<Widening> widenings) throws QueryException {
    HitList found = find(query, limit, widenings);
    return new Answers(found, found.hits().stream().map(this::answer).toList());
  }

  /**
   * The same without what the archive has of the hits: for whoever shows only some of them.
   *
   * @param limit so many at most, 1 or more
   * @throws QueryException if the query can't be understood
   * @throws ArchiveException if there is no index, or it is damaged
   */
  public HitList find(String query, int limit, Set<Widening> widenings) throws QueryException {
    try {
      return index().search(withNumbersNow(query), limit, widenings, this::near);
    } catch (IndexException e) {
      throw new ArchiveException(String.valueOf(e.getMessage()), e);
    }
  }

  /**
   * The markers on whose unread faces a machine has proposed what answers, the likeliest first: a
   * class of its own, which nobody confirmed and no other search finds. Faces that two read blind
   * are left out until both have signed. The index of it is made for this search and removed, so it
   * takes time for each unread face.
   *
   * @param limit so many at most, 1 or more
   * @throws QueryException if the query can't be understood
   * @throws ArchiveException if the folder for what is made on the way can't be written
   */
  public HitList findProposed(String query, int limit, Set<Widening> widenings)
      throws QueryException {
    try (Proposed proposed = proposed()) {
      return findProposed(proposed, query, limit, widenings);
    }
  }

  /** What machines propose for faces that nobody has read, as it is now. */
  public Proposed proposed() {
    return Proposed.of(archive);
  }

  /**
   * As {@link #findProposed(String, int, Set)}, among proposals that were looked up before.
   *
   * @throws QueryException if the query can't be understood
   */
  public HitList findProposed(Proposed proposed, String query, int limit, Set<Widening> widenings)
      throws QueryException {
    return proposed.find(withNumbersNow(query), limit, widenings, this::near);
  }

  /**
   * The few unread markers that could still answer, the likeliest first, by what machines propose.
   */
  public List<Unread> couldAnswer(Proposed proposed, String query, Set<Widening> widenings)
      throws QueryException {
    return findProposed(proposed, query, FEW, widenings).hits().stream()
        .filter(hit -> hit.probability() >= LEAST_TOLD)
        .map(hit -> new Unread(hit.entry().id(), hit.entry().marker(), hit.probability()))
        .toList();
  }

  /** Asks for markers by the numbers they have now, however and whenever they were written. */
  private String withNumbersNow(String query) {
    return ASKED_BY_NUMBER
        .matcher(query)
        .replaceAll(
            asked ->
                Matcher.quoteReplacement(
                    markers
                        .byNumber(asked.group(2).replace("\"", ""))
                        .map(marker -> asked.group(1) + "marker:\"" + marker.number() + "\"")
                        .orElse(asked.group())));
  }

  private Set<String> near(String number) throws QueryException {
    Optional<Marker> marker = markers.byNumber(number);
    Map<MarkerId, MarkerPosition> positions = places.best();
    if (marker.isEmpty()) {
      marker = Optional.of(bearing(number));
    }
    MarkerPosition here = positions.get(marker.get().id());
    if (here == null) {
      throw new QueryException(
          "near:"
              + number
              + " can't be answered: neither a photograph nor a `position` says where the marker"
              + " stands");
    }
    return positions.values().stream()
        .filter(each -> each.metresTo(here) <= NEAR_METRES)
        .map(each -> each.marker().toString())
        .collect(Collectors.toSet());
  }

  /** The one marker that likely bears a name. */
  private Marker bearing(String name) throws QueryException {
    HitList found =
        index()
            .search(
                "name:\"" + name.replaceAll("[\"“”„]", " ") + "\"",
                NAMED_AT_MOST,
                SearchIndex.EVERY_WIDENING,
                nowhere -> Set.of());
    List<Hit> likely =
        found.hits().stream().filter(hit -> hit.probability() >= LEAST_NAMED).toList();
    Optional<Marker> only =
        likely.stream()
            .filter(hit -> hit.probability() > ONLY_ONE)
            .findFirst()
            .flatMap(hit -> markers.marker(MarkerId.of(hit.entry().id())));
    if (only.isEmpty()) {
      String which =
          likely.stream().map(hit -> hit.entry().marker()).collect(Collectors.joining(", "));
      throw new QueryException(
          "near:"
              + name
              + " names no marker of this ground"
              + (which.isEmpty() ? "" : "; the name is on " + which + ": give one of the numbers"));
    }
    return only.get();
  }

  /** A hit with what the archive has of it. */
  public Answer answer(Hit hit) {
    Set<String> answering =
        hit.letters().stream()
            .filter(letters -> letters.word() >= 0)
            .map(letters -> hit.entry().faceOf(letters.word()).id())
            .collect(Collectors.toSet());
    List<AnsweringFace> faces = new ArrayList<>();
    for (boolean first : new boolean[] {true, false}) {
      for (Entry.Face face : hit.entry().faces()) {
        if (answering.contains(face.id()) == first) {
          faces.add(face(face));
        }
      }
    }
    return new Answer(hit, faces);
  }

  private AnsweringFace face(Entry.Face face) {
    FaceId id = FaceId.of(face.id());
    List<Photograph> ofFace = photographs.ofFace(id);
    List<Path> originals =
        ofFace.stream()
            .map(
                photograph ->
                    archive.originals().path(photograph.sha256(), photograph.format().extension()))
            .toList();
    return new AnsweringFace(id, face.name(), readings.current(id), ofFace, originals);
  }

  private int follow(IndexWriting writing, List<Decision> decisions) {
    Set<UUID> touched = new LinkedHashSet<>();
    boolean all = writing.counter() == 0 && !decisions.isEmpty();
    for (Decision decision : decisions) {
      all |= touch(decision, touched);
    }
    Set<MarkerId> changed = new LinkedHashSet<>();
    if (all) {
      // What all readings assert is kept in one go; one by one would be a write for each.
      new Evidence(archive).confirmed();
      markers.markers().forEach(marker -> changed.add(marker.id()));
    }
    Map<UUID, MarkerId> ofQuestions = new HashMap<>();
    for (Question question : new QuestionStore(archive).questions()) {
      question.marker().ifPresent(marker -> ofQuestions.put(question.id().value(), marker));
    }
    for (UUID subject : touched) {
      MarkerId marker =
          photographs
              .face(new FaceId(subject))
              .map(Face::marker)
              .orElse(ofQuestions.getOrDefault(subject, new MarkerId(subject)));
      changed.add(marker);
    }
    Entries entries = new Entries(archive);
    int put = 0;
    for (MarkerId id : changed) {
      Optional<Entry> entry = markers.marker(id).flatMap(entries::of);
      if (entry.isPresent()) {
        writing.put(entry.get());
        put++;
      } else {
        writing.remove(id.toString());
      }
    }
    return put;
  }

  /**
   * Notes whose entries a decision may change: its subject's, those of markers that are linked with
   * it, which give its number, and the marker of a question.
   *
   * @return whether it may change every entry
   */
  private boolean touch(Decision decision, Set<UUID> touched) {
    touched.add(decision.subject());
    LinkStore.linked(decision).forEach(marker -> touched.add(marker.value()));
    MarkerStore.mergesInto(decision).ifPresent(marker -> touched.add(marker.value()));
    if (decision.kind().startsWith("marker.")) {
      for (Link link : links.ofMarker(new MarkerId(decision.subject()))) {
        touched.add(link.from().value());
        link.toMarker().ifPresent(marker -> touched.add(marker.value()));
      }
    }
    boolean undo = decision.kind().equals(Decision.UNDONE);
    return decision.kind().startsWith("ground.")
        || decision.kind().startsWith("plot.")
        || (undo
            && archive
                .journal()
                .find(DecisionId.of(decision.payload().path("undoes").asText()))
                .filter(target -> touch(target, touched))
                .isPresent());
  }

  @Override
  public synchronized void close() {
    held.ifPresent(SearchIndex::close);
    held = Optional.empty();
  }
}
