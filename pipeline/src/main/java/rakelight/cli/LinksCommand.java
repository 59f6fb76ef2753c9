package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.ground.Families;
import rakelight.ground.FootstoneFinding;
import rakelight.ground.FootstoneFinding.Reason;
import rakelight.ground.Link;
import rakelight.ground.LinkProposals;
import rakelight.ground.LinkProposals.Proposed;
import rakelight.ground.LinkStore;
import rakelight.marker.Caution;
import rakelight.marker.MarkerStore;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.Person;

@Command(
    name = "links",
    description = {
      "Lists the links that people confirmed or refused, and those that are proposed: whose each"
          + " footstone is, how likely, and why.",
      "--confirm or --refuse says so under your name; what is said changes the other proposals at"
          + " once."
    })
final class LinksCommand extends ArchiveCommand {
  /** How a link stands. */
  private enum Shown {
    CONFIRMED,
    PROPOSED,
    REFUSED;

    String label() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  @Option(
      names = "--standing",
      paramLabel = "STANDING",
      description = "Only these: confirmed, proposed or refused.")
  private Optional<String> standing = Optional.empty();

  @Option(
      names = "--why",
      description = "What speaks for and against each proposal, weighed in decibans.")
  private boolean why;

  @Option(
      names = "--confirm",
      paramLabel = "MARKER",
      description = "Confirms what is proposed of this footstone.")
  private Optional<String> confirm = Optional.empty();

  @Option(
      names = "--refuse",
      paramLabel = "MARKER",
      description = "Says that this footstone isn't the person's whom --to names.")
  private Optional<String> refuse = Optional.empty();

  @Option(
      names = "--to",
      paramLabel = "PERSON",
      description = "Where the person is named, such as 15:E:1; with --refuse.")
  private Optional<String> to = Optional.empty();

  @Option(names = "--note", paramLabel = "WORDS", description = "What speaks for it.")
  private String note = "";

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name.")
  private Optional<String> reader = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    if (confirm.isPresent() && refuse.isPresent()) {
      throw wrong("Either --confirm or --refuse");
    }
    MarkerStore markers = new MarkerStore(archive);
    if (confirm.isPresent()) {
      print(LinkProposals.confirm(archive, confirm.get(), note, name()), markers);
      return 0;
    }
    if (refuse.isPresent()) {
      String person = to.orElseThrow(() -> wrong("Whose isn't it? (--to PERSON, such as 15:E:1)"));
      print(archive, new LinkStore(archive).refuse(refuse.get(), person, note, name()));
      return 0;
    }
    Optional<Shown> only =
        standing.map(
            word ->
                List.of(Shown.values()).stream()
                    .filter(shown -> shown.label().equals(word))
                    .findFirst()
                    .orElseThrow(() -> wrong("--standing is confirmed, proposed or refused")));
    if (only.isEmpty() || only.get() == Shown.CONFIRMED) {
      new LinkStore(archive).links().forEach(link -> print(link, markers));
    }
    if (only.isEmpty() || only.get() == Shown.PROPOSED) {
      List<Proposed> proposed = LinkProposals.of(Families.of(archive));
      proposed.forEach(this::print);
      if (!json && proposed.stream().anyMatch(one -> one.finding().look().isPresent())) {
        out().println(Caution.LOOK_ONLY);
      }
    }
    if (only.isEmpty() || only.get() == Shown.REFUSED) {
      new LinkStore(archive).refusals().forEach(refusal -> print(archive, refusal));
    }
    return 0;
  }

  private String name() {
    return reader.orElseThrow(() -> wrong("Under whose name? (--reader NAME)"));
  }

  private void print(Link link, MarkerStore markers) {
    PrintWriter out = out();
    String from = markers.numberOf(link.from());
    Optional<String> marker = link.toMarker().map(markers::numberOf);
    if (json) {
      ObjectNode object = object(from, link.kind().label(), Shown.CONFIRMED);
      marker.ifPresent(number -> object.put("to", number));
      link.toWords().ifPresent(words -> object.put("toPerson", words));
      object
          .put("note", link.note())
          .put("reader", link.reader())
          .put("at", link.at().toString())
          .put("decision", link.decision().toString());
      JsonLines.print(out, object);
      return;
    }
    out.println(
        from
            + "  "
            + link.kind().label()
            + " "
            + marker.or(link::toWords).orElse("")
            + (link.note().isEmpty() ? "" : "  (" + link.note() + ")")
            + "  "
            + link.reader()
            + "  "
            + link.decision());
  }

  private static ObjectNode object(String from, String type, Shown standing) {
    return JsonLines.object().put("type", type).put("from", from).put("standing", standing.label());
  }

  private void print(Proposed proposed) {
    FootstoneFinding finding = proposed.finding();
    if (json) {
      JsonLines.print(out(), object(proposed));
      return;
    }
    StringBuilder line = new StringBuilder(proposed.footstone().number());
    line.append("  ")
        .append(
            proposed.person().map(person -> "buried here " + who(person)).orElse("of nobody named"))
        .append(", proposed ")
        .append(share(proposed.probability()))
        .append("; else ")
        .append(proposed.runnerUp().map(LinksCommand::who).orElse("nobody named"))
        .append(' ')
        .append(share(proposed.runnerUpProbability()));
    if (finding.wornAlone() && proposed.person().isPresent()) {
      line.append("  worn letters alone: a reason to look, no more");
    }
    out().println(line);
    if (why) {
      for (Reason reason : finding.reasons()) {
        out().println("    " + reason.told());
      }
    }
    finding
        .look()
        .ifPresent(
            look ->
                out()
                    .println(
                        String.format(
                            Locale.ROOT,
                            "    would tell: %s (%.1f bits)",
                            look.words(),
                            look.bits())));
  }

  private static String who(Person person) {
    return LinkProposals.label(person).orElse("") + " " + person.called();
  }

  /** Nothing that is reckoned is certain, nor ruled out. */
  private static String share(double probability) {
    return probability >= 0.995
        ? "over 0.99"
        : probability < 0.005 ? "under 0.01" : String.format(Locale.ROOT, "%.2f", probability);
  }

  private static ObjectNode object(Proposed proposed) {
    FootstoneFinding finding = proposed.finding();
    ObjectNode object =
        object(proposed.footstone().number(), Link.Kind.BURIED_HERE.label(), Shown.PROPOSED);
    proposed.to().ifPresent(label -> object.put("to", label));
    proposed.person().ifPresent(person -> object.put("toPerson", person.called()));
    object.put("probability", proposed.probability());
    ObjectNode next = object.putObject("runnerUp");
    proposed.runnerUp().flatMap(LinkProposals::label).ifPresent(label -> next.put("to", label));
    proposed.runnerUp().ifPresent(person -> next.put("toPerson", person.called()));
    next.put("probability", proposed.runnerUpProbability());
    for (Reason reason : finding.reasons()) {
      object
          .withArray("evidence")
          .addObject()
          .put("of", reason.sort().label())
          .put("words", reason.words())
          .put("decibans", reason.decibans());
    }
    finding
        .look()
        .ifPresent(
            look -> object.putObject("look").put("words", look.words()).put("bits", look.bits()));
    return object
        .put("wornAlone", finding.wornAlone())
        .put("exact", proposed.exact())
        .put("family", proposed.family().name());
  }

  private void print(Archive archive, LinkStore.Refusal refusal) {
    String from = new MarkerStore(archive).numberOf(refusal.from());
    Optional<String> label =
        People.of(archive).mentions().stream()
            .filter(mention -> mention.id().equals(refusal.toPerson()))
            .map(Mention::label)
            .findFirst();
    if (json) {
      ObjectNode object = object(from, Link.Kind.BURIED_HERE.label(), Shown.REFUSED);
      label.ifPresent(words -> object.put("to", words));
      JsonLines.print(
          out(),
          object
              .put("toPerson", refusal.toWords())
              .put("note", refusal.note())
              .put("reader", refusal.reader())
              .put("at", refusal.at().toString())
              .put("decision", refusal.decision().toString()));
      return;
    }
    out()
        .println(
            from
                + "  not of "
                + label.map(words -> words + " ").orElse("")
                + refusal.toWords()
                + ", refused"
                + (refusal.note().isEmpty() ? "" : "  (" + refusal.note() + ")")
                + "  "
                + refusal.reader()
                + "  "
                + refusal.decision());
  }
}
