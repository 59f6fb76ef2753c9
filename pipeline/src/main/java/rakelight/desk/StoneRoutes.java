package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.Uuid7;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionChanges;
import rakelight.marker.DescriptionFile;
import rakelight.marker.DescriptionStore;
import rakelight.marker.DescriptionWords;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.marker.Term;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.work.Faces;
import rakelight.work.NamedReader;
import rakelight.work.Undoing;

/** What a marker is and what is carved on it: said at the desk, at the stone, or by a table. */
final class StoneRoutes {
  private static final int MOST_CORNERS = 60;
  private static final String LETTERING = "lettering-";
  private static final String DETAIL = "detail-";

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final MarkerPages markerPages;
  private final StonePages stones;
  private final Faces faces;
  private final PhotoStore photographs;
  private final DescriptionStore descriptions;
  private final EmblemStore emblems;
  private final Undoing undoing;

  /** The table that somebody sent last and hasn't taken yet, by his session's token. */
  private final Map<String, Sent> sent = new ConcurrentHashMap<>();

  private record Sent(String name, DescriptionFile table) {}

  StoneRoutes(
      Archive archive,
      Requests requests,
      Pages pages,
      MarkerPages markerPages,
      StonePages stones,
      Faces faces) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.markerPages = markerPages;
    this.stones = stones;
    this.faces = faces;
    this.photographs = new PhotoStore(archive);
    this.descriptions = new DescriptionStore(archive);
    this.emblems = new EmblemStore(archive);
    this.undoing = new Undoing(archive);
  }

  void addTo(Javalin server) {
    server.get("/markers/{marker}/at-the-stone", context -> atStone(context, ""));
    server.post("/markers/{marker}/description", this::describe);
    server.get("/markers/{marker}/emblem", context -> outlining(context, ""));
    server.post("/markers/{marker}/emblem", this::note);
    server.get("/describe", context -> table(context, Optional.empty(), "", ""));
    server.post("/describe", this::check);
    server.post("/describe/take", this::take);
    server.post("/describe/undo", this::takeBack);
  }

  private void atStone(Context context, String message) {
    NamedReader by = requests.by(context);
    Marker marker = requests.marker(context);
    List<ConditionNote> conditions = new ConditionStore(archive).ofMarker(marker.id());
    pages.show(
        context,
        "atstone",
        Map.of(
            "stone",
            markerPages.stone(marker, by),
            "conditions",
            conditions,
            "unsafe",
            ConditionNote.byDay(conditions).stream()
                .findFirst()
                .map(ConditionNote::unsafe)
                .orElse(""),
            "today",
            stones.today(),
            "message",
            message));
  }

  /** Back to where the form stood. */
  private static void back(Context context, Marker marker, Map<String, String> form) {
    boolean atStone = "at-the-stone".equals(form.get("back"));
    context.redirect("/markers/" + marker.id() + (atStone ? "/at-the-stone" : ""));
  }

  private void describe(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    Marker marker = requests.marker(context);
    NamedReader by = requests.by(context);
    try {
      Optional<Described> stands = descriptions.of(marker.id());
      String seen = stands.map(one -> one.decision().toString()).orElse("");
      if (!seen.equals(form.getOrDefault("seen", seen))) {
        throw new ArchiveException(
            stands.map(Described::reader).orElse("Somebody")
                + " has described it meanwhile. Look at what stands, then say what is otherwise.");
      }
      Description now = new DescriptionWords(said(form)).over(Description.NONE);
      descriptions.describe(marker.id(), now, Uuid7.next(), by.name());
      back(context, marker, form);
    } catch (ArchiveException e) {
      context.status(422);
      atStone(context, String.valueOf(e.getMessage()));
    }
  }

  /** The fields of a form as {@link DescriptionWords} has them. */
  private Map<String, String> said(Map<String, String> form) {
    Map<String, String> said = new HashMap<>();
    for (String field : DescriptionWords.FIELDS) {
      said.put(field, Requests.words(form, field));
    }
    said.put(
        "lettering",
        descriptions.terms().of(Term.Quality.LETTERING).stream()
            .map(Term::name)
            .filter(term -> form.containsKey(LETTERING + term))
            .collect(Collectors.joining("; ")));
    List<String> parts = new ArrayList<>();
    for (int i = 0; form.containsKey("part-" + i); i++) {
      String name = Requests.words(form, "part-" + i);
      if (!name.isEmpty()) {
        String lean = Requests.words(form, "lean-" + i);
        parts.add(
            name + ": " + Requests.words(form, "state-" + i) + (lean.isEmpty() ? "" : " " + lean));
      }
    }
    said.put("parts", String.join("; ", parts));
    return said;
  }

  // Emblems

  private void outlining(Context context, String message) {
    NamedReader by = requests.by(context);
    Marker marker = requests.marker(context);
    Photograph shot = shot(marker, Requests.asked(context, "photograph"));
    Face face = shot.face().flatMap(photographs::face).orElseThrow();
    pages.show(
        context,
        "outlining",
        Map.of(
            "marker",
            marker,
            "face",
            face.name(),
            "picture",
            new OutliningPage(
                shot.id().toString(),
                shot.uprightWidthPx(),
                shot.uprightHeightPx(),
                offered(face, shot, by),
                emblems.ofMarker(marker.id()).stream()
                    .flatMap(
                        note ->
                            note
                                .outline()
                                .filter(one -> one.photograph().equals(shot.id()))
                                .map(
                                    one ->
                                        new OutliningPage.Area(
                                            note.name(), StonePages.points(one.corners())))
                                .stream())
                    .toList()),
            "message",
            message));
  }

  /** Areas in which a machine saw carvings that aren't letters. */
  private List<OutliningPage.Area> offered(Face face, Photograph shot, NamedReader by) {
    return faces.look(face, by).proposal().stream()
        .flatMap(proposal -> proposal.views().stream())
        .filter(view -> view.photograph().equals(shot.id()))
        .flatMap(view -> view.emblems().stream())
        .map(
            area ->
                new OutliningPage.Area(
                    "",
                    StonePages.points(
                        area.points().stream()
                            .flatMap(point -> Stream.of(point.x(), point.y()))
                            .toList())))
        .toList();
  }

  private Photograph shot(Marker marker, String id) {
    Photograph shot = requests.photograph(id);
    return Optional.of(shot)
        .filter(one -> one.isShown(Picture::isRead))
        .filter(
            one ->
                one.face()
                    .flatMap(photographs::face)
                    .filter(face -> face.marker().equals(marker.id()))
                    .isPresent())
        .orElseThrow(() -> Refusal.notFound("photograph of this marker"));
  }

  private void note(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    Marker marker = requests.marker(context);
    NamedReader by = requests.by(context);
    Optional<EmblemNote.Outline> outline = outline(marker, form);
    String face = Requests.words(form, "face");
    if (photographs.face(marker.id(), face).isEmpty()) {
      throw Refusal.notFound("face of this marker");
    }
    Map<String, String> details = new LinkedHashMap<>();
    EmblemStore.DETAILS
        .keySet()
        .forEach(
            detail -> {
              String words = Requests.words(form, DETAIL + detail);
              if (!words.isEmpty()) {
                details.put(detail, words);
              }
            });
    try {
      emblems.note(
          marker.id(),
          face,
          Requests.words(form, "name"),
          outline,
          details,
          Requests.words(form, "remark"),
          by.name());
      back(context, marker, form);
    } catch (ArchiveException e) {
      context.status(422);
      atStone(context, String.valueOf(e.getMessage()));
    }
  }

  private Optional<EmblemNote.Outline> outline(Marker marker, Map<String, String> form) {
    String corners = form.getOrDefault("corners", "").strip();
    if (corners.isEmpty()) {
      return Optional.empty();
    }
    Photograph shot = shot(marker, form.getOrDefault("photograph", ""));
    List<Double> places = new ArrayList<>();
    for (String corner : corners.split("\\s+", -1)) {
      Point point = point(corner);
      if (!(point.x() >= 0
          && point.x() <= shot.uprightWidthPx()
          && point.y() >= 0
          && point.y() <= shot.uprightHeightPx())) {
        throw Refusal.malformed("A corner lies beside the photograph.");
      }
      places.add(point.x());
      places.add(point.y());
    }
    if (places.size() < 6 || places.size() > 2 * MOST_CORNERS) {
      throw Refusal.malformed("An outline has 3 to " + MOST_CORNERS + " corners.");
    }
    return Optional.of(new EmblemNote.Outline(shot.id(), places));
  }

  private static Point point(String corner) {
    if (!corner.matches("-?[0-9]{1,6}(\\.[0-9]{1,3})?,-?[0-9]{1,6}(\\.[0-9]{1,3})?")) {
      throw Refusal.malformed("The outline can't be read.");
    }
    String[] sides = corner.split(",", -1);
    return new Point(Double.parseDouble(sides[0]), Double.parseDouble(sides[1]));
  }

  // A table of descriptions

  private void table(
      Context context, Optional<DescriptionChanges> changes, String message, String undo) {
    requests.deciding(context);
    pages.show(
        context,
        "describe",
        Map.of(
            "changes",
            changes,
            "fields",
            DescriptionWords.FIELDS,
            "message",
            message,
            "undo",
            undo));
  }

  /** Says what a table would change, and changes nothing. */
  private void check(Context context) throws IOException {
    SentFile file = SentFile.of(context, requests);
    try {
      DescriptionFile table = file.read(archive, DescriptionFile::read);
      sent.put(requests.session(context).token(), new Sent(file.name(), table));
      table(context, Optional.of(DescriptionChanges.of(archive, table, file.name())), "", "");
    } catch (ArchiveException e) {
      context.status(422);
      table(context, Optional.empty(), String.valueOf(e.getMessage()), "");
    }
  }

  private void take(Context context) {
    requests.decidingForm(context);
    NamedReader by = requests.by(context);
    Sent last = sent.remove(requests.session(context).token());
    if (last == null) {
      context.status(422);
      table(context, Optional.empty(), "The table is no longer here. Send it again.", "");
      return;
    }
    try {
      DescriptionChanges changes = DescriptionChanges.of(archive, last.table(), last.name());
      changes.take(archive, by.name());
      String undo =
          changes.changed().keySet().stream()
              .findFirst()
              .flatMap(marker -> descriptions.of(marker.id()))
              .map(one -> one.decision().toString())
              .orElse("");
      int count = changes.changed().size();
      table(
          context,
          Optional.empty(),
          count + (count == 1 ? " marker is" : " markers are") + " described.",
          undo);
    } catch (ArchiveException e) {
      context.status(422);
      table(context, Optional.empty(), String.valueOf(e.getMessage()), "");
    }
  }

  private void takeBack(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    Decision decision =
        Requests.known(
            form.getOrDefault("decision", ""),
            DecisionId::of,
            id -> archive.journal().find(id).filter(one -> one.kind().equals("marker.described")),
            "decision");
    int count = undoing.undoAct(decision, by).size();
    table(context, Optional.empty(), "Taken back, for " + count + ".", "");
  }
}
