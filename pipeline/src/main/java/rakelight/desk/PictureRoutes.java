package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import rakelight.archive.ProposalId;
import rakelight.photo.Face;
import rakelight.reading.Proposal;
import rakelight.work.Faces;

/** Pictures of photographs and of what was made from them. */
final class PictureRoutes {
  private final Requests requests;
  private final Faces faces;
  private final Pictures pictures;

  PictureRoutes(Requests requests, Faces faces, Pictures pictures) {
    this.requests = requests;
    this.faces = faces;
    this.pictures = pictures;
  }

  void addTo(Javalin server) {
    server.get("/images/photographs/{photograph}", this::photograph);
    server.get("/images/faces/{face}/{proposal}/reliefs/{name}", this::relief);
    server.get("/images/faces/{face}/{proposal}/strips/{line}/{name}", this::strip);
  }

  private void relief(Context context) throws IOException {
    send(context, pictures.relief(proposal(context), context.pathParam("name")), "png");
  }

  private void strip(Context context) throws IOException {
    String line = context.pathParam("line");
    if (!line.matches("[0-9]{1,4}")) {
      throw Refusal.notFound("picture");
    }
    Proposal proposal = proposal(context);
    send(
        context,
        pictures.strip(proposal, Integer.parseInt(line), context.pathParam("name")),
        "jpeg");
  }

  private void photograph(Context context) throws IOException {
    requests.by(context);
    String longest = Optional.ofNullable(context.queryParam("longest")).orElse("1600");
    if (!longest.matches("[0-9]{1,5}")
        || !Pictures.LONGEST_PX.contains(Integer.parseInt(longest))) {
      throw Refusal.malformed("“longest” is 240, 800, 1600 or 3200.");
    }
    send(
        context,
        pictures.photograph(
            requests.photograph(context.pathParam("photograph")), Integer.parseInt(longest)),
        "jpeg");
  }

  private Proposal proposal(Context context) {
    requests.by(context);
    Face face = requests.face(context);
    return Requests.known(
        context.pathParam("proposal"),
        ProposalId::of,
        id -> faces.proposal(face.id(), id),
        "picture");
  }

  /**
   * A derived picture; what an address shows never changes. A browser may keep it for the session
   * that asked, and another's cookie asks anew.
   */
  private static void send(Context context, Path picture, String type) throws IOException {
    context
        .header("Cache-Control", "private, max-age=86400")
        .header("Vary", "Cookie")
        .contentType("image/" + type)
        .result(Files.newInputStream(picture));
  }
}
