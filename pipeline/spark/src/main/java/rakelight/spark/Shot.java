package rakelight.spark;

import java.io.Serializable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import rakelight.archive.Sha256;
import rakelight.photo.Light;
import rakelight.photo.PictureSource;
import rakelight.photo.Preview;
import rakelight.relief.FaceLight;

/**
 * A photograph as it travels between machines.
 *
 * @param address where its file is
 * @param face what the manifest says it shows; null for a photograph that stands by itself
 * @param digest of its content
 * @param offsetBytes where its preview begins, -1 if its picture isn't a preview
 * @param orientation Exif orientation, 1 to 8
 */
record Shot(
    String address,
    @Nullable OnFace face,
    String digest,
    long offsetBytes,
    long lengthBytes,
    int orientation)
    implements Serializable {
  private static final long NONE = -1;

  /**
   * Where a manifest puts a photograph.
   *
   * @param row of the manifest, from 1
   * @param azimuthDegrees of the light; null if it isn't known, likewise the others
   */
  record OnFace(
      long row,
      String marker,
      String face,
      @Nullable Double azimuthDegrees,
      @Nullable Double elevationDegrees,
      @Nullable Double bearingDegrees)
      implements Serializable {
    String words() {
      return "marker " + marker + ", face " + face;
    }

    Optional<FaceLight> light() {
      return FaceLight.of(
          Optional.ofNullable(azimuthDegrees)
              .map(azimuth -> new Light(azimuth, Optional.ofNullable(elevationDegrees))),
          Optional.ofNullable(bearingDegrees));
    }
  }

  static Shot of(String address, @Nullable OnFace face, PictureSource source) {
    return new Shot(
        address,
        face,
        source.original().hex(),
        source.preview().map(Preview::offsetBytes).orElse(NONE),
        source.preview().map(Preview::lengthBytes).orElse(NONE),
        source.orientation());
  }

  PictureSource source() {
    return new PictureSource(
        new Sha256(digest),
        offsetBytes == NONE ? Optional.empty() : Optional.of(new Preview(offsetBytes, lengthBytes)),
        orientation);
  }

  /** What it belongs to: its face, or itself. */
  String subject() {
    return face == null ? address : face.words();
  }
}
