package rakelight.photo;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** The kinds of file that are kept as photographs. */
public enum FileFormat {
  JPEG("jpg", Family.PICTURE),
  PNG("png", Family.PICTURE),
  TIFF("tif", Family.PICTURE),
  WEBP("webp", Family.PICTURE),
  HEIC("heic", Family.ISO_MEDIA),
  AVIF("avif", Family.ISO_MEDIA),
  CR3("cr3", Family.ISO_MEDIA),
  DNG("dng", Family.TIFF_RAW),
  CR2("cr2", Family.TIFF_RAW),
  NEF("nef", Family.TIFF_RAW),
  NRW("nrw", Family.TIFF_RAW),
  ARW("arw", Family.TIFF_RAW),
  SR2("sr2", Family.TIFF_RAW),
  PEF("pef", Family.TIFF_RAW),
  SRW("srw", Family.TIFF_RAW),
  ORF("orf", Family.TIFF_RAW),
  RW2("rw2", Family.TIFF_RAW),
  RAF("raf", Family.OTHER_RAW),
  /** A raw file on TIFF's plan whose maker isn't known by its name. */
  RAW("raw", Family.TIFF_RAW);

  private enum Family {
    PICTURE,
    TIFF_RAW,
    OTHER_RAW,
    ISO_MEDIA
  }

  private final String extension;
  private final Family family;

  FileFormat(String extension, Family family) {
    this.extension = extension;
    this.family = family;
  }

  /** The ending of the original's name in the archive, lower case, without the dot. */
  public String extension() {
    return extension;
  }

  /** The media type registered for it, or, of raw files, the one their makers use. */
  public String mediaType() {
    return switch (this) {
      case JPEG, PNG, TIFF, WEBP, HEIC, AVIF -> "image/" + label();
      default -> "image/x-" + (this == RAW ? "raw" : label());
    };
  }

  /** The name used in the ledger and in machine output, such as {@code jpeg}. */
  @JsonValue
  public String label() {
    return name().toLowerCase(Locale.ROOT);
  }

  @JsonCreator
  static FileFormat ofLabel(String label) {
    return Arrays.stream(values())
        .filter(format -> format.label().equals(label))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no kind of photograph: " + label));
  }

  /**
   * Whether web browsers show the file as it is. Source: MDN, "Image file type and format guide",
   * from memory: JPEG, PNG, WebP and AVIF everywhere, TIFF and HEIC in one browser only.
   */
  public boolean isShownByBrowsers() {
    return this == JPEG || this == PNG || this == WEBP || this == AVIF;
  }

  /** Whether the file as a whole is a picture that can be read. */
  boolean isPicture() {
    return family == Family.PICTURE;
  }

  /** Whether its picture, where the file itself is one, takes a decoder that isn't always here. */
  public boolean isCoded() {
    return this == HEIC || this == AVIF;
  }

  /** Whether it is built of TIFF directories, raw or not. */
  boolean isTiffLike() {
    return family == Family.TIFF_RAW || this == TIFF;
  }

  /** The raw format a file's ending names. */
  static Optional<FileFormat> rawByExtension(String extension) {
    return Arrays.stream(values())
        .filter(format -> format.family == Family.TIFF_RAW)
        .filter(format -> format.extension.equals(extension.toLowerCase(Locale.ROOT)))
        .findFirst();
  }
}
