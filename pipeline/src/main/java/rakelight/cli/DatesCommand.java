package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.person.DateFinding;
import rakelight.person.Evidence;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Statement;
import rakelight.person.StoneArithmetic.Figure;

@Command(
    name = "dates",
    description = {
      "Reckons with the dates and ages of each stone: where they contradict each other, what a"
          + " worn",
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
      for (DateFinding finding : DateFinding.of(face)) {
        found++;
        print(finding);
      }
    }
    if (found == 0 && !json) {
      out().println("No stone contradicts itself, narrows a figure or leaves a value to work out.");
    }
    return 0;
  }

  private void print(DateFinding finding) {
    FaceStatements face = finding.face();
    if (json) {
      ObjectNode object =
          JsonLines.object()
              .put("marker", face.marker().number())
              .put("face", face.face().name())
              .put("person", finding.person())
              .put("called", finding.called())
              .put("confirmed", face.reading().isPresent())
              .put("kind", finding.sort().label());
      finding.figure().ifPresent(figure -> put(object, figure));
      finding.reckoned().ifPresent(reckoned -> put(object, reckoned));
      JsonLines.print(out(), object.put("text", finding.words()));
      return;
    }
    out()
        .println(
            face.marker().number()
                + " "
                + face.face().name()
                + "  "
                + finding.called()
                + (face.reading().isPresent() ? "" : "  (unconfirmed)")
                + "  "
                + (finding.sort() == DateFinding.Sort.CONTRADICTION ? "CONTRADICTION: " : "")
                + finding.words());
  }

  private static void put(ObjectNode object, Statement reckoned) {
    object
        .put("number", reckoned.kind().name().toLowerCase(Locale.ROOT))
        .put("value", reckoned.value())
        .put("reason", reckoned.supplied().orElse(""))
        .put("odds", Math.round(reckoned.odds() * 1000) / 1000.0);
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
}
