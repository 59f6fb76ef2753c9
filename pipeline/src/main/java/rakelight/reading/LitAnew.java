package rakelight.reading;

import java.util.List;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.finding.LaidLine;
import rakelight.picture.GrayImage;
import rakelight.relief.HeightMap;
import rakelight.relief.LightDirection;
import rakelight.relief.RakedFace;
import rakelight.relief.RakedShots;
import rakelight.relief.RakingSet;

/** The surface of a face under a light that no photograph had, and where lines lie there. */
record LitAnew(String from, GrayImage picture, List<LaidLine> lines) {
  /** From fewer lights no surface is had. */
  static final int FEWEST_LIGHTS = 3;

  /** Lights under which the shape of a raking set is read: from both sides and from above. */
  private static final List<NewLight> NEW_LIGHTS =
      List.of(
          new NewLight("the left", LightDirection.raking(-45, 20)),
          new NewLight("the right", LightDirection.raking(45, 20)),
          new NewLight("above", LightDirection.raking(0, 15)));

  private record NewLight(String from, LightDirection direction) {}

  /**
   * Lights a face anew.
   *
   * @param lines laid over the leading photograph
   * @return none where the shape can't be had
   * @throws BadInputException if a photograph can't be decoded
   */
  static List<LitAnew> of(RakedFace face, List<LaidLine> lines, Given given)
      throws BadInputException {
    if (lines.isEmpty() || face.views().size() < FEWEST_LIGHTS) {
      return List.of();
    }
    RakedShots raked = RakedShots.of(face, given);
    double capital =
        lines.stream()
            .mapToDouble(LaidLine::heightPx)
            .sorted()
            .skip(lines.size() / 2)
            .findFirst()
            .orElseThrow();
    return RakingSet.of(raked.shots(), capital * raked.scale())
        .filter(set -> set.source() != RakingSet.LightSource.ONE_LINE)
        .map(set -> lit(raked, set.heights(), lines))
        .orElse(List.of());
  }

  private static List<LitAnew> lit(RakedShots raked, HeightMap heights, List<LaidLine> lines) {
    double scale = (double) heights.widthPx() / raked.shots().get(0).squared().widthPx();
    List<LaidLine> there = lines.stream().map(line -> raked.squared(line, scale)).toList();
    return NEW_LIGHTS.stream()
        .map(light -> new LitAnew(light.from(), heights.lit(light.direction()), there))
        .toList();
  }
}
