package rakelight.desk;

import java.util.List;
import java.util.Optional;

/**
 * A face as pages and sheets show it to one reader.
 *
 * @param state in plain words
 * @param standing whose reading it is, in plain words
 * @param action what the reader can do with it, in plain words
 */
public record ShownFace(
    String id,
    String name,
    String state,
    String standing,
    String action,
    List<Picture> pictures,
    List<List<Sign>> lines) {
  /**
   * A photograph of it.
   *
   * @param caption when it was taken, by whom, under what rights, and what is missing of it
   * @param isPart whether it shows the face beside another that it is of
   * @param hasOthers whether it shows other stones
   */
  public record Picture(
      String id, String url, String name, String caption, boolean isPart, boolean hasOthers) {}

  /** The photographs that are of this face as a whole. */
  public List<Picture> own() {
    return pictures.stream().filter(picture -> !picture.isPart()).toList();
  }

  /**
   * One sign.
   *
   * @param text as shown; a dot where nothing is proposed
   * @param standing as the interface writes it; {@code open} until a person has decided
   * @param place its box's left edge and middle on the leading photograph, in parts of its width
   *     and height
   */
  public record Sign(
      String text,
      String standing,
      boolean spaceBefore,
      boolean doubtful,
      Optional<double[]> place) {}
}
