package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.index.Entry;
import rakelight.index.Hit;
import rakelight.index.HitList;
import rakelight.index.QueryException;
import rakelight.index.Widening;
import rakelight.index.Word;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.search.Citation;
import rakelight.search.Facets;
import rakelight.search.GroundSearch;
import rakelight.search.MatchedLines;
import rakelight.search.SearchJson;

/** Search: its page, the same for programs, and the family of a hit. */
final class SearchRoutes {
  /** As many hits are counted by decade, surname and plot; a choice. */
  private static final int MOST_HITS = 500;

  private static final int HITS_ON_PAGE = 20;
  private static final int MOST_ON_PAGE = 100;
  private static final int CHOICES_OF_FACET = 12;
  private static final int LINES_WITHOUT_MATCH = 3;
  private static final List<String> FACETS = List.of("decade", "surname", "plot");

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Searching searching;
  private final MarkerPages markerPages;
  private final MarkerStore markers;
  private final QuestionStore questions;
  private final Clock clock;

  SearchRoutes(
      Archive archive,
      Requests requests,
      Pages pages,
      Searching searching,
      MarkerPages markerPages,
      Clock clock) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.searching = searching;
    this.markerPages = markerPages;
    this.markers = new MarkerStore(archive);
    this.questions = new QuestionStore(archive);
    this.clock = clock;
  }

  void addTo(Javalin server) {
    server.get("/search", this::page);
    server.get("/search.json", this::json);
    server.get("/markers/{marker}/family", this::family);
  }

  /** The page of a search; without one, where to begin. */
  void page(Context context) {
    requests.by(context);
    String asked = given(context, "q");
    try {
      if (asked.isEmpty()) {
        String made = SearchForm.query(field -> given(context, field));
        if (!made.isEmpty()) {
          context.redirect(
              address(Map.of("q", made, "without", String.join(",", without(context)))));
          return;
        }
        searching.follow();
        show(context, nothing("", "", false));
        return;
      }
      boolean behind = !searching.followed();
      // Before it was made for the first time there is no index to be asked.
      show(
          context,
          behind && !searching.isThere()
              ? nothing(asked, "", true)
              : found(context, asked, behind));
    } catch (QueryException e) {
      show(context, nothing(asked, "The query can’t be understood: " + e.getMessage(), false));
    }
  }

  private void show(Context context, SearchPage search) {
    pages.show(context, "search", Map.of("search", search));
  }

  private SearchPage nothing(String asked, String refused, boolean behind) {
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
        List.of(),
        searching.coverage());
  }

  /** A hit that the desk still has, under the number it has now. */
  private record Here(Hit hit, Marker marker) {}

  private SearchPage found(Context context, String asked, boolean behind) throws QueryException {
    int limit = limit(context, HITS_ON_PAGE, MOST_ON_PAGE);
    List<String> without = without(context);
    Set<Widening> widenings = Widening.allBut(without);
    HitList found = searching.search().find(asked, MOST_HITS, widenings);
    List<Here> all = new ArrayList<>();
    List<SearchPage.Named> faint = new ArrayList<>();
    for (Hit hit : found.hits()) {
      Optional<Marker> marker = markers.marker(MarkerId.of(hit.entry().id()));
      if (marker.isPresent() && found.isFaint(hit)) {
        faint.add(new SearchPage.Named(marker.get().number(), "/markers/" + marker.get().id()));
      } else if (marker.isPresent()) {
        all.add(new Here(hit, marker.get()));
      }
    }
    Map<String, String> query = new TreeMap<>();
    query.put("q", asked);
    query.put("without", String.join(",", without));
    query.put("limit", given(context, "limit"));
    FACETS.forEach(facet -> query.put(facet, given(context, facet)));
    List<Here> narrowed = new ArrayList<>(all);
    List<SearchPage.Choice> by = new ArrayList<>();
    for (String facet : FACETS) {
      String value = query.getOrDefault(facet, "");
      if (!value.isEmpty()) {
        narrowed.removeIf(here -> !values(facet, here.hit().entry()).contains(value));
        by.add(new SearchPage.Choice(words(facet, value), 0, with(query, facet, "")));
      }
    }
    LocalDate today = LocalDate.now(clock.withZone(archive.ground().zone()));
    Paged<SearchPage.Shown> hits =
        Paged.of(
                narrowed,
                Paged.page(Optional.ofNullable(context.queryParam("page"))),
                limit,
                "/search",
                query)
            .map(here -> shown(here, today));
    return new SearchPage(
        asked,
        "",
        behind,
        hits,
        found.answering(),
        percent(found.elsewhere()),
        faint,
        found.widened(),
        facets(narrowed, query),
        by,
        questions.matching(asked).stream().map(SearchRoutes::line).toList(),
        java.util.EnumSet.allOf(Widening.class).stream()
            .filter(each -> !widenings.contains(each))
            .toList(),
        searching.coverage());
  }

  private static String line(Question question) {
    return question.label() + (question.isOpen() ? ": " : ", answered: ") + question.text();
  }

  private static Set<String> values(String facet, Entry entry) {
    return switch (facet) {
      case "decade" ->
          Facets.decades(entry).stream().map(String::valueOf).collect(Collectors.toSet());
      case "surname" -> Facets.surnames(entry);
      default -> Set.copyOf(entry.fact("plot"));
    };
  }

  private static String words(String facet, String value) {
    return switch (facet) {
      case "decade" -> value + "s";
      case "surname" -> value;
      default -> "plot " + value;
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

  private static String address(Map<String, String> query) {
    return "/search?"
        + new TreeMap<>(query)
            .entrySet().stream()
                .filter(one -> !one.getValue().isEmpty())
                .map(
                    one ->
                        one.getKey()
                            + "="
                            + URLEncoder.encode(one.getValue(), StandardCharsets.UTF_8))
                .collect(Collectors.joining("&"));
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
    String asked = given(context, "q");
    try {
      int limit = limit(context, 50, MOST_HITS);
      Set<Widening> widenings = Widening.allBut(without(context));
      searching.followed();
      GroundSearch.Answers answers = searching.search().search(asked, limit, widenings);
      Predicate<GroundSearch.Answer> here =
          answer -> markers.marker(MarkerId.of(answer.hit().entry().id())).isPresent();
      LocalDate today = LocalDate.now(clock.withZone(archive.ground().zone()));
      String lines =
          new SearchJson(
                  archive,
                  Optional.of(today),
                  (photograph, path) -> Map.of("path", "/images/photographs/" + photograph.id()))
                  .of(
                      new GroundSearch.Answers(
                          answers.found(), answers.answers().stream().filter(here).toList()),
                      questions.matching(asked),
                      searching.coverage())
                  .stream()
                  .map(object -> Json.text(object) + "\n")
                  .collect(Collectors.joining());
      context.contentType("application/x-ndjson; charset=utf-8").result(lines);
    } catch (QueryException e) {
      throw Refusal.malformed("The query can't be understood: " + e.getMessage());
    }
  }

  private void family(Context context) {
    requests.by(context);
    Marker marker = requests.marker(context);
    List<FamilyPage.KinLine> kin =
        People.on(archive, marker).stream()
            .flatMap(person -> person.mentions().stream())
            .filter(mention -> mention.source().marker().id().equals(marker.id()))
            .flatMap(mention -> mention.kin().stream().map(one -> kin(mention, one)))
            .distinct()
            .toList();
    String asked = given(context, "q");
    pages.show(
        context,
        "family",
        Map.of(
            "family",
            new FamilyPage(
                marker.id().toString(),
                marker.number(),
                asked.isEmpty() ? "" : address(Map.of("q", asked)),
                markerPages.persons(marker),
                kin,
                markerPages.links(marker))));
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
    String limit = given(context, "limit");
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

  private static String given(Context context, String field) {
    return Optional.ofNullable(context.queryParam(field)).map(String::strip).orElse("");
  }
}
