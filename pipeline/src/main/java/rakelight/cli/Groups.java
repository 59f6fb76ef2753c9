package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.ProposedGroups;
import rakelight.survey.Offer;
import rakelight.survey.OfferedGroup;
import rakelight.survey.Offers;
import rakelight.survey.StoneLikeness;

@Command(
    name = "groups",
    description =
        "Proposes which photographs may show one face, and which marker's; `assign` decides.")
final class Groups extends ArchiveCommand {
  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    PhotoStore photos = new PhotoStore(archive);
    MarkerStore markers = new MarkerStore(archive);
    List<Photograph> all = photos.photographs();
    List<List<Photograph>> groups = ProposedGroups.of(all, archive.ground().zone());
    if (groups.isEmpty()) {
      return 0;
    }
    Offers offers = new Offers(archive, all, looked(archive));
    int number = 0;
    for (List<Photograph> group : groups) {
      OfferedGroup offered = OfferedGroup.of(group, offers);
      number++;
      if (json) {
        ObjectNode object = JsonLines.object().put("group", number);
        ArrayNode photographs = object.putArray("photographs");
        group.forEach(photograph -> photographs.add(photograph.id().toString()));
        ArrayNode listed = object.putArray("offers");
        for (Offer offer : offered.offers()) {
          Face face = photos.face(offer.face()).orElseThrow();
          ObjectNode one =
              listed
                  .addObject()
                  .put("marker", markers.numberOf(face.marker()))
                  .put("face", face.name())
                  .put("beside", offer.beside().id().toString())
                  .put("places", offer.places());
          offer.letters().ifPresent(share -> one.put("letters", share));
          offer.secondsApart().ifPresent(seconds -> one.put("secondsApart", seconds));
          one.put("sure", offer.sure());
        }
        JsonLines.print(out, object);
      } else {
        out.println("Group " + number + ", " + Counted.of(group.size(), "photograph") + ":");
        group.forEach(
            photograph -> out.println("  " + photograph.id() + "  " + photograph.originalPath()));
        for (Offer offer : offered.offers()) {
          Face face = photos.face(offer.face()).orElseThrow();
          out.printf(
              "  %s marker %s, %s: %s (beside %s)%n",
              offer.sure() ? "most likely" : "perhaps",
              markers.numberOf(face.marker()),
              face.name(),
              offer.why(),
              offer.beside().originalName());
        }
      }
    }
    return 0;
  }

  private StoneLikeness looked(Archive archive) {
    StoneLikeness likeness = new StoneLikeness(archive);
    Progress progress = Progress.on(err(), "photographs looked at");
    likeness.look(
        Runtime.getRuntime().availableProcessors(),
        (done, of) -> {
          if (done == 1) {
            progress.start(of, 0);
          }
          progress.step(0);
        });
    progress.clear();
    return likeness;
  }
}
