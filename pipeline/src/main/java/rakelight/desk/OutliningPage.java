package rakelight.desk;

import java.util.List;

/**
 * A photograph on which somebody outlines an emblem.
 *
 * @param photograph its id
 * @param widthPx of it, upright and full-size, as all corners are
 * @param offered where a machine saw a carving that isn't letters
 * @param noted what is outlined on it already
 */
public record OutliningPage(
    String photograph, int widthPx, int heightPx, List<Area> offered, List<Area> noted) {
  /**
   * @param name empty where nobody named it
   * @param points of the outline, as SVG has them
   */
  public record Area(String name, String points) {}
}
