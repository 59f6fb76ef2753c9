package rakelight.measure;

import java.util.List;
import java.util.Optional;
import rakelight.picture.Polygon;

/**
 * One line of the truth: what a careful reader can see on one photograph.
 *
 * @param file the photograph's original name
 * @param line number on the face, from 1
 * @param text the letters that can be seen, as cut; lost and illegible places left out
 * @param cut the letters of which marks remain, with those that nobody can read; empty if what was
 *     cut isn't stated
 * @param legibility a class such as "legible", "worn" or "poor"; empty if not stated
 * @param material empty if not stated
 * @param light empty if not stated
 * @param box where the line stands, in upright full-size pixels, if known
 */
public record TruthLine(
    String file,
    int line,
    String text,
    List<CutLetter> cut,
    String legibility,
    String material,
    String light,
    Optional<Polygon> box) {
  public TruthLine {
    cut = List.copyOf(cut);
  }

  /** Errors where what nobody can be asked for may be read rightly or passed over at no cost. */
  ErrorRate fairErrors(String read) {
    return cut.isEmpty()
        ? ErrorRate.ofLetters(Tally.fold(text), Tally.fold(read))
        : CutLetter.errors(cut, read);
  }

  TruthLine withBox(Polygon place) {
    return new TruthLine(file, line, text, cut, legibility, material, light, Optional.of(place));
  }
}
