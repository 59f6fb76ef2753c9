package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.ReadingId;
import rakelight.marker.Condition;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Correction.What;
import rakelight.person.QuestionStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.work.Corrections;
import rakelight.work.NamedReader;
import rakelight.work.RefusedException;
import rakelight.work.Undoing;

/** A marker's page, what can be corrected there, and its sheet for the stone. */
final class MarkerRoutes {
  private static final int LONGEST_NAME = 100;
  private static final int LONGEST_QUESTION = 1000;

  /** Before the part's name, in the names of fields. */
  private static final String PART = "part ";

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final MarkerPages markerPages;
  private final Sheets sheets;
  private final PhotoStore photographs;
  private final MarkerStore markers;
  private final ConditionStore conditions;
  private final Corrections corrections;
  private final Undoing undoing;

  MarkerRoutes(
      Archive archive, Requests requests, Pages pages, MarkerPages markerPages, Sheets sheets) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.markerPages = markerPages;
    this.sheets = sheets;
    this.photographs = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
    this.conditions = new ConditionStore(archive);
    this.undoing = new Undoing(archive);
    this.corrections = new Corrections(archive);
  }

  void addTo(Javalin server) {
    server.get("/markers/{marker}", context -> markerPage(context, ""));
    server.post("/markers/{marker}/number", this::renumber);
    server.post("/markers/{marker}/condition", this::noteCondition);
    server.post("/markers/{marker}/words", this::sayOfWords);
    server.post("/markers/{marker}/told", this::sayOfTold);
    server.post("/markers/{marker}/question", this::raiseQuestion);
    server.post("/markers/{marker}/photograph", this::movePhotograph);
    server.post("/markers/{marker}/undo", this::undo);
    server.get("/markers/{marker}/sheet.pdf", this::sheet);
  }

  private void markerPage(Context context, String message) {
    NamedReader by = requests.by(context);
    Marker marker = requests.marker(context);
    if (!marker.id().toString().equals(context.pathParam("marker"))) {
      context.redirect("/markers/" + marker.id());
      return;
    }
    pages.show(context, "marker", Map.of("marker", markerPages.of(marker, by), "message", message));
  }

  private void renumber(Context context) {
    Map<String, String> form = requests.archivistsForm(context);
    Marker marker = requests.marker(context);
    String number = form.getOrDefault("number", "").strip();
    if (number.isEmpty() || number.length() > LONGEST_NAME) {
      throw Refusal.malformed("Give the marker's number.");
    }
    correct(
        context, marker, () -> markers.renumber(marker.id(), number, requests.by(context).name()));
  }

  private void noteCondition(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    Marker marker = requests.marker(context);
    LocalDate on;
    try {
      on = LocalDate.parse(form.getOrDefault("on", ""));
    } catch (DateTimeParseException e) {
      throw Refusal.malformed("Give the day it was seen, such as 2025-04-30.");
    }
    List<Condition> words =
        Arrays.stream(Condition.values()).filter(word -> form.containsKey(word.name())).toList();
    correct(
        context,
        marker,
        () ->
            conditions.note(
                marker.id(),
                on,
                words,
                where(form),
                form.getOrDefault("remark", ""),
                requests.by(context).name()));
  }

  private static ConditionNote.Where where(Map<String, String> form) {
    return new ConditionNote.Where(
        form.keySet().stream()
            .filter(field -> field.startsWith(PART))
            .map(field -> field.substring(PART.length()))
            .sorted()
            .toList(),
        Arrays.stream(ConditionNote.Area.values())
            .filter(area -> form.containsKey(area.name()))
            .toList(),
        Optional.of(Requests.words(form, "happened")).filter(when -> !when.isEmpty()));
  }

  /** Words of a face are a name, verse, or no verse. */
  private void sayOfWords(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    Marker marker = requests.marker(context);
    NamedReader by = requests.by(context);
    FaceId face = face(marker, form);
    ReadingId seen = reading(form);
    int first = number(form, "first");
    int last = number(form, "last");
    String what = form.getOrDefault("what", "");
    say(
        context,
        marker,
        () -> {
          switch (what) {
            case "name" -> corrections.name(face, seen, first, last, number(form, "surname"), by);
            case "verse" -> corrections.words(face, seen, What.VERSE, first, last, by);
            case "not-verse" -> corrections.words(face, seen, What.NOT_VERSE, first, last, by);
            default -> throw Refusal.malformed("Say what the words are.");
          }
        });
  }

  /** What is told isn't so, or is told of somebody else. */
  private void sayOfTold(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    Marker marker = requests.marker(context);
    NamedReader by = requests.by(context);
    FaceId face = face(marker, form);
    ReadingId seen = reading(form);
    int which = number(form, "which");
    String of = form.getOrDefault("of", "");
    say(
        context,
        marker,
        () -> {
          if (of.equals("nobody")) {
            corrections.notSo(face, seen, which, by);
          } else {
            corrections.belongs(face, seen, which, number(form, "of"), by);
          }
        });
  }

  private FaceId face(Marker marker, Map<String, String> form) {
    String asked = form.getOrDefault("face", "");
    return photographs.faces(marker.id()).stream()
        .map(Face::id)
        .filter(id -> id.toString().equals(asked))
        .findFirst()
        .orElseThrow(() -> Refusal.malformed("That is no face of this marker."));
  }

  private static ReadingId reading(Map<String, String> form) {
    try {
      return ReadingId.of(form.getOrDefault("reading", ""));
    } catch (IllegalArgumentException e) {
      throw Refusal.malformed("Say which reading you looked at.");
    }
  }

  private static int number(Map<String, String> form, String field) {
    String number = form.getOrDefault(field, "");
    if (!number.matches("[0-9]{1,6}")) {
      throw Refusal.malformed("Give a number for " + field + ".");
    }
    return Integer.parseInt(number);
  }

  private void raiseQuestion(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    Marker marker = requests.marker(context);
    String words = form.getOrDefault("words", "");
    if (words.length() > LONGEST_QUESTION) {
      throw Refusal.malformed("A question has " + LONGEST_QUESTION + " signs at most.");
    }
    correct(
        context,
        marker,
        () ->
            new QuestionStore(archive)
                .raise(words, Optional.of(marker.number()), requests.by(context).name()));
  }

  /** Puts a photograph of this marker to a face of another, or to another face of this one. */
  private void movePhotograph(Context context) {
    Map<String, String> form = requests.archivistsForm(context);
    Marker marker = requests.marker(context);
    Photograph photograph = requests.photograph(form.getOrDefault("photograph", ""));
    String number = form.getOrDefault("number", "").strip();
    String name = form.getOrDefault("face", "").strip();
    if (number.length() > LONGEST_NAME || name.length() > LONGEST_NAME) {
      throw Refusal.malformed("A number or a face has " + LONGEST_NAME + " signs at most.");
    }
    String reader = requests.by(context).name();
    try {
      if (markers.byNumber(number).isEmpty() && !form.containsKey("new")) {
        throw new ArchiveException(
            "There is no marker " + number + " here. If it is a new one, say so.");
      }
      Face onto =
          archive
              .ledger()
              .write(
                  handle -> {
                    Face face = photographs.faceOf(number, name, reader);
                    photographs.assign(
                        photograph.id(), face.id(), Optional.empty(), "person", reader);
                    return face;
                  });
      context.redirect("/markers/" + onto.marker());
    } catch (ArchiveException | IllegalArgumentException e) {
      context.status(422);
      markerPage(context, String.valueOf(e.getMessage()));
    }
  }

  private void undo(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    Marker marker = requests.marker(context);
    NamedReader by = requests.by(context);
    Decision decision;
    try {
      decision =
          archive
              .journal()
              .find(DecisionId.of(form.getOrDefault("decision", "")))
              .filter(found -> markerPages.isTakenBackHere(marker, found))
              .orElseThrow(() -> Refusal.notFound("decision about this marker"));
    } catch (IllegalArgumentException e) {
      throw Refusal.notFound("decision about this marker");
    }
    correct(context, marker, () -> undoing.undo(decision.id(), by));
  }

  /** Makes a change and shows the marker again, with the reason where it couldn't be made. */
  private void correct(Context context, Marker marker, Runnable change) {
    try {
      change.run();
      boolean atStone = "at-the-stone".equals(Requests.form(context).get("back"));
      context.redirect("/markers/" + marker.id() + (atStone ? "/at-the-stone" : ""));
    } catch (ArchiveException e) {
      context.status(422);
      markerPage(context, String.valueOf(e.getMessage()));
    }
  }

  /** The same for what somebody says of words: what is refused is told on the page. */
  private void say(Context context, Marker marker, Runnable said) {
    try {
      correct(context, marker, said);
    } catch (RefusedException e) {
      context.status(Refusal.of(e.refused()).status());
      markerPage(context, e.refused().words());
    }
  }

  private void sheet(Context context) throws IOException {
    NamedReader by = requests.by(context);
    Marker marker = requests.marker(context);
    ByteArrayOutputStream pdf = new ByteArrayOutputStream();
    sheets.write(List.of(marker), by, pdf);
    context
        .header("Content-Disposition", "inline; filename=\"sheet.pdf\"")
        .contentType("application/pdf")
        .result(pdf.toByteArray());
  }
}
