package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.person.Detail;
import rakelight.person.Evidence;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.KinAgreement;
import rakelight.person.Statement;
import rakelight.publish.Edition;
import rakelight.publish.ToldFace;

@Command(
    name = "statements",
    description = "Lists what confirmed readings assert: names, dates, ages, kinship, service.")
final class StatementsCommand extends ArchiveCommand {
  @Option(
      names = "--proposed",
      description = "What proposals would assert of faces nobody has confirmed; none of it counts.")
  private boolean proposed;

  @Option(
      names = "--public",
      description = "Leave out what may not be told on a day; needs --as-of.")
  private boolean forPublication;

  @Option(
      names = "--as-of",
      paramLabel = "DAY",
      description = "The day of publication, such as 2026-11-25.")
  private Optional<LocalDate> asOf = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    if (forPublication && (asOf.isEmpty() || proposed)) {
      throw wrong(
          "--public needs the day it is published (--as-of), and is for confirmed readings");
    }
    PrintWriter out = out();
    for (FaceStatements face : faces(archive)) {
      face.statements().forEach(statement -> print(out, face, statement));
      KinAgreement.of(face.statements()).forEach(finding -> print(out, face, finding));
    }
    return 0;
  }

  private List<FaceStatements> faces(Archive archive) {
    if (forPublication) {
      return Edition.of(archive, asOf.orElseThrow()).faces().stream().map(ToldFace::says).toList();
    }
    Evidence evidence = new Evidence(archive);
    return proposed ? evidence.proposed() : evidence.confirmed();
  }

  private void print(PrintWriter out, FaceStatements face, Statement statement) {
    String kind = statement.kind().name().toLowerCase(Locale.ROOT);
    if (!json) {
      out.println(
          place(face)
              + " "
              + statement.firstLine()
              + "  "
              + kind
              + "  "
              + statement.valueInWords()
              + "  “"
              + statement.text()
              + "”"
              + statement.standingInWords("  (", ")"));
      return;
    }
    ObjectNode object =
        object(face)
            .put("person", statement.person())
            .put("line", statement.firstLine())
            .put("lastLine", statement.lastLine())
            .put("kind", kind)
            .put("text", statement.text());
    statement.persons().forEach(person -> object.withArray("persons").add(person));
    if (statement.kind() != Statement.Kind.NAME) {
      object.put("value", statement.value());
    }
    statement.detail().ifPresent(detail -> parts(object, detail));
    object.put("odds", Math.round(statement.odds() * 1000) / 1000.0);
    object.put("standing", statement.supplied().isPresent() ? "supplied" : "read");
    statement.supplied().ifPresent(reason -> object.put("reason", reason));
    statement.signs().forEach(sign -> object.withArray("signs").add(sign.number()));
    JsonLines.print(out, object);
  }

  private static void parts(ObjectNode object, Detail detail) {
    if (detail instanceof Detail.Name name) {
      object.put("given", name.given());
      object.put("surname", name.surname());
      putIfThere(object, "birthSurname", name.birthSurname());
      name.titles().forEach(title -> object.withArray("titles").add(title));
      name.suffixes().forEach(suffix -> object.withArray("suffixes").add(suffix));
    } else if (detail instanceof Detail.Dated dated) {
      dated.weekday().ifPresent(day -> object.put("weekday", day.name().toLowerCase(Locale.ROOT)));
      putIfThere(object, "place", dated.place());
    } else if (detail instanceof Detail.Aged aged) {
      if (aged.worn().maybeRunning()) {
        object.put("orOneYearLess", true);
      }
    } else if (detail instanceof Detail.Kinship kin) {
      object.put("relation", kin.relation());
      kin.names().forEach(name -> object.withArray("of").add(name.replace('|', ' ').strip()));
      kin.persons().forEach(person -> object.withArray("ofPersons").add(person));
    } else if (detail instanceof Detail.Service service) {
      putIfThere(object, "rank", service.rank());
      putIfThere(object, "unit", service.unit());
      putIfThere(object, "war", service.war());
      putIfThere(object, "office", service.office());
    }
  }

  private static void putIfThere(ObjectNode object, String field, String value) {
    if (!value.isEmpty()) {
      object.put(field, value);
    }
  }

  private void print(PrintWriter out, FaceStatements face, KinAgreement.Finding finding) {
    String kind = finding.contradiction() ? "contradiction" : "reckoned";
    if (json) {
      JsonLines.print(
          out,
          object(face)
              .put("person", finding.person())
              .put("kind", kind)
              .put("text", finding.words()));
    } else {
      out.println(place(face) + "  " + kind + "  " + finding.words());
    }
  }

  private static String place(FaceStatements face) {
    return face.marker().number() + " " + face.face().name();
  }

  private static ObjectNode object(FaceStatements face) {
    ObjectNode object =
        JsonLines.object().put("marker", face.marker().number()).put("face", face.face().name());
    Optional<String> reading = face.reading().map(r -> r.id().toString());
    reading.ifPresent(id -> object.put("reading", id));
    face.proposal().ifPresent(p -> object.put("proposal", p.id().toString()));
    return object.put("confirmed", reading.isPresent());
  }
}
