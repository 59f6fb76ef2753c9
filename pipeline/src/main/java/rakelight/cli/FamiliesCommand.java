package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.DecisionId;
import rakelight.ground.Families;
import rakelight.ground.FamilyGroup;
import rakelight.ground.FamilyStore;
import rakelight.ground.FootstoneFinding;
import rakelight.ground.LinkProposals;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Person;
import rakelight.person.Statement.Kind;

@Command(
    name = "families",
    description = {
      "Lists families by what stones say and how they stand: stones, footstones, persons, who is whose"
          + " wife, child or parent. They are proposed; joining, splitting and naming them is up to"
          + " people.",
    })
final class FamiliesCommand extends ArchiveCommand {
  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "MARKER",
      description = "Only the family of this marker.")
  private Optional<String> number;

  @Option(names = "--join", paramLabel = "MARKER", description = "Is of one family with MARKER.")
  private Optional<String> join = Optional.empty();

  @Option(
      names = "--split",
      paramLabel = "MARKER",
      description = "Isn't of one family with MARKER.")
  private Optional<String> split = Optional.empty();

  @Option(names = "--name", paramLabel = "WORDS", description = "What MARKER's family is called.")
  private Optional<String> name = Optional.empty();

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name.")
  private Optional<String> reader = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    if (join.isPresent() || split.isPresent() || name.isPresent()) {
      say(new FamilyStore(archive));
      if (!json) {
        return 0;
      }
    }
    Optional<Marker> of = number.map(new MarkerStore(archive)::named);
    for (FamilyGroup family : Families.of(archive)) {
      if (of.isEmpty() || family.holds(of.get())) {
        if (json) {
          JsonLines.print(out(), object(family));
        } else {
          print(family);
        }
      }
    }
    return 0;
  }

  private void say(FamilyStore store) {
    String marker = number.orElseThrow(() -> wrong("Which MARKER's family?"));
    String by = reader.orElseThrow(() -> wrong("Under whose name? (--reader NAME)"));
    join.ifPresent(
        other -> said(marker + " and " + other + ": one family", store.join(marker, other, by)));
    split.ifPresent(
        other -> said(marker + " and " + other + ": two families", store.part(marker, other, by)));
    name.ifPresent(
        words -> said("The family of " + marker + ": " + words, store.call(marker, words, by)));
  }

  private void said(String words, DecisionId decision) {
    if (!json) {
      out().println(words + "  (" + decision + ")");
    }
  }

  private void print(FamilyGroup family) {
    out()
        .println(
            family.name()
                + (family.isNamed() ? "" : " (proposed)")
                + "  stones "
                + numbers(family.stones())
                + (family.footstones().isEmpty()
                    ? ""
                    : "  footstones " + numbers(family.footstones())));
    for (int p = 0; p < family.persons().size(); p++) {
      Person person = family.persons().get(p);
      StringBuilder line = new StringBuilder("  ").append(person.called());
      String born = String.join(" or ", person.inWords(Kind.BIRTH));
      String died = String.join(" or ", person.inWords(Kind.DEATH));
      line.append(born.isEmpty() ? "" : "  born " + born)
          .append(died.isEmpty() ? "" : "  died " + died)
          .append("  [")
          .append(LinkProposals.label(person).orElse(""))
          .append(']');
      footstone(family, p)
          .ifPresent(
              finding ->
                  line.append(
                      String.format(
                          Locale.ROOT,
                          "  footstone %s %.2f",
                          family.footstones().get(finding.stone()).number(),
                          finding.probability())));
      out().println(line);
    }
    for (FamilyGroup.Tie tie : family.ties()) {
      out()
          .println(
              "  "
                  + tie.who().called()
                  + ": "
                  + tie.relation()
                  + " of "
                  + tie.to().map(Person::called).orElse(tie.name().replace('|', ' ').strip())
                  + "  [“"
                  + tie.words()
                  + "”, "
                  + tie.mention().label()
                  + "]");
    }
    family.reasons().forEach(reason -> out().println("  one family: " + reason));
  }

  private static Optional<FootstoneFinding> footstone(FamilyGroup family, int person) {
    return family.answer().stream()
        .flatMap(answer -> answer.findings().stream())
        .filter(finding -> finding.best().filter(best -> best == person).isPresent())
        .findFirst();
  }

  private static String numbers(List<Marker> markers) {
    return String.join(", ", markers.stream().map(Marker::number).toList());
  }

  private static ObjectNode object(FamilyGroup family) {
    ObjectNode object =
        JsonLines.object().put("name", family.name()).put("named", family.isNamed());
    ArrayNode stones = object.putArray("stones");
    family.stones().forEach(marker -> stones.add(marker.number()));
    ArrayNode footstones = object.putArray("footstones");
    family.footstones().forEach(marker -> footstones.add(marker.number()));
    ArrayNode persons = object.putArray("persons");
    for (int p = 0; p < family.persons().size(); p++) {
      Person person = family.persons().get(p);
      ObjectNode each =
          persons
              .addObject()
              .put("id", person.id().toString())
              .put("person", LinkProposals.label(person).orElse(""))
              .put("called", person.called());
      person.values(Kind.BIRTH).forEach(each.withArray("birth")::add);
      person.values(Kind.DEATH).forEach(each.withArray("death")::add);
      footstone(family, p)
          .ifPresent(
              finding ->
                  each.put("footstone", family.footstones().get(finding.stone()).number())
                      .put("probability", finding.probability()));
    }
    ArrayNode ties = object.putArray("ties");
    for (FamilyGroup.Tie tie : family.ties()) {
      ObjectNode each =
          ties.addObject()
              .put("who", tie.who().id().toString())
              .put("relation", tie.relation())
              .put("of", tie.name().replace('|', ' ').strip());
      tie.to().ifPresent(person -> each.put("to", person.id().toString()));
      each.put("words", tie.words()).put("mention", tie.mention().label());
      ArrayNode signs = each.putArray("signs");
      tie.signs().forEach(sign -> signs.add(sign.number()));
    }
    ArrayNode why = object.putArray("why");
    family.reasons().forEach(why::add);
    family
        .answer()
        .ifPresent(
            answer -> {
              object
                  .put("row", answer.row())
                  .put("exact", answer.isExact())
                  .put("samplingError", answer.samplingError());
            });
    return object;
  }
}
