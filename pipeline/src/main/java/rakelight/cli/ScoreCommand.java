package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.measure.Calibration;
import rakelight.measure.ReliabilityDiagram;
import rakelight.measure.Score;
import rakelight.measure.SignsRead;
import rakelight.measure.Spread;
import rakelight.measure.Truth;
import rakelight.measure.TruthLine;

@Command(
    name = "score",
    description = {
      "Compares proposals with the truth, beside PP-OCR v4 alone and plain Tesseract on the same"
          + " photographs.",
      "The truth is a table with columns file, line, text and, where known, legibility, material"
          + " and light; boxes.tsv beside it says where the lines stand."
    })
final class ScoreCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Parameters(index = "1", paramLabel = "TRUTH.tsv", description = "What the photographs say.")
  private Path truth;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @ArgGroup private Beside beside = new Beside();

  static final class Beside {
    @Option(
        names = "--only-proposals",
        description = "Without rivals; no photograph is read, so it takes seconds.")
    private boolean nothing;

    @Option(
        names = "--reliefs",
        description = "Also reads the proposed lines on every relief image; slow.")
    private boolean reliefs;

    Score.Beside asked() {
      return nothing
          ? Score.Beside.NOTHING
          : reliefs ? Score.Beside.RIVALS_AND_RELIEFS : Score.Beside.RIVALS;
    }
  }

  @Option(
      names = "--diagram",
      paramLabel = "FILE.png",
      description = "Draws how often what was said with each probability came true.")
  private Optional<Path> diagram;

  @Option(
      names = "--confusions",
      paramLabel = "FILE.tsv",
      description = "Writes which letters were taken for which, by legibility and odds.")
  private Optional<Path> confusions;

  @Override
  public Integer call() throws IOException {
    List<TruthLine> lines = Truth.read(truth);
    Score.Result result;
    try (Archive archive = Archive.open(root, Projections.all())) {
      result = new Score(archive).run(lines, beside.asked());
    }
    if (diagram.isPresent()) {
      Files.write(diagram.get(), ReliabilityDiagram.png(result.reliability()));
    }
    if (confusions.isPresent()) {
      Files.writeString(confusions.get(), result.confusions().table());
    }
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      printJson(result, out);
    } else {
      print(result, out);
    }
    result
        .missing()
        .forEach(
            file ->
                spec.commandLine()
                    .getErr()
                    .println(
                        file
                            + ": in the truth, but the archive has no proposal for it; ingest it"
                            + " and run `propose`."));
    return result.faces() == 0 || !result.missing().isEmpty() ? 1 : 0;
  }

  private static void print(Score.Result result, PrintWriter out) {
    out.printf(Locale.ROOT, "%d faces scored.%n%n", result.faces());
    out.println(
        "| read by | lines of | lines | letters | read | letter error | case-blind | between |"
            + " fair | without signs | word error | strays | in first 3 |");
    out.println("|---|---|---|---|---|---|---|---|---|---|---|---|---|");
    for (Score.Row row : result.rows()) {
      out.printf(
          Locale.ROOT,
          "| %s | %s | %d | %d | %d | %s | %s | %s | %s | %s | %s | %s | %s |%n",
          row.way(),
          row.slice(),
          row.lines(),
          row.letters(),
          row.linesRead(),
          figure(row.letterError()),
          figure(row.letterErrorCaseBlind()),
          figures(row.spread()),
          figure(row.fairLetterError()),
          figure(row.letterErrorWithoutSigns()),
          figure(row.wordErrorCaseBlind()),
          row.slice().equals("all") ? figure(row.strayRate()) : "",
          row.amongThree().map(ScoreCommand::figure).orElse(""));
    }
    out.println();
    out.println("| signs of the proposals | cut | read | read where it isn't |");
    out.println("|---|---|---|---|");
    result
        .signs()
        .forEach(
            kind ->
                out.printf(
                    Locale.ROOT,
                    "| %s | %d | %d | %d |%n",
                    kind.name(),
                    kind.cut(),
                    kind.read(),
                    kind.strays()));
    out.println();
    if (!result.lines().isEmpty()) {
      out.println("| lines of | found by (overlap at least one half) | recall | precision |");
      out.println("|---|---|---|---|");
      for (Score.LinesFound found : result.lines()) {
        found
            .recall()
            .forEach(
                (slice, share) ->
                    out.printf(
                        "| %s | %s | %s | %s |%n",
                        slice,
                        found.way(),
                        figure(share),
                        slice.equals("all") ? figure(found.precision()) : ""));
      }
      out.println();
    }
    out.printf(
        "%d of %d lines follow the one before them in the truth.%n%n",
        result.order().followed(), result.order().lines());
    if (!result.againstBest().isEmpty()) {
      out.println("Errors of proposals over those of the best photograph in hindsight:");
      for (Score.AgainstBest compared : result.againstBest()) {
        out.printf(
            "  %s (%d letters) %s, between %s%n",
            compared.slice(),
            compared.letters(),
            figure(compared.ratio()),
            figures(compared.spread()));
      }
    }
    out.printf(Locale.ROOT, "Calibration error of proposed letters, %d bins:%n", Score.BINS);
    result
        .calibrationError()
        .forEach((slice, error) -> out.println("  " + slice + " " + figure(error)));
    result.reliability().forEach((kind, said) -> print(kind, said, out));
    result
        .agreement()
        .ifPresent(
            alpha ->
                out.println(
                    "Agreement of the recognisers, letters inside true boxes (Krippendorff's alpha): "
                        + figure(alpha)));
    out.flush();
  }

  private static void print(String kind, Calibration said, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "%s: %d said, calibration error %s, largest gap %s, Brier score %s%n",
        kind,
        said.size(),
        figure(said.expectedError()),
        figure(said.largestError()),
        figure(said.brier()));
    for (Calibration.Bin bin : said.diagram()) {
      out.printf(
          Locale.ROOT,
          "  said %.1f-%.1f: %d, mean %.3f, came true %.3f%n",
          bin.low(),
          bin.high(),
          bin.count(),
          bin.meanStated(),
          bin.shareTrue());
    }
  }

  private static void printJson(Score.Result result, PrintWriter out) {
    for (Score.Row row : result.rows()) {
      ObjectNode object =
          JsonLines.object()
              .put("readBy", row.way())
              .put("slice", row.slice())
              .put("lines", row.lines())
              .put("letters", row.letters())
              .put("linesRead", row.linesRead())
              .put("letterError", row.letterError())
              .put("letterErrorCaseBlind", row.letterErrorCaseBlind())
              .put("letterErrorCaseBlindLow", row.spread().low())
              .put("letterErrorCaseBlindHigh", row.spread().high())
              .put("fairLetterError", row.fairLetterError())
              .put("letterErrorWithoutSigns", row.letterErrorWithoutSigns())
              .put("wordErrorCaseBlind", row.wordErrorCaseBlind())
              .put("strayRate", row.strayRate());
      row.amongThree().ifPresent(share -> object.put("amongThree", share));
      JsonLines.print(out, object);
    }
    for (SignsRead.Kind kind : result.signs()) {
      JsonLines.print(
          out,
          JsonLines.object()
              .put("sign", kind.name())
              .put("cut", kind.cut())
              .put("read", kind.read())
              .put("readElsewhere", kind.strays()));
    }
    for (Score.LinesFound found : result.lines()) {
      found
          .recall()
          .forEach(
              (slice, share) ->
                  JsonLines.print(
                      out,
                      JsonLines.object()
                          .put("readBy", found.way())
                          .put("slice", slice)
                          .put("lineRecall", share)));
      JsonLines.print(
          out,
          JsonLines.object().put("readBy", found.way()).put("linePrecision", found.precision()));
    }
    for (Score.AgainstBest compared : result.againstBest()) {
      JsonLines.print(
          out,
          JsonLines.object()
              .put("slice", compared.slice())
              .put("letters", compared.letters())
              .put("errorsAgainstBestPhotograph", compared.ratio())
              .put("errorsAgainstBestPhotographLow", compared.spread().low())
              .put("errorsAgainstBestPhotographHigh", compared.spread().high()));
    }
    result
        .calibrationError()
        .forEach(
            (slice, error) ->
                JsonLines.print(
                    out, JsonLines.object().put("slice", slice).put("calibrationError", error)));
    result
        .reliability()
        .forEach(
            (kind, said) ->
                JsonLines.print(
                    out,
                    JsonLines.object()
                        .put("kind", kind)
                        .put("said", said.size())
                        .put("calibrationError", said.expectedError())
                        .put("brier", said.brier())));
    ObjectNode whole =
        JsonLines.object()
            .put("faces", result.faces())
            .put("linesInTurn", result.order().lines())
            .put("linesFollowing", result.order().followed())
            .put("calibrationBins", Score.BINS);
    result.agreement().ifPresent(alpha -> whole.put("recognisersAgreement", alpha));
    JsonLines.print(out, whole);
  }

  private static String figures(Spread spread) {
    return figure(spread.low()) + " and " + figure(spread.high());
  }

  private static String figure(double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, "%.3f", value) : "-";
  }
}
