package rakelight.photo;

import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;

/** Photographs with something odd about them, for tests elsewhere. */
public final class OddShots {
  private OddShots() {}

  /** One that lacks its end. */
  public static void cut(Path file) throws IOException {
    byte[] whole = Shots.encoded(Shots.noise(400, 300, 11), "jpeg");
    Files.write(file, Arrays.copyOf(whole, whole.length * 2 / 3));
  }

  /** One into which somebody wrote whose it is, under what rights, and what it shows. */
  public static void signed(Path file) throws IOException {
    TiffBuilder exif = new TiffBuilder(ByteOrder.BIG_ENDIAN);
    exif.chained().text(0x010E, "By the yew").text(0x013B, "Dora Lisle").text(0x8298, "CC-BY-4.0");
    Files.write(file, Shots.withExif(Shots.jpeg(12), exif.build()));
  }

  /** A raw file of 64 x 48 pixels with no picture that can be read. */
  public static void unreadable(Path file, String time) throws IOException {
    TiffBuilder raw = new TiffBuilder(ByteOrder.LITTLE_ENDIAN);
    raw.chained()
        .longs(TiffWalk.NEW_SUBFILE_TYPE, 0)
        .longs(TiffWalk.WIDTH, 64)
        .longs(TiffWalk.HEIGHT, 48)
        .shorts(TiffWalk.PHOTOMETRIC, 32803)
        .text(0x010F, "Wren")
        .text(0x0110, "Seven")
        .text(0x010E, String.valueOf(file.getFileName()))
        .blobAt(TiffWalk.STRIP_OFFSETS, new byte[64])
        .longs(TiffWalk.STRIP_LENGTHS, 64)
        .directories(0x8769, raw.loose().text(0x9003, "2024:05:01 " + time))
        .bytes(TiffWalk.DNG_VERSION, 1, 4, 0, 0);
    Files.write(file, raw.build());
  }

  /** What can be read of such a file, or of one by another camera. */
  public static void copy(Path file, String model, String time) throws IOException {
    taken(file, model, "2024:05:01 " + time);
  }

  /** One by a camera of a model, at a moment as Exif writes it. */
  public static void taken(Path file, String model, String moment) throws IOException {
    TiffBuilder exif = new TiffBuilder(ByteOrder.BIG_ENDIAN);
    exif.chained()
        .text(0x010F, "Wren")
        .text(0x0110, model)
        .directories(0x8769, exif.loose().text(0x9003, moment));
    byte[] picture = Shots.jpeg(String.valueOf(file.getFileName()).hashCode());
    Files.write(file, Shots.withExif(picture, exif.build()));
  }
}
