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
import rakelight.index.Entry;
import rakelight.index.Entry.YearSpan;
import rakelight.index.Word;
import rakelight.inscription.Leiden;
import rakelight.marker.Description;
import rakelight.marker.Marker;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Statement;
import rakelight.person.edtf.Edtf;
import rakelight.survey.DatingClue;
import rakelight.survey.Making;

/**
 * Makes the entry of a marker from what its faces say and what is noted of it, wherever that comes
 * from: the archive, or an edition of it.
 */
public final class EntryMaking {
  private static final int MOST_INITIALS = 5;

  /** What is reckoned of the marker itself, in the index and in its facts. */
  static final String MADE = "made";

  private static final Pattern PLOT = Pattern.compile("(\\p{L}+)[ \\-./]?[0-9].*");
  private static final Making MAKING = new Making(DatingClue.of(List.of()), List.of());

  private EntryMaking() {}

  /**
   * The entry of a marker.
   *
   * @param read its faces: confirmed all, or proposed all
   * @param said what it is
   * @param noted what else is known of it, by field of the index
   */
  public static Entry of(
      Marker marker, List<FaceStatements> read, Description said, Map<String, List<String>> noted) {
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
    Matcher plot = PLOT.matcher(marker.number());
    if (plot.matches()) {
      add(facts, "plot", plot.group(1));
    }
    noted.forEach((field, texts) -> texts.forEach(text -> add(facts, field, text)));
    described(said, facts);
    made(said, facts.getOrDefault("emblem", List.of()), deaths(read))
        .ifPresent(
            span -> {
              years.add(span);
              add(facts, MADE, span.shown());
            });
    return new Entry(
        marker.id().toString(), marker.number(), faces, words, names, years, ages, initials, facts);
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
  private static Optional<YearSpan> made(
      Description said, List<String> emblems, List<Integer> deaths) {
    if (said.equals(Description.NONE) && emblems.isEmpty()) {
      return Optional.empty();
    }
    return MAKING
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

  static void add(Map<String, List<String>> facts, String field, String text) {
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
}
