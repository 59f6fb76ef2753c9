package rakelight.search;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.index.Entry;
import rakelight.index.Entry.YearSpan;
import rakelight.index.Word;
import rakelight.inscription.Leiden;
import rakelight.marker.ConditionNote;
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

/**
 * Makes entries for the index, one for each marker with a confirmed reading: all its faces, what
 * they assert, its links, questions and condition.
 */
final class Entries {
  private static final int MOST_INITIALS = 5;
  private static final Pattern PLOT = Pattern.compile("(\\p{L}+)[ \\-./]?[0-9].*");

  private final MarkerStore markers;
  private final LinkStore links;
  private final Evidence evidence;
  private final ConditionStore conditions;
  private final DescriptionStore descriptions;
  private final EmblemStore emblems;
  private final QuestionStore questions;

  Entries(Archive archive) {
    this.markers = new MarkerStore(archive);
    this.links = new LinkStore(archive);
    this.evidence = new Evidence(archive);
    this.conditions = new ConditionStore(archive);
    this.descriptions = new DescriptionStore(archive);
    this.emblems = new EmblemStore(archive);
    this.questions = new QuestionStore(archive);
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
        .map(ConditionNote::told)
        .ifPresent(text -> add(facts, "condition", text));
    descriptions
        .of(marker.id())
        .map(Described::description)
        .ifPresent(said -> described(said, facts));
    emblems.ofMarker(marker.id()).forEach(note -> add(facts, "emblem", note.name()));
    for (Question question : questions.questions()) {
      if (question.marker().filter(marker.id()::equals).isPresent()) {
        add(facts, "question", question.text());
      }
    }
    Matcher plot = PLOT.matcher(marker.number());
    if (plot.matches()) {
      add(facts, "plot", plot.group(1));
    }
    return new Entry(
        marker.id().toString(), marker.number(), faces, words, names, years, ages, initials, facts);
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
