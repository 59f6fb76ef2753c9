package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.index.Entry;
import rakelight.index.Hit;
import rakelight.index.QueryException;
import rakelight.index.Widening;
import rakelight.inscription.Leiden;
import rakelight.marker.MarkerStore;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.search.Citation;
import rakelight.search.Coverage;
import rakelight.search.GroundSearch;

@Command(
    name = "search",
    description = {
      "Finds the markers that answer, also those on which only part of a name is left.",
      "Words; \"words in a row\"; name:wren; w?en; year:1863; year:1850..1870; died:1863;"
          + " died within 5 years of 1850; aged:60..65; wife of john wren; near:12; marker:12;"
          + " plot:B; initials:HW; link:footstone; trade:, unit:, rank:, place:, cause:, kin:,"
          + " condition:, question:. The likeliest come first."
    })
final class SearchCommand extends ArchiveCommand {
  /** Hits below this, beside a likely one, are told in one line. A choice. */
  private static final double FAINT = 0.002;

  private static final int MOST_UNREAD_NAMED = 12;

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

  @Override
  int run(Archive archive) {
    if (limit < 1) {
      throw wrong("--limit " + limit + ": it takes a number of hits, 1 or more");
    }
    Set<Widening> widenings = widenings();
    PrintWriter out = out();
    try (GroundSearch search = new GroundSearch(archive)) {
      if (!search.isUpToDate() && search.update(false).isEmpty()) {
        err().println("Another program is updating the index; what was confirmed last may miss.");
      }
      GroundSearch.Answers answers = search.search(query(), limit, widenings);
      Coverage coverage = Coverage.of(archive);
      if (json) {
        answers.answers().forEach(hit -> JsonLines.print(out, object(hit, archive)));
      } else {
        print(answers, archive, out);
      }
      questions(archive, out);
      if (json) {
        JsonLines.print(out, object(answers, coverage));
      } else {
        covers(coverage, out);
      }
    } catch (QueryException e) {
      throw wrong("The query can't be understood: " + e.getMessage());
    }
    return 0;
  }

  private Set<Widening> widenings() {
    Set<Widening> widenings = EnumSet.allOf(Widening.class);
    for (String word : without) {
      String name = word.strip().toUpperCase(Locale.ROOT);
      Optional<Widening> named =
          EnumSet.allOf(Widening.class).stream()
              .filter(each -> each.name().equals(name))
              .findFirst();
      if (name.equals("ALL")) {
        widenings.clear();
      } else if (named.isPresent()) {
        widenings.remove(named.get());
      } else {
        throw wrong(
            "--without "
                + word
                + ": it takes abbreviations, nicknames, latin, initials, sounds, slips or all");
      }
    }
    return widenings;
  }

  private void print(GroundSearch.Answers answers, Archive archive, PrintWriter out) {
    List<GroundSearch.Answer> hits = answers.answers();
    if (hits.isEmpty()) {
      out.println("No marker answers.");
      return;
    }
    double best = hits.get(0).hit().probability();
    List<GroundSearch.Answer> faint =
        hits.stream().filter(each -> isFaint(each.hit(), best)).toList();
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

  private static boolean isFaint(Hit hit, double best) {
    return hit.probability() < FAINT * best;
  }

  /** Questions in which all the words are found, after the markers. */
  private void questions(Archive archive, PrintWriter out) {
    MarkerStore markers = new MarkerStore(archive);
    for (Question question : new QuestionStore(archive).matching(String.join(" ", query))) {
      if (json) {
        JsonLines.print(out, QuestionsCommand.object(question, markers));
      } else {
        QuestionsCommand.print(out, question, markers);
      }
    }
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
      lines(face, entry).forEach(line -> out.println("    " + line));
    }
    found.hit().why().forEach(why -> out.println("  because: " + why));
    entry.fact("link").forEach(link -> out.println("  link: " + link));
    for (GroundSearch.AnsweringFace face : found.faces()) {
      face.originals().forEach(path -> out.println("  photograph: " + path));
      out.println("  cite: " + Citation.of(archive.ground(), entry.marker(), face, asOf));
    }
    out.println();
  }

  private static void covers(Coverage coverage, PrintWriter out) {
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
          "Photographed and not read, so they could still answer: marker "
              + String.join(", ", unread.subList(0, Math.min(MOST_UNREAD_NAMED, unread.size())))
              + (unread.size() > MOST_UNREAD_NAMED
                  ? String.format(Locale.ROOT, " and %d more", unread.size() - MOST_UNREAD_NAMED)
                  : ""));
    }
  }

  private static List<String> lines(GroundSearch.AnsweringFace face, Entry entry) {
    return face.reading()
        .map(reading -> Leiden.printLines(reading.inscription()))
        .orElseGet(
            () ->
                entry.faces().stream()
                    .filter(each -> each.name().equals(face.name()))
                    .map(Entry.Face::text)
                    .toList());
  }

  private ObjectNode object(GroundSearch.Answer found, Archive archive) {
    Entry entry = found.hit().entry();
    ObjectNode object =
        JsonLines.object()
            .put("marker", entry.marker())
            .put("probability", found.hit().probability());
    ArrayNode why = object.putArray("why");
    found.hit().why().forEach(why::add);
    ArrayNode letters = object.putArray("letters");
    for (Hit.Letters word : found.hit().letters()) {
      StringBuilder standing = new StringBuilder();
      word.places().forEach(place -> standing.append(sign(place)));
      ObjectNode one = letters.addObject().put("asked", word.asked()).put("as", word.as());
      if (word.word() >= 0) {
        one.put("word", entry.words().get(word.word()).shown())
            .put("face", entry.faceOf(word.word()).name());
      }
      one.put("standing", standing.toString());
    }
    ArrayNode links = object.putArray("links");
    entry.fact("link").forEach(links::add);
    ArrayNode faces = object.putArray("faces");
    for (GroundSearch.AnsweringFace face : found.faces()) {
      face(faces.addObject(), face, entry, archive);
    }
    return object;
  }

  private static char sign(Hit.Standing standing) {
    return switch (standing) {
      case SURE -> 's';
      case GUESSED -> 'g';
      case OTHER -> 'o';
    };
  }

  private void face(
      ObjectNode object, GroundSearch.AnsweringFace face, Entry entry, Archive archive) {
    object.put("face", face.name());
    ArrayNode reading = object.putArray("reading");
    lines(face, entry).forEach(reading::add);
    face.reading()
        .ifPresent(
            signed ->
                object
                    .put("reader", signed.reader())
                    .put("basis", signed.basis().kind().label())
                    .put("readingId", signed.id().toString()));
    object.put("citation", Citation.of(archive.ground(), entry.marker(), face, asOf));
    ArrayNode photographs = object.putArray("photographs");
    for (int i = 0; i < face.photographs().size(); i++) {
      photographs
          .addObject()
          .put("id", face.photographs().get(i).id().toString())
          .put("file", face.photographs().get(i).originalPath())
          .put("sha256", face.photographs().get(i).sha256().hex())
          .put("path", face.originals().get(i).toString());
    }
  }

  private static ObjectNode object(GroundSearch.Answers answers, Coverage coverage) {
    ObjectNode object = JsonLines.object();
    ObjectNode covers =
        object
            .putObject("covers")
            .put("markers", coverage.markers())
            .put("photographed", coverage.photographed())
            .put("read", coverage.read())
            .put("illegible", coverage.illegible());
    ArrayNode unread = covers.putArray("unread");
    coverage.unread().forEach(unread::add);
    ObjectNode widened = object.putObject("widened");
    answers
        .found()
        .widened()
        .forEach(
            (word, forms) -> {
              ArrayNode all = widened.putArray(word);
              forms.forEach(all::add);
            });
    return object
        .put("answering", answers.found().answering())
        .put("elsewhere", answers.found().elsewhere());
  }
}
