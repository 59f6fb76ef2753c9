package rakelight.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Json;
import rakelight.measure.Fitting;
import rakelight.measure.Score;
import rakelight.measure.Truth;
import rakelight.measure.TruthLine;
import rakelight.reading.MachineReader;
import rakelight.reading.Odds;
import rakelight.reading.Proposer;
import rakelight.samples.StoneSet;
import rakelight.samples.Weathering;

@Command(
    name = "calibrate",
    description = {
      "Fits the odds of letters and words anew, on rendered stones kept for it.",
      "For whoever changes a recogniser; see docs/reading.md."
    })
final class CalibrateCommand implements Callable<Integer> {
  /** Stones from these seeds are used for nothing else. */
  private static final long FIRST_SEED = 8_100_000;

  private static final long FIRST_RAKING_SEED = 8_200_000;
  private static final String PHOTOGRAPHS = "photographs";
  private static final int WIDTH_PX = 1100;
  private static final int LIGHTS = 4;
  private static final List<Weathering> WEAR =
      List.of(Weathering.LIGHT, Weathering.HEAVY, Weathering.RUINOUS);

  @Spec private CommandSpec spec;

  @Parameters(
      index = "0",
      paramLabel = "FOLDER",
      description = "A new folder, or one of an earlier run that goes on.")
  private Path folder;

  @Option(
      names = "--stones",
      paramLabel = "N",
      defaultValue = "60",
      description =
          "How many: two in three are photographed once, one in four lights (default: ${DEFAULT-VALUE}).")
  private int stones;

  @Override
  public Integer call() throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    Path single = folder.resolve("single");
    Path raking = folder.resolve("raking");
    int sets = stones / 3;
    render(new StoneSet(stones - sets, FIRST_SEED, WIDTH_PX, WEAR, "usual", 1), single);
    render(new StoneSet(sets, FIRST_RAKING_SEED, WIDTH_PX, WEAR, "usual", LIGHTS), raking);
    Path archive = folder.resolve("archive");
    if (!Files.exists(archive)) {
      // The ground lies in open sea; nothing here depends on where.
      run(
          "init",
          archive.toString(),
          "--ground",
          "calibration",
          "--datum",
          "44,-50",
          "--zone",
          "UTC");
    }
    for (Path set : List.of(single, raking)) {
      run(
          "ingest",
          archive.toString(),
          set.resolve(PHOTOGRAPHS).toString(),
          "--manifest",
          set.resolve("manifest.csv").toString());
    }
    Odds before = Odds.fitted();
    Fitting fitting = new Fitting();
    Fitting checking = new Fitting();
    try (Archive opened = Archive.open(archive, Projections.all());
        MachineReader machine = MachineReader.standard(before)) {
      Proposer proposer = new Proposer(opened, machine);
      proposer.run(Proposer.workersHere(), (done, all, photograph) -> {});
      List<TruthLine> truth = new ArrayList<>(Truth.read(single.resolve("truth.tsv")));
      truth.addAll(Truth.read(raking.resolve("truth.tsv")));
      new Score(opened)
          .eachLine(
              truth,
              proposer::heard,
              (face, line, heard) -> (face % 2 == 0 ? fitting : checking).add(line.text(), heard));
      Odds fitted =
          fitting.fitted(
              before,
              String.format(
                  Locale.ROOT,
                  "%d lines of every second of %d rendered stones, seeds from %d and %d; recognisers %s",
                  fitting.size(),
                  stones,
                  FIRST_SEED,
                  FIRST_RAKING_SEED,
                  machine.voices().stream()
                      .map(
                          v ->
                              v.recogniser().name()
                                  + " "
                                  + v.recogniser().digest().substring(0, 12))
                      .toList()));
      Path file = folder.resolve("odds.json");
      Files.writeString(
          file,
          Json.mapper().writerWithDefaultPrettyPrinter().writeValueAsString(Json.tree(fitted))
              + "\n");
      out.println(Files.readString(file));
      out.printf(Locale.ROOT, "Checked on the %d lines of the other stones:%n", checking.size());
      say(out, "not corrected", checking, before.uncorrected());
      say(out, "as in the program", checking, before);
      Odds words = fitting.withWords(before);
      String how =
          String.format(
              Locale.ROOT,
              "as in the program, words fitted anew (slope %.3f, shift %.3f)",
              words.wordSlope(),
              words.wordShift());
      say(out, how, checking, words);
      say(out, "fitted now", checking, fitted);
      out.println(
          "To use them, copy "
              + file
              + " over odds.json in pipeline/src/main/resources/rakelight/reading.");
    }
    return 0;
  }

  private static void say(PrintWriter out, String what, Fitting lines, Odds odds) {
    out.printf(
        Locale.ROOT,
        "  %s: letter error %.4f, surprise %.4f bits a letter; calibration error:",
        what,
        lines.letterError(odds),
        lines.surprise(odds));
    lines
        .calibrations(odds)
        .forEach(
            (kind, said) ->
                out.printf(Locale.ROOT, " %s %.3f (%d)", kind, said.expectedError(), said.size()));
    out.println();
  }

  /** Renders a set unless it is there; its tables stand beside the photographs' folder. */
  private static void render(StoneSet set, Path folder) throws IOException {
    if (Files.exists(folder.resolve("truth.tsv"))) {
      return;
    }
    set.writeTo(folder.resolve(PHOTOGRAPHS));
    for (String table : List.of("manifest.csv", "boxes.tsv", "truth.tsv")) {
      Files.move(folder.resolve(PHOTOGRAPHS).resolve(table), folder.resolve(table));
    }
  }

  private void run(String... arguments) {
    PrintWriter err = spec.commandLine().getErr();
    if (Rakelight.commands(spec.commandLine().getOut(), err).execute(arguments) != 0) {
      throw new ArchiveException("calibrate stopped: " + arguments[0] + " failed, see above.");
    }
  }
}
