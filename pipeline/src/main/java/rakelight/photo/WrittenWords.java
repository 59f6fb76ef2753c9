package rakelight.photo;

import com.drew.metadata.Directory;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifDirectoryBase;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.iptc.IptcDirectory;
import com.drew.metadata.xmp.XmpDirectory;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * What stands in a file beside Exif: in XMP (ISO 16684-1; names of properties as in its part 1 and
 * in Exif for XMP) and IPTC (IIM 4.2), and the words that people or programs wrote, wherever.
 */
final class WrittenWords {
  /** In order of trust: when it was taken, made, digitised. */
  private static final List<String> XMP_TIMES =
      List.of("exif:DateTimeOriginal", "photoshop:DateCreated", "xmp:CreateDate");

  private static final DateTimeFormatter IPTC_TIME =
      DateTimeFormatter.ofPattern("uuuuMMdd HHmmss[XX]", Locale.ROOT);

  /** What cameras write where a caption could stand (from memory). */
  private static final Predicate<String> IS_CAPTION =
      text -> !text.toUpperCase(Locale.ROOT).endsWith("DIGITAL CAMERA");

  private static final int LONGEST_CHARS = 1000;

  private WrittenWords() {}

  /** When it was taken, by XMP or else IPTC; a day without a time of day doesn't count. */
  static Optional<CaptureTime> time(Metadata metadata) {
    Map<String, String> xmp = xmp(metadata);
    return XMP_TIMES.stream()
        .flatMap(
            name ->
                Optional.ofNullable(xmp.get(name))
                    .flatMap(text -> xmpTime(text, "XMP " + name))
                    .stream())
        .findFirst()
        .or(
            () ->
                iptcTime(
                    metadata,
                    IptcDirectory.TAG_DATE_CREATED,
                    IptcDirectory.TAG_TIME_CREATED,
                    "IPTC Date Created"))
        .or(
            () ->
                iptcTime(
                    metadata,
                    IptcDirectory.TAG_DIGITAL_DATE_CREATED,
                    IptcDirectory.TAG_DIGITAL_TIME_CREATED,
                    "IPTC Digital Creation Date"));
  }

  /** Whose it is and what it shows. */
  static Offered in(Metadata metadata) {
    Map<String, String> xmp = xmp(metadata);
    Optional<String> photographer =
        first(
            exif(metadata, ExifDirectoryBase.TAG_ARTIST),
            Optional.ofNullable(xmp.get("dc:creator[1]")),
            iptc(metadata, IptcDirectory.TAG_BY_LINE));
    Optional<String> rights =
        first(
            exif(metadata, ExifDirectoryBase.TAG_COPYRIGHT),
            Optional.ofNullable(xmp.get("dc:rights[1]")),
            iptc(metadata, IptcDirectory.TAG_COPYRIGHT_NOTICE));
    Optional<String> caption =
        first(
            iptc(metadata, IptcDirectory.TAG_CAPTION),
            Optional.ofNullable(xmp.get("dc:description[1]")),
            exif(metadata, ExifDirectoryBase.TAG_IMAGE_DESCRIPTION).filter(IS_CAPTION));
    Set<String> words = new LinkedHashSet<>();
    caption.ifPresent(words::add);
    List<String> keywords = keywords(metadata, xmp);
    if (!keywords.isEmpty()) {
      words.add("keywords: " + String.join(", ", keywords));
    }
    return new Offered(
        photographer,
        rights,
        Optional.of(String.join("; ", words)).filter(Predicate.not(String::isEmpty)));
  }

  private static List<String> keywords(Metadata metadata, Map<String, String> xmp) {
    Set<String> keywords = new LinkedHashSet<>();
    for (IptcDirectory iptc : metadata.getDirectoriesOfType(IptcDirectory.class)) {
      String[] own = iptc.getStringArray(IptcDirectory.TAG_KEYWORDS);
      if (own != null) {
        keywords.addAll(Arrays.asList(own));
      }
    }
    xmp.forEach(
        (name, value) -> {
          if (name.matches("dc:subject\\[[0-9]+\\]")) {
            keywords.add(value);
          }
        });
    return keywords.stream().map(WrittenWords::clean).filter(word -> !word.isEmpty()).toList();
  }

  @SafeVarargs
  private static Optional<String> first(Optional<String>... texts) {
    return Stream.of(texts)
        .flatMap(Optional::stream)
        .map(WrittenWords::clean)
        .filter(Predicate.not(String::isEmpty))
        .findFirst();
  }

  private static String clean(String text) {
    String clean = text.replace('\0', ' ').strip();
    return clean.length() <= LONGEST_CHARS ? clean : clean.substring(0, LONGEST_CHARS);
  }

  private static Optional<String> exif(Metadata metadata, int tag) {
    return in(metadata.getDirectoriesOfType(ExifIFD0Directory.class), tag);
  }

  private static Optional<String> iptc(Metadata metadata, int tag) {
    return in(metadata.getDirectoriesOfType(IptcDirectory.class), tag);
  }

  private static Optional<String> in(Iterable<? extends Directory> directories, int tag) {
    for (Directory directory : directories) {
      String text = directory.getString(tag);
      if (text != null) {
        return Optional.of(text);
      }
    }
    return Optional.empty();
  }

  private static Map<String, String> xmp(Metadata metadata) {
    Map<String, String> all = new TreeMap<>();
    for (XmpDirectory xmp : metadata.getDirectoriesOfType(XmpDirectory.class)) {
      xmp.getXmpProperties().forEach(all::putIfAbsent);
    }
    return all;
  }

  private static Optional<CaptureTime> xmpTime(String text, String source) {
    try {
      OffsetDateTime time = OffsetDateTime.parse(text);
      return Optional.of(
          new CaptureTime(time.toLocalDateTime(), Optional.of(time.getOffset()), source));
    } catch (DateTimeException e) {
      try {
        return Optional.of(new CaptureTime(LocalDateTime.parse(text), Optional.empty(), source));
      } catch (DateTimeException noTimeOfDay) {
        return Optional.empty();
      }
    }
  }

  private static Optional<CaptureTime> iptcTime(
      Metadata metadata, int dayTag, int timeTag, String source) {
    Optional<String> day = iptc(metadata, dayTag);
    Optional<String> time = iptc(metadata, timeTag);
    if (day.isEmpty() || time.isEmpty()) {
      return Optional.empty();
    }
    try {
      var parsed =
          IPTC_TIME.parseBest(
              day.get().strip() + " " + time.get().strip(),
              OffsetDateTime::from,
              LocalDateTime::from);
      return parsed instanceof OffsetDateTime withOffset
          ? Optional.of(
              new CaptureTime(
                  withOffset.toLocalDateTime(), Optional.of(withOffset.getOffset()), source))
          : Optional.of(new CaptureTime((LocalDateTime) parsed, Optional.empty(), source));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }
}
