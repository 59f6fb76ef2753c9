package rakelight.relief;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.Json;
import rakelight.archive.NamedFiles;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.Polygon;

/**
 * The pictures of a face that bring the cut out: {@code NAME.png} for each of {@link Relief#NAMES},
 * {@link #LETTERING}; where several lights lie over each other also {@code depth.png} and {@link
 * #HEIGHTS}.
 */
public final class ReliefPictures implements Stage<ReliefPictures.Input, NamedFiles> {
  public static final StageKind<Input, NamedFiles> KIND =
      new StageKind<>("relief", 4, Input.class, NamedFiles.class);

  /** The map of heights: see {@link HeightMap#ofPng}. */
  public static final String HEIGHTS = "heights.png";

  /** A {@link Lettering} as JSON. */
  public static final String LETTERING = "lettering.json";

  /**
   * @param capitalPx the height of capitals on the leading photograph
   * @param lines where lines stand on the leading photograph
   */
  public record Input(RakedFace face, double capitalPx, List<Polygon> lines) {
    public Input {
      lines = List.copyOf(lines);
    }
  }

  /** The file of a picture of that name. */
  public static String fileOf(String picture) {
    return picture + ".png";
  }

  @Override
  public StageKind<Input, NamedFiles> kind() {
    return KIND;
  }

  @Override
  public NamedFiles run(Input input, Given given) throws BadInputException {
    RakedFace face = input.face();
    RakedShots raked = RakedShots.of(face, given);
    double capital = input.capitalPx() * raked.scale();
    Homography toSquared =
        SquaredFace.Shape.of(face.outline(), face.proportion()).toPhotograph().inverse();
    Relief relief =
        Relief.of(
            raked.shots().get(0).squared(),
            capital,
            input.lines().stream().map(line -> line.map(toSquared::map)).toList());
    Map<String, byte[]> files = new TreeMap<>();
    files.put(LETTERING, Json.text(relief.lettering()).getBytes(StandardCharsets.UTF_8));
    List<ReliefImage> images = new ArrayList<>(relief.images());
    Optional<RakingSet> set = RakingSet.of(raked.shots(), capital);
    if (set.isPresent()) {
      images.add(set.get().depth());
      files.put(HEIGHTS, set.get().heights().png());
    }
    images.forEach(image -> files.put(fileOf(image.name()), Picture.png(image.image())));
    return NamedFiles.of(files);
  }
}
