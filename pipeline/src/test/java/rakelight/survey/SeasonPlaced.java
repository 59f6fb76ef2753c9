package rakelight.survey;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.archive.Uuid7;
import rakelight.marker.MarkerStore;
import rakelight.photo.CardSearch;
import rakelight.photo.ClockCorrection;
import rakelight.photo.Credits;
import rakelight.photo.Face;
import rakelight.photo.Grouping;
import rakelight.photo.Ingest;
import rakelight.photo.Manifest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;
import rakelight.reading.ProposalStore;
import rakelight.samples.Season;
import rakelight.work.NamedReader;
import rakelight.work.Role;
import rakelight.work.Sorting;

/**
 * A season from its folder to every photograph placed, by somebody who knows the truth and counts
 * what she has to decide.
 *
 * <p>She gives the manifest as it came, sees that it is off by a row and gives it corrected, puts
 * right the clock that is an hour behind, then goes through the sorting desk's pages: takes what is
 * chosen beforehand on each, choosing another where the offered picture shows another stone, and
 * types the number where nothing is offered.
 */
final class SeasonPlaced {
  private static final NamedReader ADA = new NamedReader("Ada", Role.ARCHIVIST);
  private static final int ON_A_PAGE = 60;

  private final Archive archive;
  private final PhotoStore photos;
  private final MarkerStore markers;
  private final Sorting sorting;
  private final Map<String, String> truth;
  private final StoneLikeness likeness;

  /**
   * What it took.
   *
   * @param files in the folder, stones, cards and copies
   * @param placedByCards photographs that field cards placed
   * @param placedByTable photographs that the corrected table placed
   * @param byHand photographs that would each need a decision without likeness and time
   * @param acts decisions of the person, pages taken and tables given among them
   * @param pages pages taken as a whole
   * @param sureWrong what was chosen beforehand and shows another stone, which she must see
   * @param chosen photographs for which she chose another offer, or one where none was sure
   * @param typed photographs of which she typed the number
   * @param unseen photographs on a wrong marker at the end
   * @param waiting photographs on none
   */
  record Result(
      int files,
      int placedByCards,
      int placedByTable,
      int byHand,
      int acts,
      int pages,
      int sureWrong,
      int chosen,
      int typed,
      int unseen,
      int waiting) {}

  private SeasonPlaced(Archive archive, Map<String, String> truth) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
    this.sorting = new Sorting(archive);
    this.truth = truth;
    this.likeness = new StoneLikeness(archive);
  }

  static Result of(Path folder, Season season) throws IOException {
    Path shots = folder.resolve("season");
    if (!Files.exists(shots)) {
      season.writeTo(shots);
    }
    Map<String, String> truth = new HashMap<>();
    Files.readAllLines(shots.resolve("season.csv")).stream()
        .skip(1)
        .map(line -> line.split(",", -1))
        .forEach(cells -> truth.put(shots.resolve(cells[0]).toString(), cells[1]));
    try (Archive archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Tarrow", 44, -50, ZoneId.of("-03:00")),
            List.of(
                MarkerStore.projection(), PhotoStore.projection(), ProposalStore.projection()))) {
      return new SeasonPlaced(archive, truth).place(shots);
    }
  }

  private Result place(Path shots) {
    int acts = 0;
    new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
    CardSearch cards =
        new CardSearch(archive, Picture::reduced, shot -> shot.isShown(Picture::isRead), "Ada");
    Grouping grouping = new Grouping(archive, "Ada", line -> {});
    grouping.byManifest(Manifest.read(shots.resolve("orrery.csv")));
    cards.run(cards.candidates(), shot -> {});
    int byCards = grouping.byCards().assigned();
    Manifest right = Manifest.read(shots.resolve("orrery-right.csv"));
    List<Grouping.Move> moves = grouping.moves(right);
    grouping.move(moves, right, Uuid7.next());
    acts++; // The corrected table.
    int byTable = right.rows().size();
    Photograph behind =
        photos.photographs().stream()
            .filter(shot -> shot.camera().filter(name -> name.contains("Orrery")).isPresent())
            .findFirst()
            .orElseThrow();
    photos.correctClock(
        new ClockCorrection(
            behind.takenBy(), Optional.empty(), Optional.empty(), 3600, Optional.empty()),
        "Ada");
    acts++; // The clock.
    likeness.look(1, (done, all) -> {});
    int byHand = waiting().size();
    int pages = 0;
    int sureWrong = 0;
    int chosen = 0;
    int typed = 0;
    // What is offered is looked at again after each round: what was placed helps to place more.
    for (int before = Integer.MAX_VALUE; waiting().size() < before; ) {
      before = waiting().size();
      List<Photograph> left = waiting();
      for (int from = 0; from < left.size(); from += ON_A_PAGE) {
        Offers offers = new Offers(archive, photos.photographs(), likeness);
        Map<Photograph, Face> taken = new LinkedHashMap<>();
        for (Photograph shot : left.subList(from, Math.min(left.size(), from + ON_A_PAGE))) {
          List<Offer> offered = offers.of(shot);
          Optional<Offer> own = offered.stream().filter(offer -> isOf(offer, shot)).findFirst();
          boolean sure = !offered.isEmpty() && offered.get(0).sure();
          boolean isRight = sure && own.filter(offered.get(0)::equals).isPresent();
          sureWrong += sure && !isRight ? 1 : 0;
          if (own.isPresent()) {
            taken.put(shot, photos.face(own.get().face()).orElseThrow());
            chosen += isRight ? 0 : 1;
          } else {
            chosen += sure ? 1 : 0; // She chooses “none of these”.
          }
        }
        if (!taken.isEmpty()) {
          sorting.take(taken, ADA);
          pages++;
        }
      }
    }
    acts += pages + chosen;
    for (Photograph shot : waiting()) {
      sorting.put(
          List.of(shot),
          new Sorting.Place(truth.getOrDefault(shot.originalPath(), ""), "front", true),
          ADA);
      typed++;
      acts++;
    }
    return new Result(
        truth.size(),
        byCards,
        byTable,
        byHand,
        acts,
        pages,
        sureWrong,
        chosen,
        typed,
        (int) photos.photographs().stream().filter(this::isWrong).count(),
        waiting().size());
  }

  private List<Photograph> waiting() {
    return photos.photographs().stream().filter(Photograph::isWaiting).toList();
  }

  private boolean isOf(Offer offer, Photograph shot) {
    Face face = photos.face(offer.face()).orElseThrow();
    return markers.numberOf(face.marker()).equals(truth.get(shot.originalPath()));
  }

  private boolean isWrong(Photograph shot) {
    return shot.face()
        .map(id -> photos.face(id).orElseThrow())
        .filter(face -> !markers.numberOf(face.marker()).equals(truth.get(shot.originalPath())))
        .isPresent();
  }
}
