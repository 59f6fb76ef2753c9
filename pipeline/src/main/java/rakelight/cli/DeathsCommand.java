package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.marker.Caution;
import rakelight.marker.Marker;
import rakelight.person.DeathCircumstance;
import rakelight.person.Deaths;
import rakelight.person.Person;
import rakelight.publish.DyingTimes;
import rakelight.publish.Edition;

@Command(
    name = "deaths",
    description = {
      "Weeks and months with more deaths than the ground's own rate makes likely, with what stones,",
      "sources and questions say of them. That deaths come together isn't a cause."
    })
final class DeathsCommand extends ArchiveCommand {
  @Option(
      names = "--as-of",
      required = true,
      paramLabel = "DAY",
      description = "The day by which it is reckoned what may be told, such as 2026-11-25.")
  private LocalDate asOf;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    List<DyingTimes.DyingTime> times = Edition.of(archive, asOf).dyingTimes();
    times.forEach(this::print);
    if (!json) {
      PrintWriter out = out();
      if (times.isEmpty()) {
        out.println("No week or month stands out from the ground's own rate.");
      } else {
        out.println(DyingTimes.NO_CAUSE);
        out.println(Caution.LOOK_ONLY);
      }
    }
    return 0;
  }

  private void print(DyingTimes.DyingTime time) {
    PrintWriter out = out();
    Deaths.Cluster cluster = time.cluster();
    if (json) {
      JsonLines.print(out, object(time));
      return;
    }
    out.println(time.called() + ". " + time.odds());
    time.circumstances().forEach(one -> out.println("    " + one.told()));
    for (Person person : cluster.persons()) {
      out.println("  " + DyingTimes.line(person) + "  marker " + markers(person));
    }
    cluster
        .about()
        .forEach(
            person ->
                out.println(
                    "  perhaps "
                        + DyingTimes.line(person)
                        + ", day not known  marker "
                        + markers(person)));
  }

  private static String markers(Person person) {
    return person.markers().stream().map(Marker::number).collect(Collectors.joining(", "));
  }

  private static ObjectNode object(DyingTimes.DyingTime time) {
    Deaths.Cluster cluster = time.cluster();
    ObjectNode object =
        JsonLines.object()
            .put("first", cluster.first().toString())
            .put("last", cluster.last().toString())
            .put("days", cluster.days())
            .put("count", cluster.count())
            .put("expected", Math.round(cluster.expected() * 1e4) / 1e4)
            .put("probability", cluster.probability());
    cluster.persons().forEach(person -> person(object.withArray("persons").addObject(), person));
    cluster.about().forEach(person -> person(object.withArray("about").addObject(), person));
    for (DeathCircumstance one : time.circumstances()) {
      ObjectNode said =
          object
              .withArray("said")
              .addObject()
              .put("sort", one.sort().label())
              .put("words", one.words());
      one.persons().forEach(person -> said.withArray("of").add(person.id().toString()));
      one.from().forEach(said.withArray("from")::add);
    }
    return object;
  }

  private static void person(ObjectNode object, Person person) {
    object.put("id", person.id().toString()).put("name", person.called());
    person.markers().forEach(marker -> object.withArray("markers").add(marker.number()));
  }
}
