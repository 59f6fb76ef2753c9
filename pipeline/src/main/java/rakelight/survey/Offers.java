package rakelight.survey;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.photo.NearInTime;
import rakelight.photo.Photograph;
import rakelight.reading.ProposalStore;

/**
 * The faces that photographs without one may show, as the ledger stands when this is made: by
 * likeness, letters and time.
 */
public final class Offers {
  /** As many as somebody can look at beside a photograph. */
  private static final int MOST = 3;

  /** Faces whose letters alone may bring them up. */
  private static final double LETTERS_ALIKE = 0.35;

  /**
   * What makes the first offer sure: so many places, and so many times as many as the next. Of 75
   * rendered stones of one pattern a stranger agreed with one in 37 places, three times the next.
   */
  private static final double[][] SURE = {{45, 1.6}, {32, 4}};

  /** Where the clocks say so, too. Stones of one pattern stand in rows, so not much less. */
  private static final double[] SURE_IN_TIME = {24, 2.5};

  /** Two faces that agree in so many places are of one pattern; others seldom agree in 20. */
  private static final int PATTERN_PLACES = 20;

  private final StoneLikeness likeness;
  private final NearInTime near;
  private final ProposalStore proposals;
  private final Map<PhotographId, Photograph> placed = new HashMap<>();
  private final Map<FaceId, Photograph> oneOf = new HashMap<>();
  private final LettersShared letters = new LettersShared();

  /**
   * @param photographs all there are now
   * @param likeness borrowed; what it knows of counts
   */
  public Offers(Archive archive, List<Photograph> photographs, StoneLikeness likeness) {
    this.likeness = likeness;
    this.proposals = new ProposalStore(archive);
    this.near = new NearInTime(photographs, archive.ground().zone());
    for (Photograph shot : photographs) {
      shot.face()
          .ifPresent(
              face -> {
                placed.put(shot.id(), shot);
                oneOf.putIfAbsent(face, shot);
              });
    }
  }

  /** The faces a photograph may show, the likeliest first; three at most. */
  public List<Offer> of(Photograph shot) {
    return of(shot, likeness.alike(shot.id()));
  }

  /** The same at once: by time and letters alone. */
  public List<Offer> withoutLikeness(Photograph shot) {
    return of(shot, List.of());
  }

  private List<Offer> of(Photograph shot, List<StoneLikeness.Alike> seen) {
    Map<FaceId, StoneLikeness.Alike> alike = new LinkedHashMap<>();
    for (StoneLikeness.Alike one : seen) {
      Optional.ofNullable(placed.get(one.photograph()))
          .filter(other -> !other.id().equals(shot.id()))
          .flatMap(Photograph::face)
          .ifPresent(face -> alike.putIfAbsent(face, one));
    }
    Map<FaceId, Photograph> inTime = near.to(shot);
    Set<String> read = proposals.latest(shot.id()).map(LettersShared::runs).orElse(Set.of());
    if (!read.isEmpty() && letters.faces().isEmpty()) {
      oneOf.keySet().forEach(face -> letters.add(face, likeness.letters(face)));
    }
    Set<FaceId> faces = new LinkedHashSet<>(alike.keySet());
    letters.faces().stream()
        .filter(face -> letters.with(face, read).filter(l -> l >= LETTERS_ALIKE).isPresent())
        .forEach(faces::add);
    faces.addAll(inTime.keySet());
    List<Offer> offers = new ArrayList<>();
    for (FaceId face : faces) {
      Optional<StoneLikeness.Alike> like = Optional.ofNullable(alike.get(face));
      Optional<Photograph> nearest = Optional.ofNullable(inTime.get(face));
      Photograph beside =
          like.map(one -> placed.get(one.photograph()))
              .or(() -> nearest)
              .orElseGet(() -> oneOf.get(face));
      offers.add(
          new Offer(
              face,
              beside,
              like.map(StoneLikeness.Alike::places).orElse(0),
              letters.with(face, read),
              nearest
                  .map(other -> OptionalLong.of(near.secondsApart(shot, other)))
                  .orElse(OptionalLong.empty()),
              false));
    }
    return ranked(offers);
  }

  /**
   * Whether the offered face has a likeness that is another face's: stones of one pattern agree in
   * many places whatever name is on them.
   */
  private boolean isOfPattern(Offer offer) {
    return likeness.alike(offer.beside().id()).stream()
        .filter(other -> other.places() >= PATTERN_PLACES)
        .flatMap(other -> Optional.ofNullable(placed.get(other.photograph())).stream())
        .anyMatch(other -> !other.face().equals(Optional.of(offer.face())));
  }

  /** Sorts offers of one photograph, keeps the best, and says whether the first is sure. */
  private List<Offer> ranked(List<Offer> offers) {
    List<Offer> ranked =
        offers.stream()
            .sorted(
                Comparator.comparingDouble(Offer::weight)
                    .reversed()
                    .thenComparingLong(offer -> offer.secondsApart().orElse(Long.MAX_VALUE)))
            .limit(MOST)
            .toList();
    if (ranked.isEmpty()) {
      return ranked;
    }
    Offer first = ranked.get(0);
    double next = ranked.size() > 1 ? ranked.get(1).weight() : 0;
    boolean sure =
        Stream.concat(
                    Stream.of(SURE),
                    first.secondsApart().isPresent() ? Stream.of(SURE_IN_TIME) : Stream.of())
                .anyMatch(
                    enough -> first.places() >= enough[0] && first.weight() >= enough[1] * next)
            && !isOfPattern(first);
    List<Offer> said = new ArrayList<>(ranked);
    said.set(0, first.said(sure));
    return List.copyOf(said);
  }
}
