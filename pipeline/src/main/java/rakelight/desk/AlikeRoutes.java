package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.survey.AlikeStore;
import rakelight.survey.CarvingsAlike;
import rakelight.survey.SaidOfCarvings;
import rakelight.survey.SaidOfTwo;
import rakelight.work.NamedReader;

/** Carvings that look like one that somebody outlined; what they have in common, people say. */
final class AlikeRoutes {
  private static final int MOST = 12;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final EmblemStore emblems;
  private final AlikeStore store;
  private final MarkerStore markers;
  private final PhotoStore photographs;

  AlikeRoutes(Archive archive, Requests requests, Pages pages) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.emblems = new EmblemStore(archive);
    this.store = new AlikeStore(archive);
    this.markers = new MarkerStore(archive);
    this.photographs = new PhotoStore(archive);
  }

  void addTo(Javalin server) {
    server.get("/alike/{emblem}", this::show);
    server.post("/alike/{emblem}", this::say);
  }

  /** The page of what looks like a carving. */
  static String address(EmblemNote note) {
    return "/alike/" + note.decision();
  }

  private EmblemNote known(String id) {
    return Requests.known(
        id,
        DecisionId::of,
        wanted -> emblems.all().stream().filter(n -> n.decision().equals(wanted)).findFirst(),
        "emblem");
  }

  private void show(Context context) {
    NamedReader by = requests.deciding(context);
    EmblemNote note = known(context.pathParam("emblem"));
    String told = "";
    List<AlikePage.Row> rows = new ArrayList<>();
    CarvingsAlike alike = new CarvingsAlike(archive);
    Optional<CarvingsAlike.Carving> asked = alike.of(note);
    if (asked.isEmpty()) {
      told = "It has no outline on a photograph; outline it, and others can be looked for.";
    } else {
      try {
        for (CarvingsAlike.Like like : alike.of(asked.get(), MOST)) {
          row(alike, note, asked.get(), like, rows.size() + 1).ifPresent(rows::add);
        }
        told = rows.isEmpty() ? "No other carving is known here." : "";
      } catch (BadInputException | IOException e) {
        told = "Its photograph can’t be looked at: " + e.getMessage() + ". Run `check`.";
      }
    }
    pages.show(
        context,
        "alike",
        Map.of(
            "alike",
            new AlikePage(
                note.name(),
                marker(markers.marker(note.marker()).orElseThrow()),
                address(note),
                told,
                rows,
                acts(note, by))));
  }

  private static FamilyPage.To marker(Marker marker) {
    return new FamilyPage.To(marker.number(), "/markers/" + marker.id());
  }

  /** Empty for a carving on a photograph of no marker. */
  private Optional<AlikePage.Row> row(
      CarvingsAlike alike,
      EmblemNote note,
      CarvingsAlike.Carving asked,
      CarvingsAlike.Like like,
      int rank)
      throws IOException, BadInputException {
    CarvingsAlike.Carving carving = like.carving();
    Optional<Marker> marker =
        carving
            .photograph()
            .face()
            .flatMap(photographs::face)
            .flatMap(face -> markers.marker(face.marker()));
    if (marker.isEmpty()) {
      return Optional.empty();
    }
    int places = like.match().places().size();
    Optional<EmblemNote> other = carving.note();
    return Optional.of(
        new AlikePage.Row(
            rank,
            "data:image/png;base64,"
                + Base64.getEncoder().encodeToString(alike.beside(asked, like)),
            marker(marker.get()),
            other.map(EmblemNote::name).orElse("an area that may be a carving")
                + String.format(Locale.ROOT, ", likeness %.2f, ", like.match().likeness())
                + (places == 1 ? "one place alike" : places + " places alike")
                + (like.match().mirrored() ? ", mirrored" : ""),
            other.map(one -> one.decision().toString()).orElse(""),
            other
                .flatMap(one -> store.newest(note.decision(), one.decision()))
                .map(said -> words(said.said()) + ", says " + said.reader())
                .orElse("")));
  }

  private static String words(SaidOfCarvings said) {
    return said == SaidOfCarvings.NOT ? "not alike" : said.label();
  }

  private List<Act> acts(EmblemNote note, NamedReader by) {
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    List<Act> acts = new ArrayList<>();
    for (SaidOfTwo<DecisionId, SaidOfCarvings> said : store.all()) {
      if (said.isOf(note.decision())) {
        Decision decision = archive.journal().find(said.decision()).orElseThrow();
        acts.add(
            0,
            Act.of(
                decision,
                "said of it and another: " + words(said.said()),
                undone,
                by,
                address(note)));
      }
    }
    return acts;
  }

  private void say(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    EmblemNote note = known(context.pathParam("emblem"));
    EmblemNote other = known(form.getOrDefault("with", ""));
    SaidOfCarvings said =
        SaidOfCarvings.labelled(form.getOrDefault("is", ""))
            .orElseThrow(() -> Refusal.malformed("This form can't be read."));
    store.say(note, other, said, requests.by(context).name());
    context.redirect(address(note));
  }
}
