package rakelight.search;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.ground.MarkerPosition;
import rakelight.ground.Plot;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.index.Entry;
import rakelight.index.Entry.YearSpan;
import rakelight.index.Word;
import rakelight.inscription.Leiden;
import rakelight.marker.ConditionStore;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.person.Statement;
import rakelight.person.edtf.Edtf;
import rakelight.survey.DatingClue;
import rakelight.survey.Making;

/**
 * Makes entries for the index, one for each marker with a confirmed reading: all its faces, what
 * they assert, its links, questions and condition.
 */
final class Entries {
  private static final int MOST_INITIALS = 5;

  /** What is reckoned of the marker itself, in the index and in its facts. */
  static final String MADE = "made";

  private static final Pattern PLOT = Pattern.compile("(\\p{L}+)[ \\-./]?[0-9].*");

  private final MarkerStore markers;
  private final LinkStore links;
  private final Evidence evidence;
  private final ConditionStore conditions;
  private final DescriptionStore descriptions;
  private final EmblemStore emblems;
  private final QuestionStore questions;
  private final Archive archive;
  private Optional<Places> places = Optional.empty();
  private final Making making = new Making(DatingClue.of(List.of()), List.of());

  /** Where markers stand: looked up once, and only if it is needed. */
  private record Places(
      Map<MarkerId, RowPlace> rows, List<Plot> plots, Map<MarkerId, MarkerPosition> positions) {
    static Places of(Archive archive) {
      PositionStore store = new PositionStore(archive);
      List<Plot> plots = store.plots();
      return new Places(store.rowPlaces(), plots, plots.isEmpty() ? Map.of() : store.best());
    }
  }

  Entries(Archive archive) {
    this.markers = new MarkerStore(archive);
    this.links = new LinkStore(archive);
    this.evidence = new Evidence(archive);
    this.conditions = new ConditionStore(archive);
    this.descriptions = new DescriptionStore(archive);
    this.emblems = new EmblemStore(archive);
    this.questions = new QuestionStore(archive);
    this.archive = archive;
  }

  /** The entry of a marker; empty while none of its faces has a confirmed reading. */
  Optional<Entry> of(Marker marker) {
    List<FaceStatements> read = evidence.confirmed(marker);
    return read.isEmpty() ? Optional.empty() : Optional.of(of(marker, read));
  }

  /**
   * The entry of a marker by what some of its faces say.
   *
   * @param read confirmed all, or proposed all
   */
  Entry of(Marker marker, List<FaceStatements> read) {
    List<Entry.Face> faces = new ArrayList<>();
    List<Word> words = new ArrayList<>();
    List<Entry.Name> names = new ArrayList<>();
    List<YearSpan> years = new ArrayList<>();
    List<Entry.AgeSpan> ages = new ArrayList<>();
    List<String> initials = new ArrayList<>();
    Map<String, List<String>> facts = new LinkedHashMap<>();
    for (FaceStatements face : read) {
      Words own = Words.of(face.inscription());
      Told told = new Told(face.inscription(), own, face.statements());
      faces.add(
          new Entry.Face(
              face.face().id().toString(),
              face.face().name(),
              Leiden.print(face.inscription()),
              own.words().size()));
      names.addAll(told.names(words.size()));
      years.addAll(told.years(CarvedYears.of(own.words())));
      ages.addAll(told.ages());
      told.facts().forEach((field, texts) -> texts.forEach(text -> add(facts, field, text)));
      initials.addAll(initials(own.words()));
      words.addAll(own.words());
    }
    links(marker.id()).forEach(text -> add(facts, "link", text));
    conditions
        .newest(marker.id())
        .ifPresent(
            note -> {
              add(facts, "condition", note.told());
              add(facts, "unsafe", note.unsafe());
            });
    Description said =
        descriptions.of(marker.id()).map(Described::description).orElse(Description.NONE);
    described(said, facts);
    emblems.ofMarker(marker.id()).forEach(note -> add(facts, "emblem", note.name()));
    made(said, facts.getOrDefault("emblem", List.of()), deaths(read))
        .ifPresent(
            span -> {
              years.add(span);
              add(facts, MADE, span.shown());
            });
    for (Question question : questions.questions()) {
      if (question.marker().filter(marker.id()::equals).isPresent()) {
        add(facts, "question", question.text());
      }
    }
    Matcher plot = PLOT.matcher(marker.number());
    if (plot.matches()) {
      add(facts, "plot", plot.group(1));
    }
    placed(marker.id(), facts);
    return new Entry(
        marker.id().toString(), marker.number(), faces, words, names, years, ages, initials, facts);
  }

  /** The row it stands in, and the plots in whose boundary it stands. */
  private void placed(MarkerId marker, Map<String, List<String>> facts) {
    if (places.isEmpty()) {
      places = Optional.of(Places.of(archive));
    }
    Places known = places.get();
    Optional.ofNullable(known.rows().get(marker)).ifPresent(at -> add(facts, "row", at.row()));
    Optional.ofNullable(known.positions().get(marker))
        .ifPresent(
            at ->
                known.plots().stream()
                    .filter(plot -> plot.holds(at.latitudeDegrees(), at.longitudeDegrees()))
                    .forEach(plot -> add(facts, "plot", plot.name())));
  }

  private static List<Integer> deaths(List<FaceStatements> read) {
    return read.stream()
        .flatMap(face -> face.statements().stream())
        .filter(one -> one.kind() == Statement.Kind.DEATH && !one.value().isEmpty())
        .flatMap(one -> Edtf.parse(one.value()).latest().stream())
        .map(day -> Math.toIntExact(day.year()))
        .toList();
  }

  /** When it was made, by what it is and by its own dates; empty where nothing is said of it. */
  private Optional<YearSpan> made(Description said, List<String> emblems, List<Integer> deaths) {
    if (said.equals(Description.NONE) && emblems.isEmpty()) {
      return Optional.empty();
    }
    return making
        .of(new Making.Known(said, emblems, deaths, OptionalInt.empty()))
        .map(
            made ->
                new YearSpan(
                    made.from(),
                    made.to(),
                    Making.SHARE,
                    MADE,
                    made.from() == made.to()
                        ? Integer.toString(made.from())
                        : made.from() + " to " + made.to()));
  }

  private static void described(Description said, Map<String, List<String>> facts) {
    said.kind().ifPresent(word -> add(facts, "form", word));
    said.form().ifPresent(word -> add(facts, "form", word));
    said.material().ifPresent(word -> add(facts, "material", word));
    said.maker().ifPresent(word -> add(facts, "maker", word));
  }

  private static void add(Map<String, List<String>> facts, String field, String text) {
    List<String> texts = facts.computeIfAbsent(field, key -> new ArrayList<>());
    if (!text.isBlank() && !texts.contains(text)) {
      texts.add(text);
    }
  }

  /** The initials of a face that bears nothing else but years. */
  private static List<String> initials(List<Word> words) {
    StringBuilder initials = new StringBuilder();
    for (Word word : words) {
      Optional<String> letter = likeliest(word).filter(text -> text.matches("\\p{L}"));
      if (letter.isPresent()) {
        initials.append(letter.get());
      } else if (CarvedYears.of(List.of(word)).stream().noneMatch(CarvedYears::isYear)) {
        return List.of();
      }
    }
    int letters = initials.codePointCount(0, initials.length());
    return letters >= 2 && letters <= MOST_INITIALS ? List.of(initials.toString()) : List.of();
  }

  private static Optional<String> likeliest(Word word) {
    return word.readings().entrySet().stream()
        .min(
            Map.Entry.<String, Double>comparingByValue(Comparator.reverseOrder())
                .thenComparing(Map.Entry.comparingByKey()))
        .map(Map.Entry::getKey);
  }

  private List<String> links(MarkerId marker) {
    List<String> texts = new ArrayList<>();
    for (Link link : links.ofMarker(marker)) {
      boolean leadsFrom = link.from().equals(marker);
      if (leadsFrom) {
        texts.add(
            link.kind().label()
                + " "
                + link.toMarker().map(markers::numberOf).or(link::toWords).orElse(""));
      } else {
        texts.add(
            "has as "
                + link.kind().label().replace(" of", "")
                + " "
                + markers.numberOf(link.from()));
      }
    }
    return texts;
  }
}
