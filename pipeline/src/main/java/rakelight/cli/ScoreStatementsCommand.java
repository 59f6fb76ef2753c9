package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.CharacterCodingException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.ArchiveException;
import rakelight.measure.KnownStone;
import rakelight.measure.KnownStones;
import rakelight.measure.StatementScore;

@Command(
    name = "score-statements",
    description = {
      "Reads inscriptions whose sense is known and compares what they are taken to assert with it.",
      "docs/inscriptions.md tells how the files are written and what counts as right."
    })
final class ScoreStatementsCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(arity = "1..*", paramLabel = "FILE", description = "Inscriptions with their sense.")
  private List<Path> files = List.of();

  @Option(names = "--faults", description = "Also tells everything that isn't right, in words.")
  private boolean faults;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  private static List<KnownStone> stones(Path file) {
    try {
      return KnownStones.read(file);
    } catch (NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such file.", e);
    } catch (CharacterCodingException e) {
      throw new ArchiveException(file + ": not a text in UTF-8; give a file of stones.", e);
    } catch (IOException e) {
      String message = String.valueOf(e.getMessage());
      throw new ArchiveException(
          message.startsWith(file.toString()) ? message + "." : file + ": " + message + ".", e);
    }
  }

  @Override
  public Integer call() {
    StatementScore score = new StatementScore();
    for (Path file : files) {
      for (KnownStone stone : stones(file)) {
        score.add(stone);
      }
    }
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      printJson(score, out);
    } else {
      print(score, out);
    }
    return 0;
  }

  private void print(StatementScore score, PrintWriter out) {
    if (faults) {
      score.faults().forEach(out::println);
      out.println();
    }
    out.println("| kind | known | said | right | precision | recall |");
    out.println("|---|---|---|---|---|---|");
    score.rows().forEach(row -> print(word(row), row, out));
    print("of persons and makers", score.together(), out);
    out.println();
    out.printf(
        Locale.ROOT,
        "%d stones, %d wholly right; %d persons commemorated, %d found; %d persons who don't exist;"
            + " %d facts on a wrong person.%n",
        score.stones(),
        score.whollyRight(),
        score.persons(),
        score.personsFound(),
        score.phantoms(),
        score.onWrongPerson());
    out.printf(
        Locale.ROOT,
        "Odds of %d facts: calibration error %s over %d bins, largest gap %s, Brier score %s.%n",
        score.odds().size(),
        figure(score.odds().expectedError()),
        StatementScore.BINS,
        figure(score.odds().largestError()),
        figure(score.odds().brier()));
    out.flush();
  }

  private static void print(String kind, StatementScore.Row row, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "| %s | %d | %d | %d | %s | %s |%n",
        kind,
        row.known(),
        row.said(),
        row.right(),
        figure(row.precision()),
        figure(row.recall()));
  }

  private void printJson(StatementScore score, PrintWriter out) {
    if (faults) {
      score.faults().forEach(fault -> JsonLines.print(out, JsonLines.object().put("fault", fault)));
    }
    score
        .rows()
        .forEach(
            row -> JsonLines.print(out, figures(row, JsonLines.object().put("kind", word(row)))));
    JsonLines.print(
        out,
        figures(
            score.together(),
            JsonLines.object()
                .put("stones", score.stones())
                .put("whollyRight", score.whollyRight())
                .put("persons", score.persons())
                .put("personsFound", score.personsFound())
                .put("phantoms", score.phantoms())
                .put("onWrongPerson", score.onWrongPerson())
                .put("calibrationError", score.odds().expectedError())
                .put("brier", score.odds().brier())));
  }

  private static ObjectNode figures(StatementScore.Row row, ObjectNode object) {
    object.put("known", row.known()).put("said", row.said()).put("right", row.right());
    if (row.said() > 0) {
      object.put("precision", row.precision());
    }
    if (row.known() > 0) {
      object.put("recall", row.recall());
    }
    return object;
  }

  private static String word(StatementScore.Row row) {
    return row.kind().map(kind -> kind.name().toLowerCase(Locale.ROOT)).orElse("all");
  }

  private static String figure(double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, "%.3f", value) : "-";
  }
}
