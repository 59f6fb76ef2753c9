package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class RakelightTest {
  private static final Map<String, CommandLine> ALL =
      Rakelight.commands(new PrintWriter(new StringWriter()), new PrintWriter(new StringWriter()))
          .getSubcommands();

  @Test
  void onlyTheCommandThatIsAskedForIsLookedThrough() {
    assertThat(ALL).hasSizeGreaterThan(50);
    ALL.forEach(
        (name, command) ->
            assertThat(Rakelight.asked(new String[] {name, "Archive"}))
                .containsExactly(command.getCommand().getClass()));
  }

  @Test
  void whereNoneIsNamedAllAre() {
    for (String[] words : List.of(new String[0], new String[] {"--help"}, new String[] {"asign"})) {
      assertThat(Rakelight.asked(words)).hasSize(ALL.size());
    }
  }
}
