package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.index.Entry;
import rakelight.index.QueryException;
import rakelight.inscription.Leiden;
import rakelight.marker.MarkerStore;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.search.GroundSearch;

@Command(
    name = "search",
    description = {
      "Finds the markers that answer, also those on which only part of a name is left.",
      "Words; \"words in a row\"; name:wren; name:\"hannah wren\"; year:1863; year:1850..1870;"
          + " initials:HW; marker:12; link:footstone. All parts must answer."
    })
final class SearchCommand extends ArchiveCommand {
  @Parameters(index = "1..*", arity = "1..*", paramLabel = "QUERY")
  private List<String> query;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Option(
      names = "--limit",
      paramLabel = "N",
      defaultValue = "50",
      description = "At most so many hits (${DEFAULT-VALUE}).")
  private int limit;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    try {
      GroundSearch search = new GroundSearch(archive);
      if (!search.isUpToDate() && search.update(false).isEmpty()) {
        err().println("Another program is updating the index; what was confirmed last may miss.");
      }
      List<GroundSearch.Answer> found = search.search(query(), limit);
      for (GroundSearch.Answer hit : found) {
        if (json) {
          JsonLines.print(out, object(hit));
        } else {
          print(out, hit);
        }
      }
      if (found.isEmpty() && !json) {
        out.println("No marker answers.");
      }
      questions(archive, out);
    } catch (QueryException e) {
      throw wrong("The query can't be understood: " + e.getMessage());
    }
    return 0;
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

  private static void print(PrintWriter out, GroundSearch.Answer found) {
    Entry entry = found.hit().entry();
    out.printf(Locale.ROOT, "%s, %s  (%.2f)%n", entry.marker(), entry.face(), found.hit().score());
    lines(found).forEach(line -> out.println("    " + line));
    found.hit().why().forEach(why -> out.println("  because: " + why));
    entry.links().forEach(link -> out.println("  link: " + link));
    found.originals().forEach(path -> out.println("  photograph: " + path));
    out.println();
  }

  private static List<String> lines(GroundSearch.Answer found) {
    return found
        .reading()
        .map(reading -> Leiden.printLines(reading.inscription()))
        .orElse(List.of(found.hit().entry().text()));
  }

  private static ObjectNode object(GroundSearch.Answer found) {
    Entry entry = found.hit().entry();
    ObjectNode object =
        JsonLines.object()
            .put("marker", entry.marker())
            .put("face", entry.face())
            .put("score", found.hit().score());
    ArrayNode why = object.putArray("why");
    found.hit().why().forEach(why::add);
    ArrayNode reading = object.putArray("reading");
    lines(found).forEach(reading::add);
    found
        .reading()
        .ifPresent(
            signed ->
                object
                    .put("reader", signed.reader())
                    .put("basis", signed.basis().kind().label())
                    .put("readingId", signed.id().toString()));
    ArrayNode links = object.putArray("links");
    entry.links().forEach(links::add);
    ArrayNode photographs = object.putArray("photographs");
    for (int i = 0; i < found.photographs().size(); i++) {
      photographs
          .addObject()
          .put("id", found.photographs().get(i).id().toString())
          .put("file", found.photographs().get(i).originalPath())
          .put("sha256", found.photographs().get(i).sha256().hex())
          .put("path", found.originals().get(i).toString());
    }
    return object;
  }
}
