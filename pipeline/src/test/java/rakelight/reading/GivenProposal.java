package rakelight.reading;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.archive.Archive;
import rakelight.archive.Derivation;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.archive.Sha256;
import rakelight.finding.FoundLine;
import rakelight.photo.Photograph;
import rakelight.photo.PictureSource;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;

/**
 * Proposals for tests, written down instead of read from a photograph: {@code W(R60K30) N} has a
 * slot that is R with 0.6 and K with 0.3, and nothing with the rest. {@code ?35 DIED} is a place
 * where a line may be, with 0.35.
 */
public final class GivenProposal {
  private static final Pattern UNSURE = Pattern.compile("\\?(\\d\\d) (.*)");

  private GivenProposal() {}

  /** Makes a proposal the newest one of a face; nobody took the photograph it is of. */
  public static Proposal of(Archive archive, FaceId face, String... lines) throws IOException {
    Sha256 original = Sha256.of(String.join("\n", lines) + face);
    List<FoundLine> found = new ArrayList<>();
    for (int i = 0; i < lines.length; i++) {
      double top = 100 + 60.0 * i;
      double right = 100 + 30.0 * slots(lines[i]).size();
      found.add(new FoundLine(Polygon.rectangle(100, top, right, top + 40), 40, 0.9));
    }
    return of(
        archive,
        face,
        new PictureSource(original, Optional.empty(), 1),
        PhotographId.next(),
        Polygon.rectangle(0, 0, 1000, 1400),
        found,
        List.of(lines));
  }

  /**
   * Makes a proposal of one photograph the newest one of a face.
   *
   * @param outline of the face on the photograph
   * @param found where each line stands on it
   */
  public static Proposal of(
      Archive archive,
      FaceId face,
      PictureSource picture,
      PhotographId photograph,
      Polygon outline,
      List<FoundLine> found,
      List<String> lines)
      throws IOException {
    return of(archive, face, picture, photograph, outline, found, lines, List.of());
  }

  /** The same with carvings that aren't letters. */
  public static Proposal of(
      Archive archive,
      FaceId face,
      PictureSource picture,
      PhotographId photograph,
      Polygon outline,
      List<FoundLine> found,
      List<String> lines,
      List<Polygon> emblems)
      throws IOException {
    return of(archive, face, picture, photograph, outline, found, lines, emblems, List.of());
  }

  /** One line, HANNAH WREN, on a face beside which a photograph shows other stones. */
  public static Proposal beside(Archive archive, FaceId face, Photograph shot, Polygon... others)
      throws IOException {
    return of(
        archive,
        face,
        shot.source(),
        shot.id(),
        Polygon.rectangle(0, 0, shot.uprightWidthPx() / 2.0, shot.uprightHeightPx()),
        List.of(new FoundLine(Polygon.rectangle(5, 20, 60, 30), 10, 0.9)),
        List.of("HANNAH WREN"),
        List.of(),
        List.of(others));
  }

  private static Proposal of(
      Archive archive,
      FaceId face,
      PictureSource picture,
      PhotographId photograph,
      Polygon outline,
      List<FoundLine> found,
      List<String> lines,
      List<Polygon> emblems,
      List<Polygon> otherStones)
      throws IOException {
    Sha256 original = picture.original();
    List<MergedFace.Line> merged = new ArrayList<>();
    List<MergedFace.Unsure> unsure = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      Matcher place = UNSURE.matcher(lines.get(i));
      String text = place.matches() ? place.group(2) : lines.get(i);
      MergedFace.Line line =
          new MergedFace.Line(original, found.get(i), new LineLattice(slots(text)));
      if (place.matches()) {
        unsure.add(new MergedFace.Unsure(line, Integer.parseInt(place.group(1)) / 100.0));
      } else {
        merged.add(line);
      }
    }
    MergeFace.Input input =
        new MergeFace.Input(
            List.of(
                new MergeFace.View(
                    picture, new DerivationKey(Sha256.of("read of " + original).hex()), List.of())),
            new ReaderSettings(List.of(), List.of(), 0, 0, 0, 0, 0),
            Sha256.of("odds"),
            Sha256.of("lexicon"));
    MergedFace result =
        new MergedFace(
            List.of(
                new MergedFace.View(
                    original,
                    outline,
                    1000.0 / 1400,
                    Optional.of(Homography.identity()),
                    emblems,
                    otherStones)),
            merged,
            unsure);
    Derivation derivation = Derivation.of(MergeFace.KIND, input, result);
    archive.derived().keep(derivation);
    ProposalStore store = new ProposalStore(archive);
    store.pointTo(
        derivation.key(), face.value(), List.of(new ProposalStore.Shot(original, photograph)));
    return store.latest(face).orElseThrow();
  }

  private static List<Slot> slots(String line) {
    List<List<Alternative>> all = new ArrayList<>();
    for (int i = 0; i < line.length(); i++) {
      if (line.charAt(i) != '(') {
        all.add(List.of(new Alternative(line.substring(i, i + 1), 1)));
        continue;
      }
      int end = line.indexOf(')', i);
      List<Alternative> alternatives = new ArrayList<>();
      double rest = 1;
      for (int at = i + 1; at < end; at += 3) {
        double p = Integer.parseInt(line.substring(at + 1, at + 3)) / 100.0;
        alternatives.add(new Alternative(line.substring(at, at + 1), p));
        rest -= p;
      }
      if (rest > 1e-9) {
        alternatives.add(new Alternative("", rest));
      }
      all.add(alternatives);
      i = end;
    }
    List<Slot> slots = new ArrayList<>();
    for (int i = 0; i < all.size(); i++) {
      slots.add(new Slot(all.get(i), (double) i / all.size(), (double) (i + 1) / all.size()));
    }
    return slots;
  }
}
