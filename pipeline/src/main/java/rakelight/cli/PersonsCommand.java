package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.ground.PositionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Deaths;
import rakelight.person.Linkage;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.Statement.Kind;
import rakelight.publish.Edition;
import rakelight.publish.Why;

@Command(
    name = "persons",
    description = {
      "Lists who is commemorated, as concluded from confirmed readings, then who may be one person",
      "with whom, with the odds, then days and weeks with many deaths. `person` decides."
    })
final class PersonsCommand extends ArchiveCommand {
  @Option(
      names = "--public",
      description =
          "Only what may be told on a day, and nothing that is only proposed; needs --as-of.")
  private boolean forPublication;

  @Option(
      names = "--as-of",
      paramLabel = "DAY",
      description =
          "The day of publication, by which it is reckoned who may be living, such as 2026-11-25.")
  private Optional<LocalDate> asOf = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  private List<Link> links = List.of();

  @Override
  int run(Archive archive) {
    if (forPublication && asOf.isEmpty()) {
      throw wrong("--public needs the day it is published (--as-of)");
    }
    Optional<Edition> edition = asOf.map(day -> Edition.of(archive, day));
    People people = People.of(archive, new PositionStore(archive).places());
    List<Person> shown = forPublication ? edition.orElseThrow().persons() : people.persons();
    links = forPublication ? edition.orElseThrow().links() : new LinkStore(archive).links();
    MarkerStore markers = new MarkerStore(archive);
    shown.forEach(
        person ->
            print(
                person, edition.map(e -> e.why(person).contains(new Why.MayBeLiving())), markers));
    if (!forPublication) {
      people.proposals(new LinkStore(archive).belongings()).forEach(this::print);
    }
    Deaths.of(shown).forEach(this::print);
    return 0;
  }

  private void print(Person person, Optional<Boolean> living, MarkerStore markers) {
    PrintWriter out = out();
    if (json) {
      JsonLines.print(out, object(person, living, markers));
      return;
    }
    StringBuilder line = new StringBuilder(person.called());
    part(line, "born", person.inWords(Kind.BIRTH));
    part(line, "died", person.inWords(Kind.DEATH));
    part(line, "aged", person.inWords(Kind.AGE));
    person
        .fromForm()
        .ifPresent(
            opinion ->
                line.append("  ")
                    .append(
                        opinion.marker().flatMap(markers::marker).map(Marker::number).orElse(""))
                    .append(": ")
                    .append(opinion.note()));
    List<String> places = new ArrayList<>();
    person
        .mentions()
        .forEach(m -> places.add(m.label() + " " + (m.isKinOnly() ? "as kin" : m.role().label())));
    line.append(places.isEmpty() ? "" : "  [" + String.join("; ", places) + "]");
    for (Link link : linksTo(person)) {
      line.append("  ")
          .append(link.kind().label())
          .append(" at ")
          .append(markers.numberOf(link.from()))
          .append(", confirmed");
    }
    person.died().forEach(opinion -> line.append("  dead by: ").append(opinion.note()));
    living.filter(may -> may).ifPresent(may -> line.append("  MAY BE LIVING"));
    out.println(line);
  }

  private static void part(StringBuilder line, String word, List<String> values) {
    if (!values.isEmpty()) {
      line.append("  ").append(word).append(' ').append(String.join(" or ", values));
    }
  }

  private List<Link> linksTo(Person person) {
    return links.stream()
        .filter(
            link ->
                link.toPerson().isPresent()
                    && person.mentions().stream()
                        .anyMatch(m -> m.id().equals(link.toPerson().get())))
        .toList();
  }

  private ObjectNode object(Person person, Optional<Boolean> living, MarkerStore markers) {
    ObjectNode object =
        JsonLines.object()
            .put("kind", "person")
            .put("id", person.id().toString())
            .put("called", person.called())
            .put("unnamed", person.isUnnamed())
            .put("commemorated", person.isCommemorated());
    person
        .fullest()
        .ifPresent(m -> object.put("given", m.name().given()).put("surname", m.name().surname()));
    for (Kind kind : List.of(Kind.BIRTH, Kind.DEATH, Kind.AGE)) {
      person
          .values(kind)
          .forEach(v -> object.withArray(kind.name().toLowerCase(Locale.ROOT)).add(v));
      if (person.isWorkedOut(kind)) {
        object.withArray("workedOut").add(kind.name().toLowerCase(Locale.ROOT));
      }
    }
    for (Mention mention : person.mentions()) {
      ObjectNode own = object.withArray("mentions").addObject();
      own.put("mention", mention.label())
          .put("marker", mention.source().marker().number())
          .put("face", mention.source().face().name())
          .put("role", mention.isKinOnly() ? "named as kin" : mention.role().label());
      mention.source().reading().ifPresent(r -> own.put("reading", r.id().toString()));
      mention.nameSigns().forEach(sign -> own.withArray("signs").add(sign.number()));
      for (Mention.Kin kin : mention.kin()) {
        own.withArray("kin")
            .addObject()
            .put("relation", kin.relation())
            .put("name", kin.name().replace('|', ' ').strip());
      }
    }
    person
        .fromForm()
        .ifPresent(
            opinion -> {
              opinion
                  .marker()
                  .flatMap(markers::marker)
                  .ifPresent(row -> object.put("marker", row.number()));
              object.put("fromForm", opinion.note()).put("decision", opinion.decision().toString());
            });
    person
        .died()
        .forEach(
            opinion ->
                object
                    .withArray("evidenceOfDeath")
                    .addObject()
                    .put("note", opinion.note())
                    .put("reader", opinion.reader())
                    .put("decision", opinion.decision().toString()));
    for (Link link : linksTo(person)) {
      object
          .withArray("links")
          .addObject()
          .put("marker", markers.numberOf(link.from()))
          .put("kind", link.kind().label())
          .put("reader", link.reader())
          .put("decision", link.decision().toString());
    }
    living.ifPresent(may -> object.put("mayBeLiving", may));
    return object;
  }

  private void print(Linkage.Pair pair) {
    PrintWriter out = out();
    if (json) {
      ObjectNode object =
          JsonLines.object()
              .put("kind", "proposal")
              .put("one", pair.one().label())
              .put("other", pair.other().label())
              .put("probability", pair.probability())
              .put("odds", pair.odds())
              .put("bits", pair.bits());
      pair.reasons().forEach(reason -> object.withArray("reasons").add(reason.words()));
      JsonLines.print(out, object);
    } else {
      out.println(
          "one person?  "
              + pair.one().label()
              + " "
              + pair.one().called()
              + " = "
              + pair.other().label()
              + " "
              + pair.other().called()
              + "  "
              + pair.odds()
              + "  ("
              + String.join("; ", pair.reasons().stream().map(Linkage.Reason::words).toList())
              + ")");
    }
  }

  private void print(Deaths.Cluster cluster) {
    PrintWriter out = out();
    if (json) {
      ObjectNode object =
          JsonLines.object()
              .put("kind", "deaths")
              .put("first", cluster.first().toString())
              .put("last", cluster.last().toString());
      cluster.persons().forEach(p -> object.withArray("persons").add(p.id().toString()));
      JsonLines.print(out, object);
    } else {
      String when =
          cluster.first().equals(cluster.last())
              ? "on " + cluster.first()
              : "from " + cluster.first() + " to " + cluster.last();
      out.println(
          cluster.persons().size()
              + " deaths "
              + when
              + ": "
              + String.join(", ", cluster.persons().stream().map(Person::called).toList()));
    }
  }
}
