package rakelight.cli;

import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.index.Entry;
import rakelight.index.Hit;
import rakelight.index.HitList;
import rakelight.index.QueryException;
import rakelight.index.Widening;
import rakelight.marker.MarkerStore;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.search.Citation;
import rakelight.search.Coverage;
import rakelight.search.GroundSearch;
import rakelight.search.Proposed;
import rakelight.search.SearchJson;

@Command(
    name = "search",
    description = {
      "Finds the markers that answer, also those on which only part of a name is left.",
      "Words; \"words in a row\"; name:wren; w?en; year:1863; year:1850..1870; died:1863;"
          + " died within 5 years of 1850; aged:60..65; wife of john wren; near:12; marker:12;"
          + " near the harrow monument; plot:B; row:3; initials:HW; link:footstone;"
          + " made:1830..1850; unsafe:any; trade:, unit:, rank:, place:, cause:, kin:,"
          + " condition:, form:, material:, maker:, emblem:, question:. The likeliest come first."
    })
final class SearchCommand extends ArchiveCommand {
  private static final int MOST_UNREAD_NAMED = 12;

  /** Of more unread markers nobody waits for what machines propose; a choice. */
  private static final int MOST_UNREAD_LOOKED_AT = 200;

  @Parameters(index = "1..*", arity = "1..*", paramLabel = "QUERY")
  private List<String> query;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Option(
      names = "--limit",
      paramLabel = "N",
      defaultValue = "50",
      description = "At most so many hits, 1 or more (${DEFAULT-VALUE}).")
  private int limit;

  @Option(
      names = "--without",
      paramLabel = "WIDENING",
      split = ",",
      description =
          "What isn't looked for besides the words: abbreviations, nicknames, latin, initials,"
              + " sounds, slips; or all.")
  private List<String> without = List.of();

  @Option(
      names = "--as-of",
      paramLabel = "DAY",
      description = "The day of the search, for the citation, such as 2026-11-25.")
  private Optional<LocalDate> asOf = Optional.empty();

  @Option(
      names = "--proposals",
      description =
          "Look instead at what machines take faces to say that nobody has read: unconfirmed.")
  private boolean proposals;

  @Override
  int run(Archive archive) {
    if (limit < 1) {
      return refused("--limit " + limit + ": it takes a number of hits, 1 or more");
    }
    PrintWriter out = out();
    try (GroundSearch search = new GroundSearch(archive)) {
      if (proposals) {
        proposed(search.findProposed(query(), limit, Widening.allBut(without)));
        return 0;
      }
      if (!search.isUpToDate() && search.update(false).isEmpty()) {
        err().println("Another program is updating the index; what was confirmed last may miss.");
      }
      GroundSearch.Answers answers = search.search(query(), limit, Widening.allBut(without));
      Coverage coverage = Coverage.of(archive);
      Optional<List<GroundSearch.Unread>> could = couldAnswer(search, coverage);
      List<Question> questions = new QuestionStore(archive).matching(String.join(" ", query));
      if (json) {
        new SearchJson(archive, asOf, (photograph, path) -> Map.of("path", path.toString()))
            .of(answers, questions, coverage, could)
            .forEach(object -> JsonLines.print(out, object));
      } else {
        print(answers, archive, out);
        MarkerStore markers = new MarkerStore(archive);
        questions.forEach(question -> QuestionsCommand.print(out, question, markers));
        covers(coverage, could, out);
      }
    } catch (QueryException e) {
      return refused("The query can't be understood: " + e.getMessage());
    }
    return 0;
  }

  /** Apart from all that is confirmed, and nothing to cite. */
  private void proposed(HitList found) {
    PrintWriter out = out();
    if (json) {
      SearchJson.ofProposals(found).forEach(object -> JsonLines.print(out, object));
      return;
    }
    if (found.hits().isEmpty()) {
      out.println("No proposal answers.");
      return;
    }
    out.println(
        "Proposed by a machine, confirmed by nobody; read the stones before you rely on any.");
    for (Hit hit : found.hits()) {
      out.printf(
          Locale.ROOT,
          "%s, %s  (%.2f, proposed)%n",
          hit.entry().marker(),
          String.join(", ", hit.entry().faces().stream().map(Entry.Face::name).toList()),
          hit.probability());
      hit.entry().texts().forEach(text -> text.lines().forEach(line -> out.println("    " + line)));
      hit.why().forEach(why -> out.println("  because: " + why));
    }
  }

  /**
   * What was asked is wrong, not how the command is used, so that its usage would be in the way.
   */
  private int refused(String why) {
    err().println(why);
    return CommandLine.ExitCode.USAGE;
  }

  private void print(GroundSearch.Answers answers, Archive archive, PrintWriter out) {
    List<GroundSearch.Answer> hits = answers.answers();
    if (hits.isEmpty()) {
      out.println("No marker answers.");
      return;
    }
    List<GroundSearch.Answer> faint =
        hits.stream().filter(each -> answers.found().isFaint(each.hit())).toList();
    int shown = hits.size() - faint.size();
    int number = 1;
    for (GroundSearch.Answer hit : hits) {
      if (!faint.contains(hit)) {
        print(out, hit, archive, number++, shown);
      }
    }
    if (!faint.isEmpty()) {
      out.println(
          "Hardly: marker "
              + String.join(
                  ", ", faint.stream().map(each -> each.hit().entry().marker()).toList()));
    }
    answers
        .found()
        .widened()
        .forEach(
            (word, forms) ->
                out.println(word + " is also looked for as " + String.join(", ", forms)));
  }

  /** A shell takes quotation marks away; an argument with spaces was a phrase. */
  private String query() {
    StringBuilder joined = new StringBuilder();
    for (String argument : query) {
      boolean loose = query.size() > 1 && argument.contains(" ") && argument.indexOf('"') < 0;
      int field = loose ? argument.indexOf(':') : -1;
      boolean fielded =
          field > 0 && argument.substring(0, field).chars().allMatch(Character::isLetter);
      joined.append(joined.isEmpty() ? "" : " ");
      if (fielded) {
        joined
            .append(argument, 0, field + 1)
            .append('"')
            .append(argument.substring(field + 1))
            .append('"');
      } else {
        joined.append(loose ? "\"" + argument + "\"" : argument);
      }
    }
    return joined.toString();
  }

  private void print(
      PrintWriter out, GroundSearch.Answer found, Archive archive, int number, int of) {
    Entry entry = found.hit().entry();
    String faces =
        String.join(", ", found.faces().stream().map(GroundSearch.AnsweringFace::name).toList());
    out.printf(
        Locale.ROOT,
        "%s, %s  (%.2f; %d of %d)%n",
        entry.marker(),
        faces,
        found.hit().probability(),
        number,
        of);
    for (GroundSearch.AnsweringFace face : found.faces()) {
      SearchJson.lines(face, entry).forEach(line -> out.println("    " + line));
    }
    found.hit().why().forEach(why -> out.println("  because: " + why));
    entry.fact("unsafe").forEach(why -> out.println("  keep clear of it: noted as " + why));
    entry.fact("link").forEach(link -> out.println("  link: " + link));
    for (GroundSearch.AnsweringFace face : found.faces()) {
      face.originals().forEach(path -> out.println("  photograph: " + path));
      out.println("  cite: " + Citation.of(archive.ground(), entry.marker(), face, asOf));
    }
    out.println();
  }

  /** Empty where there are so many that whoever searches would wait. */
  private Optional<List<GroundSearch.Unread>> couldAnswer(GroundSearch search, Coverage coverage)
      throws QueryException {
    if (coverage.unread().isEmpty() || coverage.unread().size() > MOST_UNREAD_LOOKED_AT) {
      return Optional.empty();
    }
    try (Proposed proposed = search.proposed()) {
      return Optional.of(search.couldAnswer(proposed, query(), Widening.allBut(without)));
    }
  }

  private static void covers(
      Coverage coverage, Optional<List<GroundSearch.Unread>> could, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "The search covers %d of %d markers: %d photographed, %d read, %d of them hardly legible.%n",
        coverage.read(),
        coverage.markers(),
        coverage.photographed(),
        coverage.read(),
        coverage.illegible());
    if (!coverage.unread().isEmpty()) {
      List<String> unread = coverage.unread();
      out.println(
          "Photographed and not read, so they could still answer"
              + (could.isEmpty() ? " (--proposals says how likely)" : "")
              + ": marker "
              + String.join(", ", unread.subList(0, Math.min(MOST_UNREAD_NAMED, unread.size())))
              + (unread.size() > MOST_UNREAD_NAMED
                  ? String.format(Locale.ROOT, " and %d more", unread.size() - MOST_UNREAD_NAMED)
                  : ""));
      if (!could.orElse(List.of()).isEmpty()) {
        out.println(
            "Of these, by what a machine takes them to say and nobody confirmed, the likeliest: "
                + could.orElse(List.of()).stream()
                    .map(
                        one ->
                            String.format(
                                Locale.ROOT, "marker %s (%.2f)", one.number(), one.probability()))
                    .collect(Collectors.joining(", ")));
      }
    }
  }
}
