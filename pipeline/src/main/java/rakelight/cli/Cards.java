package rakelight.cli;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.photo.CardLabel;
import rakelight.photo.Face;
import rakelight.publish.paper.FieldCards;

@Command(
    name = "cards",
    description = "Prints field cards, to be photographed before the faces they name.")
final class Cards implements Callable<Integer> {
  private static final Pattern RANGE = Pattern.compile("([^0-9]*)([0-9]{1,6})-([0-9]{1,6})");
  private static final int MOST_CARDS = 2000;

  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "FILE.pdf", description = "The file to write.")
  private Path file;

  @Parameters(
      index = "1..*",
      arity = "1..*",
      paramLabel = "NUMBER",
      description = "Marker numbers; 1-40 and A1-12 give a run of them.")
  private List<String> numbers;

  @Option(
      names = "--face",
      defaultValue = Face.FRONT,
      paramLabel = "NAME",
      description = "Faces, one card each (default: ${DEFAULT-VALUE}).")
  private List<String> faces;

  @Override
  public Integer call() throws IOException {
    List<CardLabel> cards = new ArrayList<>();
    for (String number : numbers) {
      for (String single : run(number)) {
        faces.forEach(face -> cards.add(new CardLabel(single, face)));
      }
    }
    if (cards.size() > MOST_CARDS) {
      throw wrong("at most " + MOST_CARDS + " cards at a time, not " + cards.size());
    }
    try (OutputStream out = Files.newOutputStream(file)) {
      FieldCards.write(cards, out);
    }
    spec.commandLine()
        .getOut()
        .println(cards.size() + " cards in " + file + ". Print them at full size (100 %).");
    return 0;
  }

  private List<String> run(String text) {
    Matcher range = RANGE.matcher(text);
    if (!range.matches()) {
      return List.of(text);
    }
    int from = Integer.parseInt(range.group(2));
    int to = Integer.parseInt(range.group(3));
    if (to < from || to - from >= MOST_CARDS) {
      throw wrong("not a run of numbers: " + text);
    }
    List<String> numbers = new ArrayList<>();
    for (int n = from; n <= to; n++) {
      numbers.add(range.group(1) + n);
    }
    return numbers;
  }

  private CommandLine.ParameterException wrong(String message) {
    return new CommandLine.ParameterException(spec.commandLine(), message);
  }
}
