package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.person.Evidence;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.KinAgreement;
import rakelight.person.Statement;
import rakelight.person.StoneArithmetic.Figure;

@Command(
    name = "dates",
    description = {
      "Reckons with the dates and ages of each stone: where they contradict each other, what a worn",
      "figure must or can't be, and by what, and when somebody was born by death and age.",
      "Changes no reading."
    })
final class DatesCommand extends ArchiveCommand {
  @Option(
      names = "--confirmed",
      description = "Leave out the faces that only a machine has read, which are marked.")
  private boolean confirmedOnly;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    Evidence evidence = new Evidence(archive);
    List<FaceStatements> faces = new ArrayList<>(evidence.confirmed());
    if (!confirmedOnly) {
      faces.addAll(evidence.proposed());
    }
    int found = 0;
    for (FaceStatements face : faces) {
      for (KinAgreement.Finding finding : KinAgreement.of(face.statements())) {
        found++;
        print(face, finding);
      }
      for (Statement statement : face.statements()) {
        if (statement.isReckoned()) {
          found++;
          print(face, statement);
        }
      }
    }
    if (found == 0 && !json) {
      out().println("No stone contradicts itself, narrows a figure or leaves a value to work out.");
    }
    return 0;
  }

  private void print(FaceStatements face, KinAgreement.Finding finding) {
    if (json) {
      String kind = finding.contradiction() ? "contradiction" : "figure";
      ObjectNode object = object(face, finding.person(), kind);
      finding.figure().ifPresent(figure -> put(object, figure));
      JsonLines.print(out(), object.put("text", finding.words()));
      return;
    }
    print(
        face,
        finding.person(),
        (finding.contradiction() ? "CONTRADICTION: " : "") + finding.words());
  }

  private void print(FaceStatements face, Statement reckoned) {
    String number = reckoned.kind().name().toLowerCase(Locale.ROOT);
    String words = reckoned.valueInWords() + reckoned.standingInWords(" (", ")");
    if (json) {
      JsonLines.print(
          out(),
          object(face, reckoned.person(), "value")
              .put("number", number)
              .put("value", reckoned.value())
              .put("reason", reckoned.supplied().orElse(""))
              .put("odds", Math.round(reckoned.odds() * 1000) / 1000.0)
              .put("text", number + " " + words));
      return;
    }
    print(face, reckoned.person(), number + " " + words);
  }

  private void print(FaceStatements face, int person, String words) {
    PrintWriter out = out();
    out.println(
        face.marker().number()
            + " "
            + face.face().name()
            + "  "
            + name(face, person)
            + (face.reading().isPresent() ? "" : "  (unconfirmed)")
            + "  "
            + words);
  }

  private static ObjectNode object(FaceStatements face, int person, String kind) {
    return JsonLines.object()
        .put("marker", face.marker().number())
        .put("face", face.face().name())
        .put("person", person)
        .put("called", name(face, person))
        .put("confirmed", face.reading().isPresent())
        .put("kind", kind);
  }

  private static void put(ObjectNode object, Figure figure) {
    object
        .put("number", figure.number().name().toLowerCase(Locale.ROOT).replace('_', ' '))
        .put("figure", figure.place() + 1)
        .put("forced", figure.isForced())
        .put("by", figure.by());
    ObjectNode left = object.putObject("posterior");
    figure.posterior().forEach((value, p) -> left.put(Integer.toString(value), p));
    figure.impossible().forEach(value -> object.withArray("impossible").add(value));
  }

  private static String name(FaceStatements face, int person) {
    return face.statements().stream()
        .filter(s -> s.kind() == Statement.Kind.NAME && s.person() == person)
        .map(Statement::valueInWords)
        .filter(name -> !name.isEmpty())
        .findFirst()
        .orElse("(unnamed)");
  }
}
