package rakelight.survey;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import rakelight.archive.FaceId;
import rakelight.photo.Photograph;

/**
 * Shots of one camera at one moment, and the faces they may show.
 *
 * @param offers the likeliest first; what speaks for a face by the shot that has most
 */
public record OfferedGroup(List<Photograph> photographs, List<Offer> offers) {
  public OfferedGroup {
    photographs = List.copyOf(photographs);
    offers = List.copyOf(offers);
  }

  /** Asks for each shot. A face is sure for the group if it is for a shot and no other is. */
  public static OfferedGroup of(List<Photograph> group, Offers offers) {
    Map<FaceId, Offer> best = new HashMap<>();
    Set<FaceId> sure = new HashSet<>();
    for (Photograph shot : group) {
      for (Offer offer : offers.of(shot)) {
        if (offer.sure()) {
          sure.add(offer.face());
        }
        best.merge(
            offer.face(), offer, (one, other) -> one.weight() >= other.weight() ? one : other);
      }
    }
    List<Offer> ranked = new ArrayList<>();
    for (Offer offer : best.values()) {
      ranked.add(offer.said(sure.size() == 1 && sure.contains(offer.face())));
    }
    ranked.sort(
        Comparator.comparing(Offer::sure)
            .thenComparingDouble(Offer::weight)
            .thenComparingLong(offer -> -offer.secondsApart().orElse(Long.MAX_VALUE))
            .reversed());
    return new OfferedGroup(group, ranked);
  }
}
