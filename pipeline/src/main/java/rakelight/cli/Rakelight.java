package rakelight.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import rakelight.picture.Natives;

/** The command line: {@code java -jar rakelight.jar COMMAND}. */
@Command(
    name = "rakelight",
    mixinStandardHelpOptions = true,
    scope = CommandLine.ScopeType.INHERIT,
    versionProvider = Version.class,
    synopsisSubcommandLabel = "COMMAND",
    description =
        "Reads inscriptions from photographs of old grave markers and keeps them, checked, linked and"
            + " searchable.")
public final class Rakelight implements Runnable {
  /** In the order of the help. */
  private static final List<Class<?>> COMMANDS =
      List.of(
          Assign.class,
          CalibrateCommand.class,
          BackupCommand.class,
          BesideCommand.class,
          BookCommand.class,
          Cards.class,
          CheckCommand.class,
          ClockCommand.class,
          ConditionCommand.class,
          ConditionsCommand.class,
          Confirm.class,
          CreditCommand.class,
          DatesCommand.class,
          DeathsCommand.class,
          Decisions.class,
          Demo.class,
          DescribeCommand.class,
          DeskCommand.class,
          EmblemsCommand.class,
          AlikeCommand.class,
          ApartCommand.class,
          ExportCommand.class,
          FamiliesCommand.class,
          FirstCommand.class,
          GroundCommand.class,
          HandsCommand.class,
          Groups.class,
          ImportCommand.class,
          IndexCommand.class,
          IngestCommand.class,
          Init.class,
          LendCommand.class,
          LinkCommand.class,
          LinksCommand.class,
          MadeCommand.class,
          MarkerCommand.class,
          MarkersCommand.class,
          MergeCommand.class,
          PersonCommand.class,
          CopiesCommand.class,
          CorrectCommand.class,
          PersonsCommand.class,
          Photographs.class,
          PlanCommand.class,
          PositionCommand.class,
          Proposals.class,
          Propose.class,
          QuestionCommand.class,
          QuestionsCommand.class,
          ReadCommand.class,
          Readers.class,
          ReliefCommand.class,
          RemovalsCommand.class,
          Renumber.class,
          RestoreCommand.class,
          ReturnCommand.class,
          RollCommand.class,
          ScoreCommand.class,
          ScoreStatementsCommand.class,
          SearchCommand.class,
          SheetCommand.class,
          SiteCommand.class,
          SoughtCommand.class,
          SourceCommand.class,
          SourcesCommand.class,
          StartCommand.class,
          StatementsCommand.class,
          SeasonsCommand.class,
          SunCommand.class,
          TakeInCommand.class,
          Undo.class,
          WalkCommand.class,
          WithdrawCommand.class,
          WithdrawnCommand.class,
          WithheldCommand.class,
          WithholdCommand.class,
          WitnessCommand.class);

  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  Rakelight() {}

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  /** Runs one command with UTF-8 output whatever the locale, and exits with its code. */
  public static void main(String[] args) {
    if (!NativeNames.work()) {
      OptionalInt code = NativeNames.runAgainInUtf8();
      if (code.isPresent()) {
        System.exit(code.getAsInt());
      }
      if (Arrays.stream(args).anyMatch(argument -> argument.indexOf('\uFFFD') >= 0)) {
        utf8(FileDescriptor.err).println(NativeNames.ADVICE);
        System.exit(CommandLine.ExitCode.USAGE);
      }
    }
    keepLibrariesTogether();
    PrintStream out = utf8(FileDescriptor.out);
    PrintStream err = utf8(FileDescriptor.err);
    System.setOut(out);
    System.setErr(err);
    CommandLine line = line(asked(args), new PlainWriter(out), new PlainWriter(err));
    int code = line.execute(args);
    System.exit(code);
  }

  /**
   * The one command that the first word names; else all of them. To look through the options of all
   * takes a third of the time of a short command.
   */
  static List<Class<?>> asked(String[] args) {
    List<Class<?>> named =
        COMMANDS.stream()
            .filter(c -> args.length > 0 && c.getAnnotation(Command.class).name().equals(args[0]))
            .toList();
    return named.isEmpty() ? COMMANDS : named;
  }

  /** All commands, writing to these. */
  static CommandLine commands(PrintWriter out, PrintWriter err) {
    return line(COMMANDS, out, err);
  }

  private static CommandLine line(List<Class<?>> commands, PrintWriter out, PrintWriter err) {
    CommandLine line = new CommandLine(new Rakelight());
    commands.forEach(line::addSubcommand);
    return line.setOut(out)
        .setErr(err)
        .registerConverter(LocalDate.class, Rakelight::day)
        .setExecutionExceptionHandler(new ErrorLine());
  }

  private static LocalDate day(String words) {
    try {
      return LocalDate.parse(words);
    } catch (DateTimeParseException e) {
      throw new CommandLine.TypeConversionException(
          "'" + words + "' isn't a day such as 2026-11-25");
    }
  }

  /** SQLite's library is unpacked beside the others, not into a folder for temporary files. */
  private static void keepLibrariesTogether() {
    Path cache = Natives.cacheFolder();
    try {
      Files.createDirectories(cache);
      System.setProperty("org.sqlite.tmpdir", cache.toString());
    } catch (IOException e) {
      // SQLite then takes the system's temporary folder, as it does by itself.
    }
  }

  private static PrintStream utf8(FileDescriptor descriptor) {
    return new PrintStream(new FileOutputStream(descriptor), true, StandardCharsets.UTF_8);
  }
}
