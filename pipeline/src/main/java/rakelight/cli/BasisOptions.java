package rakelight.cli;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import rakelight.inscription.Basis;

/** What a reading was read from, as options. */
final class BasisOptions {
  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec;

  @Option(
      names = "--basis",
      paramLabel = "BASIS",
      defaultValue = "photographs",
      description = "What it was read from: photographs (default), stone or earlier.")
  private String kind;

  @Option(
      names = "--date",
      paramLabel = "DATE",
      description = "When it was read at the stone, or by the earlier witness: 2025-04-30")
  private @Nullable String date;

  @Option(names = "--light", paramLabel = "WORDS", description = "How the light fell.")
  private @Nullable String light;

  @Option(
      names = "--witness",
      paramLabel = "NAME",
      description = "The earlier witness: an old list, a rubbing, a register.")
  private @Nullable String witness;

  /**
   * @throws CommandLine.ParameterException if the options don't go together
   */
  Basis basis() {
    Basis.Kind known =
        Basis.Kind.of(kind)
            .orElseThrow(() -> wrong("--basis must be photographs, stone or earlier, not " + kind));
    try {
      return new Basis(
          known,
          Optional.ofNullable(date).map(LocalDate::parse),
          Optional.ofNullable(light),
          Optional.ofNullable(witness));
    } catch (DateTimeException e) {
      throw wrong("--date must be a day such as 2025-04-30, not " + date);
    } catch (IllegalArgumentException e) {
      throw wrong(String.valueOf(e.getMessage()));
    }
  }

  private CommandLine.ParameterException wrong(String message) {
    return new CommandLine.ParameterException(spec.commandLine(), message);
  }
}
