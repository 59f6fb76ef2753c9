package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.GlossaryEmblem;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;

@Command(
    name = "emblems",
    description = {
      "What is carved beside the letters. Lists what was seen and what it is often said to mean, notes",
      "an emblem of a marker (--see), or shows the glossary (--glossary). An emblem's meaning is a",
      "possibility: it never makes an age, a service or an award."
    })
final class EmblemsCommand extends ArchiveCommand {
  @Parameters(index = "1", arity = "0..1", paramLabel = "NUMBER", description = "The marker.")
  private Optional<String> number = Optional.empty();

  @Option(
      names = "--see",
      paramLabel = "EMBLEM",
      description = "A name of the glossary, or what you see in your own words.")
  private Optional<String> see = Optional.empty();

  @Option(
      names = "--face",
      paramLabel = "NAME",
      description = "The face it is on (default: front).")
  private String face = Face.FRONT;

  @Option(
      names = "--detail",
      paramLabel = "DETAIL=WORDS",
      description = "What you saw closely: --detail slack-hand=left; --glossary lists them.")
  private Map<String, String> details = new LinkedHashMap<>();

  @Option(names = "--remark", paramLabel = "WORDS", description = "Anything worth saying.")
  private String remark = "";

  @Option(names = "--glossary", description = "Every emblem known, its readings and their sources.")
  private boolean glossary;

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name, to note one.")
  private Optional<String> reader = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    MarkerStore markers = new MarkerStore(archive);
    EmblemStore store = new EmblemStore(archive);
    if (glossary) {
      GlossaryEmblem.glossary().forEach(this::print);
      if (!json) {
        new TreeMap<>(EmblemStore.DETAILS)
            .forEach((name, what) -> out().println("detail " + name + ": " + what));
      }
      return 0;
    }
    if (see.isPresent()) {
      if (number.isEmpty() || reader.isEmpty()) {
        throw wrong("Name the marker and give your name (--reader) to note an emblem.");
      }
      Marker marker = markers.named(number.get());
      if (new PhotoStore(archive).face(marker.id(), face).isEmpty()) {
        throw new ArchiveException("Marker " + marker.number() + " has no face " + face + ".");
      }
      store.note(
          marker.id(), face, see.get(), Optional.empty(), details, remark, reader.orElseThrow());
    }
    List<EmblemNote> notes =
        number.map(markers::named).map(one -> store.ofMarker(one.id())).orElseGet(store::all);
    notes.forEach(note -> print(markers, note));
    return 0;
  }

  private void print(GlossaryEmblem emblem) {
    if (json) {
      ObjectNode object =
          JsonLines.object().put("emblem", emblem.name()).put("seen", emblem.seen());
      readings(object, emblem);
      JsonLines.print(out(), object);
    } else {
      out().println(emblem.name() + ": " + emblem.seen());
      out().println("  " + told(emblem));
      out()
          .println(
              "  mistaken for "
                  + emblem.mistakenFor()
                  + "; never proves "
                  + emblem.neverProves()
                  + "; "
                  + emblem.source());
    }
  }

  private static void readings(ObjectNode object, GlossaryEmblem emblem) {
    emblem.readings().forEach(reading -> object.withArray("readings").add(reading));
    object
        .put("strength", emblem.strength().label())
        .put("source", emblem.source())
        .put("mistakenFor", emblem.mistakenFor())
        .put("neverProves", emblem.neverProves());
  }

  private static String told(GlossaryEmblem emblem) {
    return "often said to mean "
        + String.join("; or ", emblem.readings())
        + " ("
        + emblem.strength().label()
        + ")";
  }

  private void print(MarkerStore markers, EmblemNote note) {
    String marker = markers.numberOf(note.marker());
    if (json) {
      ObjectNode object =
          JsonLines.object()
              .put("marker", marker)
              .put("face", note.face())
              .put("emblem", note.name())
              .put("known", note.known());
      note.entry().ifPresent(entry -> readings(object, entry));
      if (!note.details().isEmpty()) {
        ObjectNode seen = object.putObject("details");
        new TreeMap<>(note.details()).forEach(seen::put);
      }
      if (!note.remark().isEmpty()) {
        object.put("remark", note.remark());
      }
      JsonLines.print(
          out(),
          object
              .put("reader", note.reader())
              .put("at", note.at().toString())
              .put("decision", note.decision().toString()));
    } else {
      out()
          .println(
              "marker "
                  + marker
                  + " "
                  + note.face()
                  + "  "
                  + note.name()
                  + note.entry().map(entry -> ": " + told(entry)).orElse(": meaning unknown")
                  + (note.details().isEmpty() ? "" : "  " + new TreeMap<>(note.details()))
                  + (note.remark().isEmpty() ? "" : "  (" + note.remark() + ")")
                  + "  "
                  + note.reader());
    }
  }
}
