package rakelight.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.inscription.Basis;
import rakelight.inscription.Gap;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.Standing;
import rakelight.photo.Photograph;
import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.reading.Proposal;
import rakelight.work.FaceState;
import rakelight.work.Place;
import rakelight.work.Stretch;
import rakelight.work.Work;

/** Faces as pages and sheets show them: never more than the reader may see. */
final class FaceViews {
  private FaceViews() {}

  static ShownFace of(Work work, FaceState state, List<Photograph> photographs) {
    return new ShownFace(
        work.face().id().toString(),
        work.face().name(),
        words(state),
        standing(work),
        action(work),
        photographs.stream().map(photograph -> picture(work, photograph)).toList(),
        lines(work, leading(work, photographs)));
  }

  /** The photograph whose pixels the boxes are in. */
  static Optional<Photograph> leading(Work work, List<Photograph> photographs) {
    return work.proposal()
        .map(proposal -> proposal.photographs().get(0))
        .flatMap(
            id -> photographs.stream().filter(photograph -> photograph.id().equals(id)).findFirst())
        .or(() -> photographs.stream().findFirst());
  }

  /** A state in plain words. */
  static String words(FaceState state) {
    return switch (state) {
      case NO_PHOTOGRAPH -> "no photograph yet";
      case OTHER_LIGHT -> "waits for other light";
      case OPEN -> "to be read";
      case BEGUN -> "begun";
      case ONCE_READ -> "read once, to be read again";
      case TO_SETTLE -> "two readings differ";
      case SETTLED -> "read";
    };
  }

  private static String standing(Work work) {
    if (work.before().isPresent()) {
      return "Read by " + by(work.before().get()) + ".";
    }
    Optional<Reading> mine = work.readings().by(work.reader());
    if (mine.isPresent()) {
      return "Your own reading, "
          + by(mine.get())
          + ". The other reader's stays hidden until both have signed.";
    }
    if (work.stored()) {
      return "Your unfinished reading.";
    }
    if (work.heldBack()) {
      return "Read blind by two people: names and dates aren't proposed.";
    }
    return work.draft().lines().isEmpty()
        ? "Nothing was found to read."
        : "Proposed by a machine; nobody has confirmed it.";
  }

  private static String by(Reading reading) {
    Basis basis = reading.basis();
    String from =
        switch (basis.kind()) {
          case PHOTOGRAPHS -> "from photographs";
          case STONE -> "at the stone";
          case EARLIER -> "from " + basis.witness().orElse("an earlier witness");
        };
    String details =
        Stream.of(basis.date().map(Object::toString), basis.light())
            .flatMap(Optional::stream)
            .map(detail -> ", " + detail)
            .collect(Collectors.joining());
    return reading.reader()
        + " on "
        + reading.at().toString().substring(0, 10)
        + ", "
        + from
        + details;
  }

  private static String action(Work work) {
    return switch (work.task()) {
      case READ -> work.stored() ? "Go on reading" : "Read it";
      case SETTLE -> "Settle it";
      case DONE -> "Look again, or correct it";
      case LOOK -> "Look";
    };
  }

  private static ShownFace.Picture picture(Work work, Photograph photograph) {
    boolean isPart = !photograph.face().equals(Optional.of(work.face().id()));
    boolean hasOthers =
        work.proposal().stream()
            .flatMap(proposal -> proposal.views().stream())
            .filter(view -> view.photograph().equals(photograph.id()))
            .anyMatch(view -> !view.otherStones().isEmpty());
    String caption =
        Stream.of(
                photograph.taken().map(taken -> taken.local().toLocalDate().toString()),
                photograph.light().map(FaceViews::light),
                photograph.photographer(),
                photograph.rights(),
                photograph.damage().map(damage -> "damaged: " + damage))
            .flatMap(Optional::stream)
            .collect(Collectors.joining(", "));
    return new ShownFace.Picture(
        photograph.id().toString(),
        "/images/photographs/" + photograph.id(),
        photograph.originalName(),
        caption,
        isPart,
        isPart || hasOthers);
  }

  private static String light(rakelight.photo.Light light) {
    return String.format(Locale.ROOT, "light from %.0f°", light.azimuthDegrees());
  }

  /** Its lines as plain text, for a browser that runs no script. */
  static List<String> text(Work work) {
    return lines(work, Optional.empty()).stream()
        .map(
            line ->
                line.stream()
                    .map(sign -> (sign.spaceBefore() ? " " : "") + sign.text())
                    .collect(Collectors.joining()))
        .toList();
  }

  private static List<List<ShownFace.Sign>> lines(Work work, Optional<Photograph> leading) {
    List<List<ShownFace.Sign>> lines = new ArrayList<>();
    for (List<Place> line : Place.of(work)) {
      lines.add(line.stream().map(place -> sign(work, place, leading)).toList());
    }
    return lines;
  }

  private static ShownFace.Sign sign(Work work, Place place, Optional<Photograph> leading) {
    boolean letter = place.seen().ink() instanceof Letter;
    String text;
    String standing;
    if (place.seen().ink() instanceof Letter one) {
      text = one.text();
      standing = one.standing().name();
    } else {
      Gap gap = (Gap) place.seen().ink();
      text =
          !place.decided()
              ? "·"
              : switch (gap.reason()) {
                case LOST -> "[–]";
                case BLANK -> "␣";
                default -> "+";
              };
      standing = gap.reason().name();
    }
    boolean doubtful = letter && ((Letter) place.seen().ink()).standing() == Standing.UNCLEAR;
    return new ShownFace.Sign(
        text,
        place.decided()
            ? standing.toLowerCase(Locale.ROOT).replace('_', '-')
            : place.isWorthAsking() ? "open doubtful" : "open",
        place.seen().spaceBefore(),
        doubtful,
        work.proposal().flatMap(proposal -> where(proposal, place, leading)));
  }

  private static Optional<double[]> where(
      Proposal proposal, Place place, Optional<Photograph> leading) {
    if (place.stretch().isEmpty() || leading.isEmpty()) {
      return Optional.empty();
    }
    Stretch stretch = place.stretch().get();
    Optional<Homography> toLeading = proposal.view(stretch.on().photograph()).toLeading();
    return toLeading.map(
        map -> {
          List<Point> corners = stretch.box().map(map::map).points();
          double left = corners.stream().mapToDouble(Point::x).min().orElse(0);
          double middle = corners.stream().mapToDouble(Point::y).average().orElse(0);
          return new double[] {
            left / leading.get().uprightWidthPx(), middle / leading.get().uprightHeightPx()
          };
        });
  }
}
