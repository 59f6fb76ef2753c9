package rakelight.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.http.Context;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ReadingId;
import rakelight.finding.FoundLine;
import rakelight.inscription.Basis;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.work.Faces;
import rakelight.work.LeftFace;
import rakelight.work.LineDrawing;
import rakelight.work.NamedReader;
import rakelight.work.Queue;
import rakelight.work.Refused;
import rakelight.work.RefusedException;
import rakelight.work.Work;

/** A face before its reader: the reading page, and every step he takes. */
final class FaceRoutes {
  private static final String SIGN = "sign";

  private final Requests requests;
  private final Pages pages;
  private final Faces faces;
  private final LineDrawing drawing;
  private final Queue queue;
  private final PhotoStore photographs;
  private final ConditionStore conditions;

  FaceRoutes(
      Archive archive,
      Requests requests,
      Pages pages,
      Faces faces,
      LineDrawing drawing,
      Queue queue) {
    this.requests = requests;
    this.pages = pages;
    this.faces = faces;
    this.drawing = drawing;
    this.queue = queue;
    this.photographs = new PhotoStore(archive);
    this.conditions = new ConditionStore(archive);
  }

  void addTo(Javalin server) {
    server.get("/faces/{face}", context -> readingPage(context, false));
    server.get("/faces/{face}/at-the-stone", context -> readingPage(context, true));
    server.get(
        "/api/faces/{face}",
        context -> {
          Face face = requests.face(context);
          answer(context, face, faces.open(face, requests.by(context)));
        });
    change(
        server,
        "decide",
        (face, by, body) -> {
          Fields ask = Fields.of(body, Deciding.FIELDS);
          if (Deciding.DRAWN.contains(ask.text("do"))) {
            return drawn(face, by, ask);
          }
          if (Deciding.UNSURE.contains(ask.text("do"))) {
            return judged(face, by, ask);
          }
          return faces.change(face, by, ask.text("version"), Deciding.of(ask));
        });
    change(
        server,
        "undo",
        (face, by, body) -> faces.undo(face, by, Fields.of(body, "version").text("version")));
    change(
        server,
        "redo",
        (face, by, body) -> faces.redo(face, by, Fields.of(body, "version").text("version")));
    change(
        server,
        "reopen",
        (face, by, body) -> {
          Fields.of(body);
          return faces.reopen(face, by);
        });
    change(
        server,
        SIGN,
        (face, by, body) -> {
          Fields ask = Fields.of(body, "version", "basis", "before");
          return faces.sign(face, by, ask.text("version"), basis(ask), before(ask));
        });
    change(
        server,
        "hold",
        (face, by, body) -> {
          Fields.of(body);
          faces.hold(face, by);
          return faces.look(face, by);
        });
    change(
        server,
        "let-go",
        (face, by, body) -> {
          Fields.of(body);
          faces.letGo(face, by);
          return faces.look(face, by);
        });
    server.post("/api/faces/{face}/skip", this::skip);
    server.post("/api/faces/{face}/leave", this::leave);
    server.post("/api/faces/{face}/come-back", this::comeBack);
  }

  private Work drawn(Face face, NamedReader by, Fields ask) {
    String version = ask.text("version");
    int line = ask.number("line");
    FoundLine where = Deciding.drawn(ask);
    return ask.text("do").equals("draw-line")
        ? drawing.draw(face, by, version, line, where)
        : drawing.move(face, by, version, line, ask.optionalNumber("part").orElse(1), where);
  }

  private Work judged(Face face, NamedReader by, Fields ask) {
    String version = ask.text("version");
    int place = ask.number("place");
    return ask.text("do").equals("take-line")
        ? drawing.take(face, by, version, place)
        : drawing.putAway(face, by, version, place);
  }

  /** What a request does with a face; answered with the face as it is afterwards. */
  @FunctionalInterface
  private interface FaceChange {
    Work of(Face face, NamedReader by, String body);
  }

  private void change(Javalin server, String name, FaceChange change) {
    server.post(
        "/api/faces/{face}/" + name,
        context -> {
          String body = requests.changing(context);
          Face face = requests.face(context);
          NamedReader by = requests.by(context);
          try {
            answer(context, face, change.of(face, by, body));
            if (name.equals(SIGN)) {
              requests.session(context).signed().add(face.id());
            }
          } catch (RefusedException e) {
            boolean moved =
                e.refused() instanceof Refused.Changed || e.refused() instanceof Refused.Superseded;
            throw moved
                ? Refusal.of(e.refused()).with("face", json(face, faces.look(face, by)))
                : e;
          }
        });
  }

  private void readingPage(Context context, boolean atStone) {
    NamedReader by = requests.by(context);
    Face face = requests.face(context);
    Marker marker = requests.markerOf(face);
    Work work = faces.look(face, by);
    String unsafe = conditions.newest(marker.id()).map(ConditionNote::unsafe).orElse("");
    pages.show(
        context,
        "reading",
        Map.of(
            "face", face,
            "marker", marker,
            "atStone", atStone,
            "unsafe", unsafe,
            "text", FaceViews.text(work)));
  }

  private void skip(Context context) {
    Fields.of(requests.changing(context));
    Face face = requests.face(context);
    NamedReader by = requests.by(context);
    requests.session(context).skipped().add(face.id());
    faces.letGo(face, by);
    Pages.json(context, Pages.object());
  }

  private void leave(Context context) {
    Fields ask = Fields.of(requests.changing(context), "for", "note");
    Face face = requests.face(context);
    NamedReader by = requests.deciding(context);
    LeftFace.Why why =
        switch (ask.text("for")) {
          case "another-reader" -> LeftFace.Why.ANOTHER_READER;
          case "other-light" -> LeftFace.Why.OTHER_LIGHT;
          default -> throw Refusal.malformed("“for” is another-reader or other-light.");
        };
    faces.leave(face, by, why, ask.optionalText("note").orElse("").strip());
    Pages.json(context, Pages.object());
  }

  private void comeBack(Context context) {
    Fields.of(requests.changing(context));
    Face face = requests.face(context);
    NamedReader by = requests.deciding(context);
    requests.session(context).skipped().remove(face.id());
    faces.comeBack(face, by);
    Pages.json(context, Pages.object());
  }

  private static Basis basis(Fields ask) {
    Fields given = ask.object("basis", "kind", "date", "light", "witness");
    Basis.Kind kind =
        Basis.Kind.of(given.text("kind"))
            .orElseThrow(() -> Refusal.malformed("“kind” is photographs, stone or earlier."));
    try {
      return new Basis(
          kind,
          given.optionalText("date").map(LocalDate::parse),
          given.optionalText("light"),
          given.optionalText("witness"));
    } catch (DateTimeException e) {
      throw Refusal.malformed("“date” must be a day such as 2025-04-30.");
    } catch (IllegalArgumentException e) {
      throw Refusal.refused(
          kind == Basis.Kind.EARLIER
              ? "Name the earlier witness: a list, a rubbing, a register."
              : "A witness goes with the basis “earlier” only.");
    }
  }

  private static Optional<ReadingId> before(Fields ask) {
    try {
      return ask.optionalText("before").map(ReadingId::of);
    } catch (IllegalArgumentException e) {
      throw Refusal.malformed("“before” must be the id of a reading.");
    }
  }

  private void answer(Context context, Face face, Work work) {
    Pages.json(context, json(face, work));
  }

  private ObjectNode json(Face face, Work work) {
    return FaceJson.of(
        work,
        requests.markerOf(face),
        queue.state(face),
        photographs.ofFace(face.id()),
        faces.lease(work),
        faces.canRedo(work));
  }
}
