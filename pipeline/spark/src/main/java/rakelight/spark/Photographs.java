package rakelight.spark;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Paths;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.LocatedFileStatus;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.RemoteIterator;
import rakelight.archive.ArchiveException;
import rakelight.photo.Light;
import rakelight.photo.Manifest;

/** Which files there are, and what a manifest says of them. */
final class Photographs {
  private Photographs() {}

  /**
   * Every file below a folder, sorted; hidden ones are passed over.
   *
   * @throws ArchiveException if there is no such folder
   */
  static List<String> below(String folder) {
    List<String> found = new ArrayList<>();
    try {
      Path root = new Path(folder);
      FileSystem files = root.getFileSystem(new Configuration());
      RemoteIterator<LocatedFileStatus> all = files.listFiles(root, true);
      while (all.hasNext()) {
        Path path = all.next().getPath();
        if (!path.getName().startsWith(".")) {
          found.add(path.toString());
        }
      }
    } catch (FileNotFoundException e) {
      throw new ArchiveException(folder + ": there is no such folder of photographs.", e);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    found.sort(null);
    return found;
  }

  /**
   * What the manifest says of each file, by the end of its address: the manifest's paths are
   * relative to the folder of photographs. As at ingest, a face looks where the first row that
   * knows says.
   *
   * @throws ArchiveException if a row names a file that isn't there
   */
  static Map<String, Shot.OnFace> placed(Manifest manifest, String folder, List<String> files) {
    Map<String, List<String>> byName = new HashMap<>();
    for (String file : files) {
      byName.computeIfAbsent(name(file), n -> new ArrayList<>()).add(file);
    }
    Map<String, Double> bearings = new HashMap<>();
    for (Manifest.Row row : manifest.rows()) {
      row.marker()
          .ifPresent(
              marker ->
                  row.bearingDegrees()
                      .ifPresent(
                          bearing -> bearings.putIfAbsent(marker + "\t" + row.face(), bearing)));
    }
    Map<String, Shot.OnFace> placed = new LinkedHashMap<>();
    for (Manifest.Row row : manifest.rows()) {
      String wanted = composed(new Path(folder, row.file()).toUri().getPath());
      List<String> named = byName.getOrDefault(name(row.file()), List.of());
      String file =
          named.stream()
              .filter(f -> composed(new Path(f).toUri().getPath()).equals(wanted))
              .findFirst()
              .or(() -> named.size() == 1 ? Optional.of(named.get(0)) : Optional.empty())
              .orElseThrow(
                  () ->
                      new ArchiveException(
                          String.format(
                              Locale.ROOT,
                              "%s:%d: there is no photograph %s below %s.",
                              manifest.file(),
                              row.line(),
                              row.file(),
                              folder)));
      row.marker()
          .ifPresent(
              marker ->
                  placed.put(
                      file,
                      new Shot.OnFace(
                          row.line(),
                          marker,
                          row.face(),
                          row.light().map(Light::azimuthDegrees).orElse(null),
                          row.light().flatMap(Light::elevationDegrees).orElse(null),
                          bearings.get(marker + "\t" + row.face()))));
    }
    return placed;
  }

  private static String name(String path) {
    return composed(String.valueOf(Paths.get(path).getFileName()));
  }

  private static String composed(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFC);
  }
}
