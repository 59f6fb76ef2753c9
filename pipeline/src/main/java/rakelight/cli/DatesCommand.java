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
      "figure must or can't be, and by what. Changes no reading."
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
    }
    if (found == 0 && !json) {
      out().println("No stone contradicts itself or narrows a figure.");
    }
    return 0;
  }

  private void print(FaceStatements face, KinAgreement.Finding finding) {
    PrintWriter out = out();
    boolean confirmed = face.reading().isPresent();
    String called = name(face, finding.person());
    if (json) {
      JsonLines.print(out, object(face, finding, called, confirmed));
      return;
    }
    out.println(
        face.marker().number()
            + " "
            + face.face().name()
            + "  "
            + called
            + (confirmed ? "" : "  (unconfirmed)")
            + "  "
            + (finding.contradiction() ? "CONTRADICTION: " : "")
            + finding.words());
  }

  private static ObjectNode object(
      FaceStatements face, KinAgreement.Finding finding, String called, boolean confirmed) {
    ObjectNode object =
        JsonLines.object()
            .put("marker", face.marker().number())
            .put("face", face.face().name())
            .put("person", finding.person())
            .put("called", called)
            .put("confirmed", confirmed)
            .put("kind", finding.contradiction() ? "contradiction" : "figure");
    finding.figure().ifPresent(figure -> put(object, figure));
    return object.put("text", finding.words());
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
