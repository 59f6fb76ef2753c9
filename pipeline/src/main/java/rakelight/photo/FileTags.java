package rakelight.photo;

import com.drew.imaging.ImageMetadataReader;
import com.drew.imaging.ImageProcessingException;
import com.drew.lang.GeoLocation;
import com.drew.lang.Rational;
import com.drew.metadata.Directory;
import com.drew.metadata.Metadata;
import com.drew.metadata.Tag;
import com.drew.metadata.exif.ExifDirectoryBase;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifSubIFDDirectory;
import com.drew.metadata.exif.GpsDirectory;
import com.drew.metadata.jpeg.HuffmanTablesDirectory;
import java.io.IOException;
import java.io.InputStream;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.ResolverStyle;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;

/**
 * What a file says of itself in its tags. A block that can't be read is an entry in {@code errors},
 * never a reason to refuse the photograph.
 *
 * @param orientation 1 to 8; 1 where the file doesn't say
 * @param offered what it says of whose it is and what it shows
 * @param all every tag as read, by directory; values too long to be text only by their length
 */
public record FileTags(
    int orientation,
    Optional<CaptureTime> taken,
    Optional<Position> position,
    Optional<Direction> direction,
    Optional<String> camera,
    Optional<String> cameraSerial,
    Optional<String> lens,
    Optional<Double> focalLengthMm,
    Optional<Double> focalLength35mm,
    Map<String, Map<String, String>> all,
    List<String> errors,
    Offered offered) {
  private static final int LONGEST_VALUE_CHARS = 2000;
  private static final DateTimeFormatter EXIF_TIME =
      DateTimeFormatter.ofPattern("uuuu:MM:dd HH:mm:ss", Locale.ROOT)
          .withResolverStyle(ResolverStyle.STRICT);
  private static final DateTimeFormatter EXIF_DATE =
      DateTimeFormatter.ofPattern("uuuu:MM:dd", Locale.ROOT)
          .withResolverStyle(ResolverStyle.STRICT);

  static FileTags read(InputStream in, long sizeBytes) throws IOException {
    Metadata metadata;
    List<String> errors = new ArrayList<>();
    try {
      metadata = ImageMetadataReader.readMetadata(in, sizeBytes);
    } catch (ImageProcessingException | RuntimeException e) {
      errors.add("the tags can't be read: " + e.getMessage());
      metadata = new Metadata();
    }
    for (Directory directory : metadata.getDirectories()) {
      directory.getErrors().forEach(error -> errors.add(directory.getName() + ": " + error));
    }
    return new FileTags(
        orientation(metadata),
        taken(metadata),
        position(metadata),
        direction(metadata),
        camera(metadata),
        text(metadata, ExifDirectoryBase.TAG_BODY_SERIAL_NUMBER),
        text(metadata, ExifDirectoryBase.TAG_LENS_MODEL),
        number(metadata, ExifDirectoryBase.TAG_FOCAL_LENGTH),
        number(metadata, ExifDirectoryBase.TAG_35MM_FILM_EQUIV_FOCAL_LENGTH),
        all(metadata),
        List.copyOf(errors),
        WrittenWords.in(metadata));
  }

  private static int orientation(Metadata metadata) {
    for (Directory directory : metadata.getDirectoriesOfType(ExifIFD0Directory.class)) {
      Integer value = directory.getInteger(ExifDirectoryBase.TAG_ORIENTATION);
      if (value != null && value >= 1 && value <= 8) {
        return value;
      }
    }
    return 1;
  }

  private static Optional<CaptureTime> taken(Metadata metadata) {
    return time(
            metadata,
            ExifDirectoryBase.TAG_DATETIME_ORIGINAL,
            ExifDirectoryBase.TAG_SUBSECOND_TIME_ORIGINAL,
            ExifDirectoryBase.TAG_TIME_ZONE_ORIGINAL,
            "Exif DateTimeOriginal")
        .or(
            () ->
                time(
                    metadata,
                    ExifDirectoryBase.TAG_DATETIME_DIGITIZED,
                    ExifDirectoryBase.TAG_SUBSECOND_TIME_DIGITIZED,
                    ExifDirectoryBase.TAG_TIME_ZONE_DIGITIZED,
                    "Exif DateTimeDigitized"))
        .or(() -> WrittenWords.time(metadata))
        .or(() -> gpsTime(metadata))
        // What programs set when they save a file; cameras set it too.
        .or(
            () ->
                time(
                    metadata,
                    ExifDirectoryBase.TAG_DATETIME,
                    ExifDirectoryBase.TAG_SUBSECOND_TIME,
                    ExifDirectoryBase.TAG_TIME_ZONE,
                    "Exif DateTime, perhaps of a later change"));
  }

  private static Optional<CaptureTime> time(
      Metadata metadata, int timeTag, int subsecondTag, int offsetTag, String source) {
    return text(metadata, timeTag)
        .flatMap(FileTags::exifTime)
        .map(
            local ->
                new CaptureTime(
                    text(metadata, subsecondTag)
                        .map(fraction -> withFraction(local, fraction))
                        .orElse(local),
                    text(metadata, offsetTag).flatMap(FileTags::offset),
                    source));
  }

  private static Optional<LocalDateTime> exifTime(String text) {
    try {
      return Optional.of(LocalDateTime.parse(text, EXIF_TIME));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  /** Digits after the decimal point of the second; anything else is ignored. */
  private static LocalDateTime withFraction(LocalDateTime time, String fraction) {
    if (!fraction.matches("[0-9]{1,9}")) {
      return time;
    }
    return time.withNano(Integer.parseInt((fraction + "00000000").substring(0, 9)));
  }

  private static Optional<ZoneOffset> offset(String text) {
    try {
      return Optional.of(ZoneOffset.of(text));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private static Optional<CaptureTime> gpsTime(Metadata metadata) {
    for (GpsDirectory gps : metadata.getDirectoriesOfType(GpsDirectory.class)) {
      String date = gps.getString(GpsDirectory.TAG_DATE_STAMP);
      Rational[] time = gps.getRationalArray(GpsDirectory.TAG_TIME_STAMP);
      if (date != null && time != null && time.length == 3) {
        try {
          double seconds =
              time[0].doubleValue() * 3600 + time[1].doubleValue() * 60 + time[2].doubleValue();
          return Optional.of(
              new CaptureTime(
                  LocalDate.parse(date, EXIF_DATE)
                      .atTime(LocalTime.ofNanoOfDay(Math.round(seconds * 1e3) * 1_000_000)),
                  Optional.of(ZoneOffset.UTC),
                  "Exif GPS time"));
        } catch (DateTimeException e) {
          continue;
        }
      }
    }
    return Optional.empty();
  }

  private static Optional<Position> position(Metadata metadata) {
    for (GpsDirectory gps : metadata.getDirectoriesOfType(GpsDirectory.class)) {
      GeoLocation location = gps.getGeoLocation();
      // Telephones write 0, 0 when they don't know.
      if (location != null
          && !location.isZero()
          && Math.abs(location.getLatitude()) <= 90
          && Math.abs(location.getLongitude()) <= 180) {
        return Optional.of(
            new Position(
                location.getLatitude(),
                location.getLongitude(),
                finite(gps, GpsDirectory.TAG_H_POSITIONING_ERROR),
                altitude(gps)));
      }
    }
    return Optional.empty();
  }

  private static Optional<Double> altitude(GpsDirectory gps) {
    Integer reference = gps.getInteger(GpsDirectory.TAG_ALTITUDE_REF);
    int sign = reference != null && reference == 1 ? -1 : 1;
    return finite(gps, GpsDirectory.TAG_ALTITUDE).map(metres -> sign * metres);
  }

  private static Optional<Direction> direction(Metadata metadata) {
    for (GpsDirectory gps : metadata.getDirectoriesOfType(GpsDirectory.class)) {
      Optional<Double> degrees =
          finite(gps, GpsDirectory.TAG_IMG_DIRECTION).filter(value -> value >= 0 && value <= 360);
      if (degrees.isPresent()) {
        String reference = gps.getString(GpsDirectory.TAG_IMG_DIRECTION_REF);
        return Optional.of(
            new Direction(
                degrees.get(),
                Optional.ofNullable(
                    switch (reference == null ? "" : reference.strip()) {
                      case "T" -> "true";
                      case "M" -> "magnetic";
                      default -> null;
                    })));
      }
    }
    return Optional.empty();
  }

  private static Optional<String> camera(Metadata metadata) {
    String make = text(metadata, ExifDirectoryBase.TAG_MAKE).orElse("");
    String model = text(metadata, ExifDirectoryBase.TAG_MODEL).orElse("");
    String both =
        model.toLowerCase(Locale.ROOT).startsWith(make.toLowerCase(Locale.ROOT))
            ? model
            : make + " " + model;
    return Optional.of(both.strip()).filter(Predicate.not(String::isEmpty));
  }

  private static Optional<String> text(Metadata metadata, int tag) {
    return exif(metadata).stream()
        .map(directory -> directory.getString(tag))
        .flatMap(value -> Optional.ofNullable(value).stream())
        .map(value -> value.replace('\0', ' ').strip())
        .filter(Predicate.not(String::isEmpty))
        .findFirst();
  }

  private static Optional<Double> number(Metadata metadata, int tag) {
    return exif(metadata).stream()
        .flatMap(directory -> finite(directory, tag).stream())
        .filter(value -> value > 0)
        .findFirst();
  }

  private static List<Directory> exif(Metadata metadata) {
    List<Directory> directories = new ArrayList<>();
    directories.addAll(metadata.getDirectoriesOfType(ExifIFD0Directory.class));
    directories.addAll(metadata.getDirectoriesOfType(ExifSubIFDDirectory.class));
    return directories;
  }

  /** Cameras write 0/0 for "not known". */
  private static Optional<Double> finite(Directory directory, int tag) {
    Rational rational = directory.getRational(tag);
    return Optional.ofNullable(rational)
        .filter(value -> value.getDenominator() != 0)
        .map(Rational::doubleValue);
  }

  private static Map<String, Map<String, String>> all(Metadata metadata) {
    Map<String, Map<String, String>> all = new TreeMap<>();
    for (Directory directory : metadata.getDirectories()) {
      if (directory instanceof HuffmanTablesDirectory || directory.isEmpty()) {
        continue;
      }
      String name = directory.getName();
      for (int n = 2; all.containsKey(name); n++) {
        name = directory.getName() + " " + n;
      }
      Map<String, String> tags = new TreeMap<>();
      for (Tag tag : directory.getTags()) {
        String value = directory.getString(tag.getTagType());
        if (value != null) {
          tags.put(
              tag.getTagName(),
              value.length() <= LONGEST_VALUE_CHARS
                  ? value
                  : "(" + value.length() + " characters, see the original)");
        }
      }
      all.put(name, tags);
    }
    return all;
  }
}
