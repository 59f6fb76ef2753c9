package rakelight.photo;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * What a file is, by its content and not by its name: format, size in pixels, where the picture is
 * that can be read, and whether it is there to the end.
 *
 * @param damage what is missing of a picture that is shown in part
 * @param widthPx of the picture that can be read; of the main image where none can; 0 if unknown
 * @param turned how the file's own format has the picture turned upright, as in Exif; empty where
 *     only tags say so
 */
public record Inspection(
    FileFormat format,
    int widthPx,
    int heightPx,
    PictureKind picture,
    Optional<Preview> preview,
    Optional<String> damage,
    Optional<Integer> turned) {
  /** A single row of blocks, perhaps only begun, shows nothing. */
  private static final int ROW_OF_BLOCKS_PX = 16;

  private static final int COLOUR_FILTER_ARRAY = 32803;

  private static final int LINEAR_RAW = 34892;
  private static final List<String> HEIC_BRANDS =
      List.of("heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1");

  /** Of a file that is whole. */
  Inspection(
      FileFormat format,
      int widthPx,
      int heightPx,
      PictureKind picture,
      Optional<Preview> preview) {
    this(format, widthPx, heightPx, picture, preview, Optional.empty(), Optional.empty());
  }

  /**
   * Looks at a file.
   *
   * @param bytes big-endian, from 0 to its limit; neither position nor content is changed
   * @param name only tells makers' raw formats apart
   * @throws UnfitFileException if it is not to be taken
   */
  static Inspection of(ByteBuffer bytes, String name) throws UnfitFileException {
    if (bytes.limit() == 0) {
      throw new UnfitFileException(
          "empty", "the file is empty.", "Copy it again from the camera or card.");
    }
    if (starts(bytes, 0, "\u00ff\u00d8\u00ff")) {
      JpegWalk jpeg = JpegWalk.evenCut(bytes, 0, bytes.limit());
      Inspection whole = picture(FileFormat.JPEG, jpeg.widthPx(), jpeg.heightPx());
      return jpeg.whole() ? whole : cutShort(bytes, whole);
    }
    if (starts(bytes, 0, "\u0089PNG\r\n\u001a\n")) {
      PngWalk png = PngWalk.of(bytes);
      return picture(FileFormat.PNG, png.widthPx(), png.heightPx());
    }
    if (starts(bytes, 0, "RIFF") && starts(bytes, 8, "WEBP")) {
      WebpWalk webp = WebpWalk.of(bytes);
      return picture(FileFormat.WEBP, webp.widthPx(), webp.heightPx());
    }
    if (starts(bytes, 0, "FUJIFILMCCD-RAW")) {
      return kept(FileFormat.RAF, 0, 0, PreviewSearch.inFujifilmHeader(bytes));
    }
    if (starts(bytes, 4, "ftyp")) {
      return isoMedia(bytes);
    }
    Optional<FileFormat> tiff = tiffLike(bytes);
    if (tiff.isPresent()) {
      return tiff(bytes, name, tiff.get());
    }
    if (starts(bytes, 0, "GIF8") || starts(bytes, 0, "BM")) {
      throw new UnfitFileException(
          "kind-not-kept",
          "a picture of a kind that is not kept.",
          "Save it as PNG and ingest that.");
    }
    throw new UnfitFileException(
        "not-an-image", "not a photograph.", "Leave it out, or keep it elsewhere.");
  }

  private static Inspection cutShort(ByteBuffer bytes, Inspection whole) throws UnfitFileException {
    byte[] jpeg = new byte[bytes.limit()];
    bytes.get(0, jpeg);
    double share = CutShort.shownShare(jpeg);
    if (share * whole.heightPx <= ROW_OF_BLOCKS_PX) {
      throw UnfitFileException.truncated("the end of its picture is missing");
    }
    return whole.cutShort(share);
  }

  private Inspection cutShort(double shownShare) {
    String damage =
        shownShare > 0.99
            ? "its end is missing (all of the picture is shown)"
            : String.format(
                Locale.ROOT,
                "its end is missing (%.0f per cent of the picture are shown)",
                100 * shownShare);
    return new Inspection(format, widthPx, heightPx, picture, preview, Optional.of(damage), turned);
  }

  private static Inspection tiff(ByteBuffer bytes, String name, FileFormat byMagic)
      throws UnfitFileException {
    TiffWalk tiff = TiffWalk.of(bytes);
    tiff.requireWhole(bytes.limit());
    FileFormat format = byMagic == FileFormat.TIFF ? rawOrTiff(tiff, name) : byMagic;
    TiffWalk.Directory main = main(tiff);
    int width = size(main.first(TiffWalk.WIDTH, 0));
    int height = size(main.first(TiffWalk.HEIGHT, 0));
    if (format == FileFormat.TIFF) {
      if (!main.has(TiffWalk.STRIP_OFFSETS) && !main.has(TiffWalk.TILE_OFFSETS)) {
        throw UnfitFileException.damaged("it has no picture");
      }
      return picture(format, width, height);
    }
    Optional<PreviewSearch.Found> preview = PreviewSearch.inDirectories(bytes, tiff);
    return kept(
        format, width, height, preview.isPresent() ? preview : PreviewSearch.anywhere(bytes));
  }

  private static Inspection isoMedia(ByteBuffer bytes) throws UnfitFileException {
    String brand = text(bytes, 8, 4);
    FileFormat format;
    if (HEIC_BRANDS.contains(brand)) {
      format = FileFormat.HEIC;
    } else if (brand.equals("avif") || brand.equals("avis")) {
      format = FileFormat.AVIF;
    } else if (brand.equals("crx ")) {
      format = FileFormat.CR3;
    } else {
      throw new UnfitFileException(
          "kind-not-kept",
          "a film or sound, not a photograph.",
          "Keep it elsewhere; a single frame can be saved as PNG.");
    }
    if (format != FileFormat.CR3) {
      Optional<CodedPicture> coded = CodedPicture.of(bytes);
      if (coded.isPresent() && coded.get().wholeShare() > 0) {
        return coded(bytes, format, coded.get());
      }
    }
    IsoMediaWalk walk = IsoMediaWalk.of(bytes);
    return kept(format, walk.widthPx(), walk.heightPx(), PreviewSearch.anywhere(bytes));
  }

  /** A file that ends early shows the tiles that it still has. */
  private static Inspection coded(ByteBuffer bytes, FileFormat format, CodedPicture coded)
      throws UnfitFileException {
    Inspection size = picture(format, coded.widthPx(), coded.heightPx());
    Inspection whole =
        new Inspection(
            format,
            size.widthPx,
            size.heightPx,
            size.picture,
            size.preview,
            Optional.empty(),
            Optional.of(coded.orientation()));
    try {
      IsoMediaWalk.of(bytes);
    } catch (UnfitFileException e) {
      return whole.cutShort(coded.wholeShare());
    }
    return coded.wholeShare() == 1 ? whole : whole.cutShort(coded.wholeShare());
  }

  private static Inspection picture(FileFormat format, int widthPx, int heightPx)
      throws UnfitFileException {
    if (widthPx <= 0 || heightPx <= 0) {
      throw UnfitFileException.damaged("its picture is " + widthPx + " x " + heightPx + " pixels");
    }
    if ((long) widthPx * heightPx > PictureSource.MOST_PIXELS) {
      throw new UnfitFileException(
          "too-large",
          String.format(
              Locale.ROOT,
              "its header claims %d x %d pixels; at most %d million are taken.",
              widthPx,
              heightPx,
              PictureSource.MOST_PIXELS / 1_000_000),
          "If it really is that large, save a smaller copy and ingest that.");
    }
    return new Inspection(format, widthPx, heightPx, PictureKind.ITSELF, Optional.empty());
  }

  private static Inspection kept(
      FileFormat format, int widthPx, int heightPx, Optional<PreviewSearch.Found> preview)
      throws UnfitFileException {
    if (preview.isEmpty()) {
      return new Inspection(format, widthPx, heightPx, PictureKind.NONE, Optional.empty());
    }
    Inspection size = picture(format, preview.get().widthPx(), preview.get().heightPx());
    return new Inspection(
        format,
        size.widthPx,
        size.heightPx,
        PictureKind.EMBEDDED_PREVIEW,
        Optional.of(preview.get().preview()));
  }

  /** The first directory of a full-resolution picture; else the first of all. */
  private static TiffWalk.Directory main(TiffWalk tiff) {
    return tiff.directories().stream()
        .filter(d -> d.has(TiffWalk.WIDTH) && d.first(TiffWalk.NEW_SUBFILE_TYPE, 0) == 0)
        .findFirst()
        .orElse(tiff.directories().get(0));
  }

  private static FileFormat rawOrTiff(TiffWalk tiff, String name) {
    if (tiff.directories().stream().anyMatch(d -> d.has(TiffWalk.DNG_VERSION))) {
      return FileFormat.DNG;
    }
    Optional<FileFormat> byName =
        FileFormat.rawByExtension(name.substring(name.lastIndexOf('.') + 1));
    if (byName.isPresent()) {
      return byName.get();
    }
    return tiff.directories().stream()
            .map(d -> d.first(TiffWalk.PHOTOMETRIC, 0))
            .anyMatch(p -> p == COLOUR_FILTER_ARRAY || p == LINEAR_RAW)
        ? FileFormat.RAW
        : FileFormat.TIFF;
  }

  /** TIFF, or one of the raw formats that changed TIFF's number 42 to a sign of their own. */
  private static Optional<FileFormat> tiffLike(ByteBuffer bytes) {
    if (starts(bytes, 0, "II*\0") || starts(bytes, 0, "MM\0*")) {
      return Optional.of(starts(bytes, 8, "CR") ? FileFormat.CR2 : FileFormat.TIFF);
    }
    if (starts(bytes, 0, "II+\0") || starts(bytes, 0, "MM\0+")) {
      return Optional.of(FileFormat.TIFF);
    }
    if (starts(bytes, 0, "IIRO") || starts(bytes, 0, "IIRS") || starts(bytes, 0, "MMOR")) {
      return Optional.of(FileFormat.ORF);
    }
    return starts(bytes, 0, "IIU\0") ? Optional.of(FileFormat.RW2) : Optional.empty();
  }

  private static int size(long pixels) {
    return pixels > Integer.MAX_VALUE ? Integer.MAX_VALUE : (int) pixels;
  }

  private static boolean starts(ByteBuffer bytes, int at, String latin1) {
    return Arrays.equals(
        text(bytes, at, latin1.length()).getBytes(StandardCharsets.ISO_8859_1),
        latin1.getBytes(StandardCharsets.ISO_8859_1));
  }

  private static String text(ByteBuffer bytes, int at, int length) {
    if (bytes.limit() < at + length) {
      return "";
    }
    byte[] part = new byte[length];
    bytes.get(at, part);
    return new String(part, StandardCharsets.ISO_8859_1);
  }
}
