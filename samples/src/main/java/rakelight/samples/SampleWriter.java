package rakelight.samples;

import java.awt.geom.Point2D;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/**
 * Renders a ground into a folder: the photographs, a manifest to ingest them by, and the truth
 * beside them.
 *
 * <p>Tables, all UTF-8 with LF, a header line, cells parted by tabs (the manifest by commas):
 *
 * <ul>
 *   <li>{@code manifest.csv}: file, marker, face, bearing (compass degrees the face looks to),
 *       light_azimuth (compass degrees), light_elevation (degrees above the horizon). A photograph
 *       in shade has no light direction.
 *   <li>{@code truth.tsv}: file, marker, face, line, text (Leiden signs, what a careful reader
 *       could write), as_cut (nothing lost), legibility (legible, worn, poor on this photograph),
 *       material, weathering, light (raking, sun, dappled, shade)
 *   <li>{@code boxes.tsv}: file, line, polygon ({@code x,y x,y ...} in upright full-size pixels,
 *       clockwise from the top left)
 *   <li>{@code readings.tsv}: marker, face, line, text; one row per carved line, to confirm from
 *   <li>{@code markers.tsv}: marker, kind, material, form, weathering, cut, made, x_m (east), y_m
 *       (north), latitude, longitude, bearings, earlier, note
 *   <li>{@code persons.tsv}, {@code links.tsv}, {@code statements.tsv}: the components of {@link
 *       SamplePerson}, {@link SampleLink}, {@link SampleStatement}
 * </ul>
 */
final class SampleWriter {
  private record Shot(
      String file,
      SampleMarker marker,
      SampleFace face,
      View view,
      RenderedPhotograph photograph) {}

  private final SampleGround ground;
  private final Path folder;

  SampleWriter(SampleGround ground, Path folder) {
    this.ground = ground;
    this.folder = folder;
  }

  void write(int widthPx, Set<String> wanted, int workers) throws IOException {
    Files.createDirectories(folder);
    List<SampleMarker> chosen =
        ground.markers().stream().filter(m -> wanted.isEmpty() || wanted.contains(m.id())).toList();
    ExecutorService pool = Executors.newFixedThreadPool(Math.max(1, workers));
    List<Shot> shots = new ArrayList<>();
    try {
      List<Future<List<Shot>>> jobs = new ArrayList<>();
      for (SampleMarker m : chosen) {
        for (SampleFace f : m.faces()) {
          jobs.add(pool.submit(() -> shoot(m, f, widthPx)));
        }
      }
      for (Future<List<Shot>> job : jobs) {
        shots.addAll(job.get());
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("Rendering into " + folder + " was interrupted", e);
    } catch (ExecutionException e) {
      throw new IOException("Rendering into " + folder + " failed: " + e.getCause(), e);
    } finally {
      pool.shutdownNow();
    }
    manifest(shots);
    truth(shots);
    ground(chosen);
  }

  private List<Shot> shoot(SampleMarker m, SampleFace f, int widthPx) throws IOException {
    List<View> views = SeasonVisit.views(ground, m, f, widthPx);
    List<RenderedPhotograph> photographs = Renderer.render(f, views, f.seed());
    List<Shot> out = new ArrayList<>();
    for (int i = 0; i < views.size(); i++) {
      String file = m.id() + "-" + f.face() + (views.size() > 1 ? "-" + (i + 1) : "") + ".jpg";
      RenderedPhotograph p = photographs.get(i);
      Files.write(folder.resolve(file), p.jpeg());
      // The bytes are on disk; keep only the truth.
      out.add(
          new Shot(
              file,
              m,
              f,
              views.get(i),
              new RenderedPhotograph(
                  new byte[0], p.widthPx(), p.heightPx(), p.lines(), p.faceToImage())));
    }
    return out;
  }

  private void manifest(List<Shot> shots) throws IOException {
    StringBuilder b = new StringBuilder("file,marker,face,bearing,light_azimuth,light_elevation\n");
    for (Shot s : shots) {
      Lamp l = s.view.light();
      b.append(
          String.join(",", s.file, s.marker.id(), s.face.face(), decimal(s.face.bearingDegrees())));
      b.append(
          l.sun() > 0
              ? "," + decimal(l.azimuthDegrees()) + "," + decimal(l.elevationDegrees())
              : ",,");
      b.append('\n');
    }
    save("manifest.csv", b);
  }

  private static String decimal(double d) {
    return String.format(Locale.ROOT, "%.1f", d);
  }

  private void truth(List<Shot> shots) throws IOException {
    StringBuilder truth =
        new StringBuilder(
            "file\tmarker\tface\tline\ttext\tas_cut\tlegibility\tmaterial\tweathering\tlight\n");
    StringBuilder boxes = new StringBuilder("file\tline\tpolygon\n");
    TreeMap<String, String> readings = new TreeMap<>();
    for (Shot s : shots) {
      for (RenderedPhotograph.Line l : s.photograph.lines()) {
        row(
            truth,
            s.file,
            s.marker.id(),
            s.face.face(),
            String.valueOf(l.number()),
            l.leiden(),
            l.asCut(),
            lower(l.legibility()),
            lower(s.face.stone().material()),
            lower(s.face.stone().weathering()),
            lightWord(s));
        row(boxes, s.file, String.valueOf(l.number()), polygon(l.polygon()));
        String key =
            String.format(Locale.ROOT, "%s %s %03d", s.marker.id(), s.face.face(), l.number());
        readings.putIfAbsent(
            key,
            String.join(
                "\t", s.marker.id(), s.face.face(), String.valueOf(l.number()), l.leiden()));
      }
    }
    save("truth.tsv", truth);
    save("boxes.tsv", boxes);
    save(
        "readings.tsv",
        new StringBuilder(
            "marker\tface\tline\ttext\n" + String.join("\n", readings.values()) + "\n"));
  }

  private static String lightWord(Shot s) {
    Lamp l = s.view.light();
    return s.marker.lights() > 1
        ? "raking"
        : l.sun() <= 0 ? "shade" : l.dappled() ? "dappled" : "sun";
  }

  private static String lower(Enum<?> e) {
    return e.name().toLowerCase(Locale.ROOT);
  }

  static String polygon(List<Point2D> points) {
    StringBuilder b = new StringBuilder();
    for (Point2D p : points) {
      b.append(b.isEmpty() ? "" : " ")
          .append(decimal(p.getX()))
          .append(',')
          .append(decimal(p.getY()));
    }
    return b.toString();
  }

  private void ground(List<SampleMarker> chosen) throws IOException {
    StringBuilder markers =
        new StringBuilder(
            "marker\tkind\tmaterial\tform\tweathering\tcut\tmade\tx_m\ty_m\tlatitude\tlongitude\tbearings\tearlier\tnote\n");
    for (SampleMarker m : chosen) {
      Stone s = m.faces().get(0).stone();
      StringBuilder bearings = new StringBuilder();
      for (SampleFace f : m.faces()) {
        bearings
            .append(bearings.isEmpty() ? "" : " ")
            .append(f.face())
            .append(':')
            .append(decimal(f.bearingDegrees()));
      }
      double[] at = SeasonVisit.position(ground, m);
      row(
          markers,
          m.id(),
          m.kind(),
          lower(s.material()),
          lower(s.form()),
          lower(s.weathering()),
          lower(s.cut()),
          String.valueOf(s.made()),
          decimal(m.eastM()),
          decimal(m.northM()),
          String.format(Locale.ROOT, "%.7f", at[0]),
          String.format(Locale.ROOT, "%.7f", at[1]),
          bearings.toString(),
          m.earlierNumber(),
          m.note());
    }
    save("markers.tsv", markers);
    StringBuilder persons =
        new StringBuilder(
            "person\tgiven\tsurname\tbirth_surname\ttitle\tsex\tbirth\tdeath\tage\tage_as\tkin\tservice\tnote\n");
    for (SamplePerson p : ground.persons()) {
      row(
          persons,
          p.id(),
          p.given(),
          p.surname(),
          p.birthSurname(),
          p.title(),
          p.sex(),
          p.birth(),
          p.death(),
          p.age(),
          p.ageAs(),
          p.kin(),
          p.service(),
          p.note());
    }
    save("persons.tsv", persons);
    StringBuilder links = new StringBuilder("from\tto\ttype\tnote\n");
    for (SampleLink l : ground.links()) {
      row(links, l.from(), l.to(), l.type(), l.note());
    }
    save("links.tsv", links);
    StringBuilder statements =
        new StringBuilder("marker\tface\tfirst_line\tlast_line\tperson\tkind\ttext\tvalue\n");
    for (SampleStatement s : ground.statements()) {
      if (chosen.stream().anyMatch(m -> m.id().equals(s.marker()))) {
        row(
            statements,
            s.marker(),
            s.face(),
            String.valueOf(s.firstLine()),
            String.valueOf(s.lastLine()),
            s.person(),
            s.kind(),
            s.text(),
            s.value());
      }
    }
    save("statements.tsv", statements);
  }

  private static void row(StringBuilder b, String... cells) {
    b.append(String.join("\t", cells)).append('\n');
  }

  private void save(String name, StringBuilder text) throws IOException {
    Files.writeString(folder.resolve(name), text, StandardCharsets.UTF_8);
  }
}
