package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.marker.MarkerStore;
import rakelight.photo.CardLabel;
import rakelight.photo.Face;
import rakelight.photo.Grouping;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.SetAside;
import rakelight.photo.Streams;
import rakelight.survey.Offer;
import rakelight.survey.Offers;
import rakelight.survey.StoneLikeness;
import rakelight.work.NamedReader;
import rakelight.work.Sorting;
import rakelight.work.Undoing;

/** The sorting desk: photographs in streams of time, put on markers many at once. */
final class SortingRoutes {
  /** Some ten rows of six on a wide window; common practice, no source. */
  private static final int SHOTS_ON_PAGE = 60;

  private static final int LONGEST_NAME = 100;
  private static final String PHOTO = "photo-";
  private static final String OFFER = "offer-";

  /** Nobody waits longer than this for comparisons; what is left is done meanwhile. */
  private static final Duration LONGEST_COMPARING = Duration.ofMillis(1500);

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("d MMMM yyyy", Locale.ENGLISH);
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Comparing comparing;
  private final PhotoStore photographs;
  private final MarkerStore markers;
  private final Sorting sorting;
  private final Undoing undoing;
  private final ZoneId zone;

  SortingRoutes(Archive archive, Requests requests, Pages pages, Comparing comparing) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.comparing = comparing;
    this.photographs = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
    this.sorting = new Sorting(archive);
    this.undoing = new Undoing(archive);
    this.zone = archive.ground().zone();
  }

  void addTo(Javalin server) {
    server.get("/sorting", this::page);
    server.post("/sorting", this::change);
  }

  private void page(Context context) {
    NamedReader by = requests.archivist(context);
    Optional<Decision> did =
        Optional.ofNullable(context.queryParam("did"))
            .flatMap(this::decision)
            .filter(decision -> Undoing.isTheirs(decision, by))
            .filter(decision -> !undoing.act(decision).isEmpty());
    show(
        context,
        isAll(context.queryParam("show")),
        Paged.page(Optional.ofNullable(context.queryParam("page"))),
        did.map(this::said).orElse(""),
        did.map(decision -> decision.id().toString()).orElse(""));
  }

  private static boolean isAll(String show) {
    return "all".equals(show);
  }

  /** A decision about a photograph. */
  private Optional<Decision> decision(String id) {
    try {
      return archive
          .journal()
          .find(DecisionId.of(id))
          .filter(decision -> decision.kind().startsWith("photograph."));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private String said(Decision decision) {
    int count = undoing.act(decision).size();
    Optional<Photograph> shot =
        photographs.photograph(PhotographId.of(decision.subject().toString()));
    String where =
        shot.flatMap(Photograph::face)
            .map(this::inWords)
            .or(() -> shot.flatMap(Photograph::setAside).map(SetAside::words))
            .orElse("on no marker");
    return count == 1
        ? "Kept: 1 photograph, " + where + "."
        : "Kept: " + count + " photographs, the first " + where + ".";
  }

  private String inWords(FaceId id) {
    Face face = photographs.face(id).orElseThrow();
    return Grouping.inWords(new CardLabel(markers.numberOf(face.marker()), face.name()));
  }

  private void show(Context context, boolean all, int number, String message, String undo) {
    comparing.goOn();
    List<Photograph> known = photographs.photographs();
    List<Streams.Stream> streams = Streams.of(known, zone);
    List<Photograph> shown = shown(streams, all);
    Paged<Photograph> page =
        Paged.of(shown, number, SHOTS_ON_PAGE, "/sorting", Map.of("show", all ? "all" : "waiting"));
    Showing showing = new Showing(known, page.rows());
    List<SortingPage.Stream> rows = streams.stream().flatMap(s -> showing.of(s).stream()).toList();
    pages.show(
        context,
        "sorting",
        Map.of(
            "sorting",
            new SortingPage(
                (int) known.stream().filter(Photograph::isWaiting).count(),
                all,
                page,
                number,
                rows,
                showing.uncompared,
                message,
                undo)));
  }

  /** All, or those that wait with the cards among them. */
  private static List<Photograph> shown(List<Streams.Stream> streams, boolean all) {
    List<Photograph> shown = new ArrayList<>();
    for (Streams.Stream stream : streams) {
      List<Photograph> shots = stream.runs().stream().flatMap(run -> run.shots().stream()).toList();
      if (all) {
        shown.addAll(shots);
      } else if (shots.stream().anyMatch(Photograph::isWaiting)) {
        shots.stream()
            .filter(shot -> shot.isWaiting() || shot.card().isPresent())
            .forEach(shown::add);
      }
    }
    return shown;
  }

  /** Puts one page into words. */
  private final class Showing {
    private final Set<PhotographId> onPage = new HashSet<>();
    private final Offers offers;
    private final Map<FaceId, String> names = new HashMap<>();
    private final long began = System.nanoTime();
    private int uncompared;

    Showing(List<Photograph> known, List<Photograph> shots) {
      offers = new Offers(archive, known, comparing.likeness());
      shots.forEach(shot -> onPage.add(shot.id()));
      Map<MarkerId, String> numbers = new HashMap<>();
      markers.markers().forEach(marker -> numbers.put(marker.id(), marker.number()));
      for (Face face : photographs.faces()) {
        String number = numbers.getOrDefault(face.marker(), "");
        names.put(face.id(), Grouping.inWords(new CardLabel(number, face.name())));
      }
    }

    private String name(FaceId face) {
      return names.getOrDefault(face, "");
    }

    Optional<SortingPage.Stream> of(Streams.Stream stream) {
      List<SortingPage.Run> runs = new ArrayList<>();
      for (Streams.Run run : stream.runs()) {
        List<SortingPage.Shot> shots =
            run.shots().stream()
                .filter(shot -> onPage.contains(shot.id()))
                .map(this::shot)
                .toList();
        if (!shots.isEmpty()) {
          runs.add(new SortingPage.Run(title(run.first()), run.first().card().isPresent(), shots));
        }
      }
      String day = stream.day().map(DAY::format).orElse("without a time");
      return runs.isEmpty()
          ? Optional.empty()
          : Optional.of(new SortingPage.Stream(stream.camera().inWords() + ", " + day, runs));
    }

    private String title(Photograph first) {
      return first
          .face()
          .map(this::name)
          .or(() -> first.card().map(card -> "card: " + Grouping.inWords(card)))
          .or(() -> first.setAside().map(SetAside::words))
          .orElse("waits");
    }

    private SortingPage.Shot shot(Photograph shot) {
      return new SortingPage.Shot(
          shot.id().toString(),
          shot.originalName(),
          shot.taken().map(taken -> TIME.format(taken.in(zone))).orElse(""),
          shot.isWaiting() ? offered(shot) : List.of());
    }

    private List<SortingPage.Offered> offered(Photograph shot) {
      StoneLikeness likeness = comparing.likeness();
      boolean inTime = System.nanoTime() - began < LONGEST_COMPARING.toNanos();
      boolean compared = likeness.hasCompared(shot.id()) || (inTime && likeness.knows(shot.id()));
      uncompared += compared ? 0 : 1;
      List<Offer> found = compared ? offers.of(shot) : offers.withoutLikeness(shot);
      return found.stream()
          .map(
              offer ->
                  new SortingPage.Offered(
                      offer.face().toString(),
                      offer.beside().id().toString(),
                      name(offer.face()),
                      offer.why(),
                      offer.sure()))
          .toList();
    }
  }

  private void change(Context context) {
    Map<String, String> form = requests.archivistsForm(context);
    NamedReader by = requests.by(context);
    boolean all = isAll(form.getOrDefault("show", ""));
    int page = Paged.page(Optional.ofNullable(form.get("page")));
    try {
      Optional<Sorting.Done> done = act(form, by);
      if (done.isPresent() && !done.get().left().isEmpty()) {
        String left = String.join(" ", done.get().left());
        show(context, all, page, "Kept. " + left, done.get().decision().id().toString());
        return;
      }
      Map<String, String> next = new TreeMap<>();
      next.put("show", all ? "all" : "waiting");
      next.put("page", Integer.toString(page));
      done.ifPresent(one -> next.put("did", one.decision().id().toString()));
      StringBuilder address = new StringBuilder("/sorting");
      next.forEach(
          (name, value) ->
              address
                  .append(address.indexOf("?") < 0 ? '?' : '&')
                  .append(name)
                  .append('=')
                  .append(URLEncoder.encode(value, StandardCharsets.UTF_8)));
      context.redirect(address.toString());
    } catch (ArchiveException e) {
      context.status(422);
      show(context, all, page, String.valueOf(e.getMessage()), "");
    }
  }

  private Optional<Sorting.Done> act(Map<String, String> form, NamedReader by) {
    return switch (form.getOrDefault("do", "")) {
      case "put" -> Optional.of(sorting.put(chosen(form), place(form), by));
      case "split" -> {
        List<Photograph> chosen = chosen(form);
        if (chosen.size() != 1) {
          throw new ArchiveException("Choose the one photograph with which the next stone begins.");
        }
        yield Optional.of(sorting.splitFrom(chosen.get(0), place(form), by));
      }
      case "unplace" -> Optional.of(sorting.unplace(chosen(form), by));
      case "unfit" -> Optional.of(sorting.setAside(chosen(form), SetAside.UNFIT, by));
      case "no-stone" -> Optional.of(sorting.setAside(chosen(form), SetAside.NO_STONE, by));
      case "take" -> Optional.of(sorting.take(offered(form), by));
      case "undo" -> {
        Decision decision =
            decision(form.getOrDefault("decision", ""))
                .orElseThrow(() -> Refusal.notFound("decision"));
        undoing.undoAct(decision, by);
        yield Optional.empty();
      }
      default -> throw Refusal.malformed("This form can't be read.");
    };
  }

  private List<Photograph> chosen(Map<String, String> form) {
    return form.keySet().stream()
        .filter(name -> name.startsWith(PHOTO))
        .sorted()
        .map(name -> requests.photograph(name.substring(PHOTO.length())))
        .toList();
  }

  private Map<Photograph, Face> offered(Map<String, String> form) {
    Map<Photograph, Face> offered = new LinkedHashMap<>();
    for (Map.Entry<String, String> field : new TreeMap<>(form).entrySet()) {
      if (field.getKey().startsWith(OFFER) && !field.getValue().isEmpty()) {
        Photograph shot = requests.photograph(field.getKey().substring(OFFER.length()));
        if (!shot.isWaiting()) {
          throw new ArchiveException(
              shot.originalName() + " has been placed meanwhile. Look at the page again.");
        }
        offered.put(shot, Requests.known(field.getValue(), FaceId::of, photographs::face, "face"));
      }
    }
    return offered;
  }

  private static Sorting.Place place(Map<String, String> form) {
    String number = form.getOrDefault("number", "").strip();
    String face = form.getOrDefault("face", "").strip();
    if (number.length() > LONGEST_NAME || face.length() > LONGEST_NAME) {
      throw Refusal.malformed("A number or a face has " + LONGEST_NAME + " signs at most.");
    }
    if (number.isEmpty()) {
      throw new ArchiveException("Give the number of the marker.");
    }
    return new Sorting.Place(number, face.isEmpty() ? Face.FRONT : face, form.containsKey("new"));
  }
}
