package rakelight.work;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.archive.PhotographId;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.inscription.Standing;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;
import rakelight.reading.ProposedLine;
import rakelight.relief.FindLettering;
import rakelight.relief.HandsCompared;
import rakelight.relief.LetterPairs;
import rakelight.relief.LetterShape;
import rakelight.relief.LetteringLook;

/**
 * The faces of a ground by how alike their letters are cut: the letters that people read for sure,
 * each against the same letter of another face, at one height of capitals. One typeface cut by two
 * workshops looks much alike; what is offered may be one hand, and whether it is, people say.
 *
 * <p>Compares one face with all others; keeps what it cuts out among what is derived.
 */
public final class LetteringHands {
  /** Letters of two that are shown side by side. */
  private static final int SHOWN = 10;

  private final Archive archive;
  private final PhotoStore photographs;
  private final ReadingStore readings;
  private final CutLetters letters;
  private final FindLettering finder = new FindLettering();

  public LetteringHands(Archive archive, Faces faces) {
    this.archive = archive;
    this.photographs = new PhotoStore(archive);
    this.readings = new ReadingStore(archive);
    this.letters = new CutLetters(archive, faces);
  }

  /**
   * A face whose letters are cut like those of another.
   *
   * @param likeness see {@link HandsCompared.Compared}
   * @param shared letters that both have, the most alike first
   */
  public record Like(Face face, double likeness, List<LetterPairs.Pair> shared) {
    public Like {
      shared = List.copyOf(shared);
    }

    /** Whether the letters are more alike than faces usually are; what isn't says little. */
    public boolean mayBeOne() {
      return likeness > 0;
    }

    /** Some of the letters one above the other, as a PNG file. */
    public byte[] drawn() {
      return LetterPairs.drawn(shared.subList(0, Math.min(SHOWN, shared.size())));
    }
  }

  /**
   * The faces whose letters are most like those of one. Those on whose photographs no letter can be
   * cut out, and those with fewer than {@value HandsCompared#LEAST_SHARED} letters in common, are
   * left out.
   *
   * @param most how many
   * @throws BadInputException if the photographs of the face asked for can't be read
   */
  public List<Like> of(Face asked, int most) throws IOException, BadInputException {
    Optional<Reading> read = readings.current(asked.id());
    Map<String, List<LetterShape>> own = read.isPresent() ? cut(read.get()) : Map.of();
    List<Face> others = new ArrayList<>();
    List<Map<String, List<LetterShape>>> theirs = new ArrayList<>();
    for (Reading reading : own.isEmpty() ? List.<Reading>of() : readings.current()) {
      Optional<Face> face =
          photographs.face(reading.face()).filter(one -> !one.id().equals(asked.id()));
      if (face.isPresent()) {
        try {
          theirs.add(cut(reading));
          others.add(face.get());
        } catch (BadInputException e) {
          continue; // `check` names it; the rest is shown.
        }
      }
    }
    List<Optional<HandsCompared.Compared>> compared = HandsCompared.of(own, theirs);
    List<Like> likes = new ArrayList<>();
    for (int i = 0; i < others.size(); i++) {
      Face other = others.get(i);
      compared
          .get(i)
          .ifPresent(found -> likes.add(new Like(other, found.likeness(), found.shared())));
    }
    likes.sort(Comparator.comparingDouble((Like like) -> -like.likeness()));
    return List.copyOf(likes.subList(0, Math.min(most, likes.size())));
  }

  private Map<String, List<LetterShape>> cut(Reading reading)
      throws IOException, BadInputException {
    List<LetterShape> shapes = new ArrayList<>();
    for (Map.Entry<PhotographId, List<FindLettering.Line>> one : lines(reading).entrySet()) {
      Optional<Photograph> shot =
          photographs.photograph(one.getKey()).filter(found -> found.isShown(Picture::isRead));
      if (shot.isPresent()) {
        DerivationKey key =
            archive
                .derived()
                .make(finder, new FindLettering.Input(shot.get().source(), one.getValue()));
        shapes.addAll(
            FindLettering.read(archive.derived().result(FindLettering.KIND, key).orElseThrow())
                .letters());
      }
    }
    return new LetteringLook(shapes).byLetter();
  }

  /** The letters that were read for sure, by the photograph that shows them and by line. */
  private Map<PhotographId, List<FindLettering.Line>> lines(Reading reading) {
    Map<SignId, Letter> sure = new HashMap<>();
    for (Sign sign : reading.inscription().signs()) {
      if (sign instanceof Letter letter
          && letter.standing() == Standing.CLEAR
          && letter.forms().isEmpty()
          && Character.isLetterOrDigit(letter.text().codePointAt(0))) {
        sure.put(letter.id(), letter);
      }
    }
    Map<PhotographId, List<FindLettering.Line>> lines = new LinkedHashMap<>();
    for (List<CutLetters.At> line : letters.lines(reading)) {
      Map<ProposedLine, List<FindLettering.Letter>> on = new LinkedHashMap<>();
      for (CutLetters.At at : line) {
        Letter letter = sure.get(at.sign());
        if (letter != null && at.stretch().filter(one -> !one.reckoned()).isPresent()) {
          Stretch stretch = at.stretch().get();
          on.computeIfAbsent(stretch.on(), one -> new ArrayList<>())
              .add(new FindLettering.Letter(letter.text(), stretch.from(), stretch.to()));
        }
      }
      on.forEach(
          (read, found) ->
              lines
                  .computeIfAbsent(read.photograph(), one -> new ArrayList<>())
                  .add(new FindLettering.Line(read.box(), read.heightPx(), found)));
    }
    return lines;
  }
}
