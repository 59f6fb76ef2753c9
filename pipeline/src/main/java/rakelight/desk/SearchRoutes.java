package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import rakelight.archive.Archive;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.index.Entry;
import rakelight.index.Hit;
import rakelight.index.HitList;
import rakelight.index.QueryException;
import rakelight.index.Widening;
import rakelight.index.Word;
import rakelight.inscription.SignId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Mention;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.search.Citation;
import rakelight.search.Facets;
import rakelight.search.GroundSearch;
import rakelight.search.MatchedLines;
import rakelight.search.SearchJson;

/** Search: its page, and the same for programs. */
final class SearchRoutes {
  /** As many hits are counted by decade, surname and plot; a choice. */
  private static final int MOST_HITS = 500;

  private static final int HITS_ON_PAGE = 20;
  private static final int MOST_ON_PAGE = 100;
  private static final int CHOICES_OF_FACET = 12;
  private static final int LINES_WITHOUT_MATCH = 3;

  /** How large the pictures are on which letters are drawn. */
  private static final int LONGEST_PICTURE_PX = 800;

  private static final List<String> FACETS =
      List.of("decade", "surname", "plot", "unit", "trade", "form", "material");

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Searching searching;
  private final MarkerPages markerPages;
  private final Drawings drawings;
  private final MarkerStore markers;
  private final QuestionStore questions;
  private final Clock clock;

  SearchRoutes(
      Archive archive,
      Requests requests,
      Pages pages,
      Searching searching,
      MarkerPages markerPages,
      Drawings drawings,
      Clock clock) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.searching = searching;
    this.markerPages = markerPages;
    this.drawings = drawings;
    this.markers = new MarkerStore(archive);
    this.questions = new QuestionStore(archive);
    this.clock = clock;
  }

  void addTo(Javalin server) {
    server.get("/search", this::page);
    server.get("/search.json", this::json);
    server.get("/search.csv", this::table);
  }

  /** The page of a search; without one, where to begin. */
  void page(Context context) {
    requests.by(context);
    String asked = Requests.asked(context, "q");
    try {
      if (asked.isEmpty()) {
        String made = SearchForm.query(field -> Requests.asked(context, field));
        if (!made.isEmpty()) {
          context.redirect(
              address(Map.of("q", made, "without", String.join(",", without(context)))));
          return;
        }
        searching.follow();
        show(context, nothing("", "", false, Map.of(), Set.of()));
        return;
      }
      boolean behind = !searching.followed();
      // Before it was made for the first time there is no index to be asked.
      show(
          context,
          behind && !searching.isThere()
              ? nothing(asked, "", true, Map.of(), Set.of())
              : found(context, asked, behind));
    } catch (QueryException e) {
      Map<String, String> form = new TreeMap<>();
      SearchForm.FIELDS.forEach(field -> form.put(field, Requests.asked(context, field)));
      form.values().removeIf(String::isEmpty);
      show(
          context,
          nothing(
              asked,
              "The query can’t be understood: " + e.getMessage(),
              false,
              form,
              Set.copyOf(without(context))));
    }
  }

  private void show(Context context, SearchPage search) {
    pages.show(context, "search", Map.of("search", search));
  }

  private SearchPage nothing(
      String asked, String refused, boolean behind, Map<String, String> form, Set<String> without) {
    return new SearchPage(
        asked,
        refused,
        behind,
        Paged.of(List.of(), 1, HITS_ON_PAGE, "/search", Map.of()),
        0,
        "",
        List.of(),
        Map.of(),
        List.of(),
        List.of(),
        List.of(),
        Arrays.stream(Widening.values())
            .filter(each -> without.contains(each.name().toLowerCase(Locale.ROOT)))
            .toList(),
        searching.coverage(),
        List.of(),
        form,
        "");
  }

  /** A hit that the desk still has, under the number it has now. */
  private record Here(Hit hit, Marker marker) {}

  /**
   * What a search found, narrowed as the address asks.
   *
   * @param query what the address says, by field
   * @param hits that aren't faint, and aren't narrowed away
   * @param by what they are narrowed
   */
  private record Found(
      HitList found,
      Map<String, String> query,
      Set<Widening> widenings,
      List<Here> hits,
      List<SearchPage.Named> faint,
      List<SearchPage.Choice> by) {}

  private Found find(Context context, String asked) throws QueryException {
    List<String> without = without(context);
    Set<Widening> widenings = Widening.allBut(without);
    HitList found = searching.search().find(asked, MOST_HITS, widenings);
    List<Here> hits = new ArrayList<>();
    List<SearchPage.Named> faint = new ArrayList<>();
    for (Hit hit : found.hits()) {
      Optional<Marker> marker = markers.marker(MarkerId.of(hit.entry().id()));
      if (marker.isPresent() && found.isFaint(hit)) {
        faint.add(new SearchPage.Named(marker.get().number(), "/markers/" + marker.get().id()));
      } else if (marker.isPresent()) {
        hits.add(new Here(hit, marker.get()));
      }
    }
    Map<String, String> query = new TreeMap<>();
    query.put("q", asked);
    query.put("without", String.join(",", without));
    query.put("limit", Requests.asked(context, "limit"));
    FACETS.forEach(facet -> query.put(facet, Requests.asked(context, facet)));
    List<SearchPage.Choice> by = new ArrayList<>();
    for (String facet : FACETS) {
      String value = query.getOrDefault(facet, "");
      if (!value.isEmpty()) {
        hits.removeIf(here -> !values(facet, here.hit().entry()).contains(value));
        by.add(new SearchPage.Choice(words(facet, value), 0, with(query, facet, "")));
      }
    }
    return new Found(found, query, widenings, hits, faint, by);
  }

  private SearchPage found(Context context, String asked, boolean behind) throws QueryException {
    int limit = limit(context, HITS_ON_PAGE, MOST_ON_PAGE);
    Found found = find(context, asked);
    LocalDate today = today();
    Paged<SearchPage.Shown> hits =
        Paged.of(
                found.hits(),
                Paged.page(Optional.ofNullable(context.queryParam("page"))),
                limit,
                "/search",
                found.query())
            .map(here -> shown(here, today));
    return new SearchPage(
        asked,
        "",
        behind,
        hits,
        found.found().answering(),
        percent(found.found().elsewhere()),
        found.faint(),
        found.found().widened(),
        facets(found.hits(), found.query()),
        found.by(),
        questions.matching(asked).stream()
            .map(one -> new SearchPage.Named(line(one), QuestionRoutes.address(one)))
            .toList(),
        Arrays.stream(Widening.values()).filter(each -> !found.widenings().contains(each)).toList(),
        searching.coverage(),
        could(context, asked, found.widenings()),
        Map.of(),
        found.hits().isEmpty() ? "" : Addresses.of("/search.csv", found.query()));
  }

  /** Guests aren't shown what only a machine says. */
  private Optional<List<GroundSearch.Unread>> couldAnswer(
      Context context, String asked, Set<Widening> widenings) throws QueryException {
    return requests.by(context).role().mayDecide()
        ? searching.couldAnswer(asked, widenings)
        : Optional.empty();
  }

  private List<SearchPage.Named> could(Context context, String asked, Set<Widening> widenings)
      throws QueryException {
    return couldAnswer(context, asked, widenings).orElse(List.of()).stream()
        .map(
            one ->
                new SearchPage.Named(
                    "marker " + one.number() + ", " + percent(one.probability()),
                    "/markers/" + one.id()))
        .toList();
  }

  private LocalDate today() {
    return LocalDate.now(clock.withZone(archive.ground().zone()));
  }

  /** The hits as a table, for a spreadsheet. */
  private void table(Context context) {
    requests.by(context);
    try {
      searching.followed();
      LocalDate today = today();
      StringBuilder table = new StringBuilder();
      CSVFormat format = CSVFormat.RFC4180;
      try (CSVPrinter rows = new CSVPrinter(table, format)) {
        rows.printRecord(
            "marker", "probability", "named", "known", "why", "lines", "citation", "address");
        for (Here here : find(context, Requests.asked(context, "q")).hits()) {
          row(here, today, rows);
        }
      }
      context
          .header("Content-Disposition", "attachment; filename=\"search.csv\"")
          .contentType("text/csv; charset=utf-8")
          .result(table.toString());
    } catch (QueryException e) {
      throw Refusal.malformed("The query can't be understood: " + e.getMessage());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void row(Here here, LocalDate today, CSVPrinter rows) throws IOException {
    GroundSearch.Answer answer = searching.search().answer(here.hit());
    Entry entry = here.hit().entry();
    List<String> lines = new ArrayList<>();
    List<String> citations = new ArrayList<>();
    for (GroundSearch.AnsweringFace face : answer.faces()) {
      lines.addAll(SearchJson.lines(face, entry));
      citations.add(
          Citation.of(archive.ground(), here.marker().number(), face, Optional.of(today)));
    }
    rows.printRecord(
        here.marker().number(),
        String.format(Locale.ROOT, "%.3f", here.hit().probability()),
        who(entry),
        String.join("; ", facts(entry)),
        String.join("; ", here.hit().why()),
        String.join(" | ", lines),
        String.join(" ", citations),
        "/markers/" + here.marker().id());
  }

  private static String line(Question question) {
    return question.label() + (question.isOpen() ? ": " : ", answered: ") + question.text();
  }

  private static Set<String> values(String facet, Entry entry) {
    return switch (facet) {
      case "decade" ->
          Facets.decades(entry).stream().map(String::valueOf).collect(Collectors.toSet());
      case "surname" -> Facets.surnames(entry);
      default -> Set.copyOf(entry.fact(facet));
    };
  }

  private static String words(String facet, String value) {
    return switch (facet) {
      case "decade" -> value + "s";
      case "plot" -> "plot " + value;
      default -> value;
    };
  }

  /** What the hits can be told apart by, most hits first; decades in their order. */
  private static List<SearchPage.Facet> facets(List<Here> hits, Map<String, String> query) {
    List<SearchPage.Facet> facets = new ArrayList<>();
    for (String facet : FACETS) {
      Map<String, Integer> counts = new TreeMap<>();
      hits.forEach(
          here ->
              values(facet, here.hit().entry())
                  .forEach(value -> counts.merge(value, 1, Integer::sum)));
      counts.values().removeIf(count -> count == hits.size());
      if (query.getOrDefault(facet, "").isEmpty() && !counts.isEmpty()) {
        Comparator<Map.Entry<String, Integer>> order =
            Map.Entry.<String, Integer>comparingByValue().reversed();
        List<SearchPage.Choice> choices =
            counts.entrySet().stream()
                .sorted(facet.equals("decade") ? Map.Entry.comparingByKey() : order)
                .limit(facet.equals("decade") ? MOST_HITS : CHOICES_OF_FACET)
                .map(
                    one ->
                        new SearchPage.Choice(
                            words(facet, one.getKey()),
                            one.getValue(),
                            with(query, facet, one.getKey())))
                .toList();
        String label = facet.substring(0, 1).toUpperCase(Locale.ROOT) + facet.substring(1);
        facets.add(new SearchPage.Facet(label, choices));
      }
    }
    return facets;
  }

  private static String with(Map<String, String> query, String field, String value) {
    Map<String, String> other = new TreeMap<>(query);
    other.put(field, value);
    return address(other);
  }

  /** The address of a search. */
  static String address(Map<String, String> query) {
    return Addresses.of("/search", query);
  }

  private SearchPage.Shown shown(Here here, LocalDate today) {
    GroundSearch.Answer answer = searching.search().answer(here.hit());
    Entry entry = here.hit().entry();
    List<SearchPage.ShownLines> faces = new ArrayList<>();
    boolean any =
        answer.faces().stream()
            .anyMatch(
                face ->
                    MatchedLines.of(here.hit(), face).stream()
                        .anyMatch(MatchedLines.Line::matched));
    for (GroundSearch.AnsweringFace face : answer.faces()) {
      List<MatchedLines.Line> lines = MatchedLines.of(here.hit(), face);
      List<MatchedLines.Line> told =
          any
              ? lines.stream().filter(MatchedLines.Line::matched).toList()
              : lines.subList(0, Math.min(LINES_WITHOUT_MATCH, lines.size()));
      faces.add(
          new SearchPage.ShownLines(
              face.name(),
              told,
              told.size() == lines.size(),
              drawings(here.hit(), face),
              Citation.of(archive.ground(), here.marker().number(), face, Optional.of(today))));
    }
    return new SearchPage.Shown(
        here.marker().id().toString(),
        here.marker().number(),
        who(entry),
        facts(entry),
        percent(here.hit().probability()),
        likely(here.hit().probability()),
        here.hit().why(),
        faces,
        answer.faces().stream()
            .flatMap(face -> face.photographs().stream())
            .findFirst()
            .map(photograph -> "/images/photographs/" + photograph.id() + "?longest=240")
            .orElse(""));
  }

  /** The letters of a face that answered, on its photographs. */
  private List<Drawing> drawings(Hit hit, GroundSearch.AnsweringFace face) {
    Map<SignId, String> marks = new HashMap<>();
    MatchedLines.letters(hit, face)
        .forEach((sign, how) -> marks.put(sign, how.name().toLowerCase(Locale.ROOT)));
    return face.reading()
        .map(reading -> drawings.of(reading, marks, shot -> true, LONGEST_PICTURE_PX))
        .orElse(List.of());
  }

  /** Those named on a marker, as cut; what is lent to a name stands in angle brackets. */
  private static String who(Entry entry) {
    return entry.names().stream()
        .map(
            name -> {
              List<String> words = new ArrayList<>();
              entry
                  .words()
                  .subList(name.first(), name.last() + 1)
                  .forEach(word -> words.add(word.shown()));
              name.lent().stream().map(Word::shown).forEach(lent -> words.add("‹" + lent + "›"));
              return String.join(" ", words);
            })
        .distinct()
        .collect(Collectors.joining("; "));
  }

  private static List<String> facts(Entry entry) {
    Map<String, String> facts = new LinkedHashMap<>();
    for (Entry.YearSpan span : entry.years()) {
      if (!span.event().isEmpty() && span.from() == span.to() && span.weight() >= 1) {
        facts.put(span.event() + " " + span.from(), "");
      }
    }
    entry.ages().stream()
        .map(Entry.AgeSpan::shown)
        .forEach(age -> facts.put(age.matches("[0-9].*") ? "aged " + age : age, ""));
    entry
        .facts()
        .forEach(
            (field, texts) ->
                texts.forEach(
                    text -> facts.put(field.equals("link") ? text : field + ": " + text, "")));
    return List.copyOf(facts.keySet());
  }

  private static String percent(double share) {
    double percent = 100 * share;
    if (percent > 99.5) {
      return "more than 99 %";
    }
    return percent < 0.1
        ? "less than 0.1 %"
        : String.format(Locale.ROOT, percent < 9.95 ? "%.1f %%" : "%.0f %%", percent);
  }

  /** In words; where they begin is a choice. */
  private static String likely(double probability) {
    if (probability >= 0.9) {
      return "very likely";
    }
    if (probability >= 0.5) {
      return "likely";
    }
    return probability >= 0.1 ? "possible" : "not likely";
  }

  private void json(Context context) {
    requests.by(context);
    String asked = Requests.asked(context, "q");
    try {
      int limit = limit(context, 50, MOST_HITS);
      Set<Widening> widenings = Widening.allBut(without(context));
      searching.followed();
      GroundSearch.Answers answers = searching.search().search(asked, limit, widenings);
      Predicate<GroundSearch.Answer> here =
          answer -> markers.marker(MarkerId.of(answer.hit().entry().id())).isPresent();
      LocalDate today = today();
      String lines =
          new SearchJson(
                  archive,
                  Optional.of(today),
                  (photograph, path) -> Map.of("path", "/images/photographs/" + photograph.id()))
                  .of(
                      new GroundSearch.Answers(
                          answers.found(), answers.answers().stream().filter(here).toList()),
                      questions.matching(asked),
                      searching.coverage(),
                      couldAnswer(context, asked, widenings))
                  .stream()
                  .map(object -> Json.text(object) + "\n")
                  .collect(Collectors.joining());
      context.contentType("application/x-ndjson; charset=utf-8").result(lines);
    } catch (QueryException e) {
      throw Refusal.malformed("The query can't be understood: " + e.getMessage());
    }
  }

  /** Somebody's kin, with where to look for him. */
  static FamilyPage.KinLine kin(Mention mention, Mention.Kin kin) {
    String called = kin.name().replace('|', ' ').strip();
    return new FamilyPage.KinLine(
        mention.called(), kin.relation(), called, called.isEmpty() ? "" : byName(called));
  }

  /** The address that looks for somebody by name on the whole ground. */
  static String byName(String called) {
    String words = called.replaceAll("[\"()?]", " ").strip();
    return address(Map.of("q", words.contains(" ") ? "name:\"" + words + "\"" : "name:" + words));
  }

  private static int limit(Context context, int usual, int most) throws QueryException {
    String limit = Requests.asked(context, "limit");
    if (limit.isEmpty()) {
      return usual;
    }
    if (!limit.matches("[0-9]{1,4}") || Integer.parseInt(limit) < 1) {
      throw new QueryException("limit " + limit + ": it takes a number of hits, 1 or more");
    }
    return Math.min(most, Integer.parseInt(limit));
  }

  /** Several fields, or several words in one. */
  private static List<String> without(Context context) {
    return context.queryParams("without").stream()
        .flatMap(words -> List.of(words.split(",", -1)).stream())
        .map(String::strip)
        .filter(word -> !word.isEmpty())
        .distinct()
        .toList();
  }
}
