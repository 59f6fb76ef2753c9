package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.archive.Given;
import rakelight.archive.Sha256;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.finding.LaidLine;
import rakelight.photo.Frame;
import rakelight.photo.PictureSource;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.relief.Registration;

/**
 * Puts the photographs of one face together, each of which {@link ReadPhotograph} has read: see
 * {@link Views}.
 */
public final class MergeFace implements Stage<MergeFace.Input, MergedFace> {
  public static final StageKind<Input, MergedFace> KIND =
      new StageKind<>("proposal", 8, Input.class, MergedFace.class);

  private final MachineReader reader;
  private final ReaderSettings settings;
  private final Lexicon lexicon = Lexicon.standard();
  private final Language language = new Language(LetterOrder.standard());

  /**
   * @param views in any order, one or more; they are put in the order of their digests
   * @param odds digest of the reader's {@link Odds}
   * @param lexicon digest of the {@link Lexicon}
   */
  public record Input(List<View> views, ReaderSettings reader, Sha256 odds, Sha256 lexicon) {
    public Input {
      if (views.isEmpty()) {
        throw new IllegalArgumentException("a face is seen on a photograph at least");
      }
      views =
          views.stream()
              .sorted(Comparator.comparing(view -> view.picture().original().hex()))
              .toList();
    }
  }

  /**
   * One photograph.
   *
   * @param reading of it, by {@link ReadPhotograph}
   * @param others where stones are on it that are other faces: their lines are left out; empty if
   *     there are none
   */
  public record View(PictureSource picture, DerivationKey reading, Optional<List<Frame>> others) {
    public View {
      others = others == null ? Optional.empty() : others.map(List::copyOf); // Unknown before.
    }

    View(PictureSource picture, DerivationKey reading, List<Frame> others) {
      this(picture, reading, Optional.of(others).filter(all -> !all.isEmpty()));
    }
  }

  /**
   * @param reader borrowed
   */
  public MergeFace(MachineReader reader) {
    this.reader = reader;
    this.settings = reader.settings();
  }

  /** The input that has these photographs merged with this reader. */
  public Input input(List<View> views) {
    return new Input(
        views, settings, new Sha256(reader.odds().digest()), new Sha256(lexicon.digest()));
  }

  @Override
  public StageKind<Input, MergedFace> kind() {
    return KIND;
  }

  /**
   * @throws IllegalArgumentException if the input asks for another reader, odds or lexicon
   */
  @Override
  public MergedFace run(Input input, Given given) throws BadInputException {
    if (!input.equals(input(input.views()))) {
      throw new IllegalArgumentException("The input asks for another reader: " + input.reader());
    }
    Map<Sha256, View> byOriginal = new LinkedHashMap<>();
    List<Views.View> read = new ArrayList<>();
    for (View view : input.views()) {
      Sha256 original = view.picture().original();
      byOriginal.put(original, view);
      ReadPicture reading =
          given
              .result(ReadPhotograph.KIND, view.reading())
              .without(view.others().orElse(List.of()));
      read.add(new Views.View(original, reading, Optional.empty()));
    }
    Shots shots = new Shots(byOriginal, given);
    List<Views.View> laid = laidOverLeading(Views.surestFirst(read), shots);
    List<MergedFace.Line> lines =
        Views.lines(
            laid, (original, places) -> seen(shots.pixels(original), places), reader.odds());
    List<MergedFace.Unsure> unsure = UnsureLines.of(laid, lines, reader.odds());
    return new MergedFace(
        laid.stream().map(MergeFace::view).toList(),
        lines.stream().map(line -> line.with(language.leant(line.lattice()))).toList(),
        unsure.stream().map(one -> one.with(language.leant(one.line().lattice()))).toList());
  }

  private static MergedFace.View view(Views.View view) {
    return new MergedFace.View(
        view.original(),
        view.picture().face(),
        view.picture().proportion(),
        view.toLeading(),
        view.picture().emblems(),
        view.picture().otherStones());
  }

  /** Finds how the other photographs of a face lie over the first. */
  private static List<Views.View> laidOverLeading(List<Views.View> views, Shots shots)
      throws BadInputException {
    List<Views.View> laid = new ArrayList<>();
    laid.add(views.get(0).laid(Optional.of(Homography.identity())));
    if (views.size() > 1) {
      GrayImage leading = shots.pixels(views.get(0).original());
      for (Views.View view : views.subList(1, views.size())) {
        laid.add(view.laid(Registration.of(shots.pixels(view.original()), leading)));
      }
    }
    return laid;
  }

  /** The photographs by the digests of their originals. */
  private record Shots(Map<Sha256, View> byOriginal, Given given) {
    GrayImage pixels(Sha256 original) throws BadInputException {
      return Picture.upright(view(original).picture(), given);
    }

    View view(Sha256 original) {
      return Optional.ofNullable(byOriginal.get(original)).orElseThrow();
    }
  }

  /** What each recogniser sees of lines of one face, read once more. */
  private List<List<Weighing.View>> seen(GrayImage picture, List<LaidLine> lines) {
    List<List<LineLattice>> byVoice = reader.readByVoice(picture, lines);
    List<List<Weighing.View>> byLine = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      List<Weighing.View> seen = new ArrayList<>();
      for (int v = 0; v < byVoice.size(); v++) {
        double counts = reader.voices().get(v).weight();
        seen.add(new Weighing.View(byVoice.get(v).get(i), counts));
      }
      byLine.add(seen);
    }
    return byLine;
  }
}
