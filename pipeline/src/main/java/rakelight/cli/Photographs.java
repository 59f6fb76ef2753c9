package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.Frame;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.RefusedFile;
import rakelight.photo.SetAside;
import rakelight.photo.Showing;

@Command(
    name = "photographs",
    description = "Lists the photographs, and the files that ingest refused.")
final class Photographs extends ArchiveCommand {
  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Option(
      names = "--marker",
      paramLabel = "NUMBER",
      description = "Only those on a face of this marker.")
  private Optional<String> ofMarker;

  @Option(
      names = "--unplaced",
      description = {
        "Only those that wait for a face; originals that a copy is tied to are left out."
      })
  private boolean unplaced;

  @Option(names = "--undated", description = "Only those without a time.")
  private boolean undated;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    PhotoStore store = new PhotoStore(archive);
    ZoneId zone = archive.ground().zone();
    Map<MarkerId, Marker> markers = new HashMap<>();
    new MarkerStore(archive).markers().forEach(marker -> markers.put(marker.id(), marker));
    Map<FaceId, Face> faces = new HashMap<>();
    store.faces().forEach(face -> faces.put(face.id(), face));
    Optional<MarkerId> wanted =
        ofMarker.map(number -> new MarkerStore(archive).named(number)).map(Marker::id);
    List<Showing> all = store.showings();
    Set<PhotographId> copied =
        all.stream()
            .flatMap(copy -> copy.photograph().copyOf().stream())
            .collect(Collectors.toSet());
    for (Showing showing : all) {
      Photograph photograph = showing.photograph();
      Optional<Face> face = showing.face().map(faces::get);
      Optional<String> marker = face.map(Face::marker).map(markers::get).map(Marker::number);
      boolean isAskedFor =
          wanted.filter(id -> !face.map(Face::marker).equals(Optional.of(id))).isEmpty()
              && !(unplaced && (!photograph.isWaiting() || copied.contains(photograph.id())))
              && !(undated && photograph.taken().isPresent());
      if (!isAskedFor) {
        continue;
      }
      if (json) {
        ObjectNode object = object(photograph, marker, face, zone);
        showing.frame().ifPresent(frame -> object.set("frame", Json.tree(frame)));
        JsonLines.print(out, object);
      } else {
        String where = showing.frame().map(Frame::inWords).map(words -> "  at " + words).orElse("");
        out.println(line(photograph, marker, face, zone) + where);
      }
    }
    boolean everything = wanted.isEmpty() && !unplaced && !undated;
    List<RefusedFile> refusals = everything ? store.refusals() : List.of();
    for (RefusedFile refusal : refusals) {
      if (json) {
        JsonLines.print(
            out,
            JsonLines.object()
                .put("file", refusal.path())
                .put("refused", refusal.code())
                .put("reason", refusal.reason())
                .put("advice", refusal.advice()));
      } else {
        out.println("refused  " + refusal.line());
      }
    }
    return 0;
  }

  private static ObjectNode object(
      Photograph photograph, Optional<String> marker, Optional<Face> face, ZoneId zone) {
    ObjectNode object =
        JsonLines.object()
            .put("id", photograph.id().toString())
            .put("file", photograph.originalPath())
            .put("sha256", photograph.sha256().hex())
            .put("bytes", photograph.sizeBytes())
            .put("format", photograph.format().label())
            .put("picture", photograph.picture().label())
            .put("width", photograph.widthPx())
            .put("height", photograph.heightPx())
            .put("orientation", photograph.orientation());
    photograph
        .taken()
        .ifPresent(
            taken ->
                object
                    .put("taken", taken.inWords(zone))
                    .put("takenOffsetFrom", taken.offset().isPresent() ? "file" : "ground")
                    .put("takenFrom", taken.source()));
    photograph
        .position()
        .ifPresent(
            position -> {
              object.put("lat", position.latitudeDegrees()).put("lon", position.longitudeDegrees());
              position.accuracyMetres().ifPresent(metres -> object.put("accuracyMetres", metres));
            });
    photograph
        .direction()
        .ifPresent(
            direction -> {
              object.put("direction", direction.degrees());
              direction.reference().ifPresent(north -> object.put("directionNorth", north));
            });
    photograph.camera().ifPresent(camera -> object.put("camera", camera));
    photograph.lens().ifPresent(lens -> object.put("lens", lens));
    photograph.focalLengthMm().ifPresent(mm -> object.put("focalLengthMm", mm));
    photograph.focalLength35mm().ifPresent(mm -> object.put("focalLength35mm", mm));
    photograph.photographer().ifPresent(name -> object.put("photographer", name));
    photograph.credit().ifPresent(credit -> object.put("credit", credit));
    photograph.rights().ifPresent(rights -> object.put("rights", rights));
    photograph.copyOf().ifPresent(original -> object.put("copyOf", original.toString()));
    photograph.damage().ifPresent(damage -> object.put("damage", damage));
    ObjectNode offered = Json.mapper().createObjectNode();
    photograph.offered().photographer().ifPresent(name -> offered.put("photographer", name));
    photograph.offered().rights().ifPresent(rights -> offered.put("rights", rights));
    photograph.offered().note().ifPresent(note -> offered.put("note", note));
    if (!offered.isEmpty()) {
      object.set("offered", offered);
    }
    marker.ifPresent(number -> object.put("marker", number));
    face.ifPresent(side -> object.put("face", side.name()));
    photograph.light().ifPresent(light -> object.set("light", Json.tree(light)));
    photograph.card().ifPresent(card -> object.set("card", Json.tree(card)));
    photograph.setAside().ifPresent(as -> object.put("setAside", as.label()));
    return object;
  }

  private static String line(
      Photograph photograph, Optional<String> marker, Optional<Face> face, ZoneId zone) {
    String where =
        marker
            .map(number -> number + " " + face.map(Face::name).orElse(""))
            .or(() -> photograph.card().map(card -> "card " + card.markerNumber()))
            .or(() -> photograph.setAside().map(SetAside::words))
            .orElse("-");
    return photograph.id()
        + "  "
        + where
        + "  "
        + photograph.taken().map(taken -> taken.inWords(zone)).orElse("no time")
        + "  "
        + photograph.widthPx()
        + "x"
        + photograph.heightPx()
        + "  "
        + photograph.originalPath()
        + photograph.damage().map(damage -> "  damaged: " + damage).orElse("");
  }
}
