package rakelight.samples;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * The invented ground: its place, markers, persons and what ties them.
 *
 * @param latitude of the datum point, degrees north; it lies in open sea, since the isle is
 *     invented
 * @param longitude degrees east
 * @param zone identifier of its time zone
 */
public record SampleGround(
    String name,
    double latitude,
    double longitude,
    String zone,
    List<SampleMarker> markers,
    List<SamplePerson> persons,
    List<SampleLink> links) {
  static final String TABLES = "/rakelight/samples/ground/";

  public SampleGround {
    markers = List.copyOf(markers);
    persons = List.copyOf(persons);
    links = List.copyOf(links);
  }

  /** Reads the ground from the tables beside the classes. */
  static SampleGround load() {
    Map<String, List<SampleLine>> lines = new LinkedHashMap<>();
    for (Map<String, String> row : Tables.read(TABLES + "inscriptions.tsv")) {
      List<SampleLine> face =
          lines.computeIfAbsent(
              Tables.cell(row, "marker") + " " + Tables.cell(row, "face"), k -> new ArrayList<>());
      face.add(
          new SampleLine(
              face.size() + 1,
              Tables.number(row, "size"),
              words(Tables.cell(row, "style")),
              Tables.cell(row, "text")));
    }
    List<SampleMarker> markers =
        Tables.read(TABLES + "markers.tsv").stream().map(row -> marker(row, lines)).toList();
    List<SamplePerson> persons =
        Tables.read(TABLES + "persons.tsv").stream().map(SampleGround::person).toList();
    List<SampleLink> links =
        Tables.read(TABLES + "links.tsv").stream()
            .map(
                r ->
                    new SampleLink(
                        Tables.cell(r, "from"),
                        Tables.cell(r, "to"),
                        Tables.cell(r, "type"),
                        Tables.cell(r, "note")))
            .toList();
    return new SampleGround(
        "Tarrow Old Ground, Isle of Skerrin",
        44.0,
        -50.0,
        "America/Halifax",
        markers,
        persons,
        links);
  }

  private static SampleMarker marker(Map<String, String> row, Map<String, List<SampleLine>> lines) {
    String id = Tables.cell(row, "marker");
    Stone stone =
        new Stone(
            Material.valueOf(Tables.cell(row, "material")),
            StoneForm.valueOf(Tables.cell(row, "form")),
            Weathering.valueOf(Tables.cell(row, "weathering")),
            Cut.valueOf(Tables.cell(row, "cut")),
            Typeface.valueOf(Tables.cell(row, "typeface")),
            Emblem.valueOf(Tables.cell(row, "emblem")),
            Tables.number(row, "width_mm"),
            Tables.number(row, "height_mm"),
            (int) Tables.number(row, "made"),
            words(Tables.cell(row, "finish")));
    List<SampleFace> faces = new ArrayList<>();
    for (String f : Tables.cell(row, "faces").split(";")) {
      String[] part = f.split(":");
      List<SampleLine> text = lines.getOrDefault(id + " " + part[0], List.of());
      if (text.isEmpty()) {
        throw new IllegalStateException(
            "Marker " + id + " face " + part[0] + " has no inscription");
      }
      long seed = 1_000_003L * Integer.parseInt(id.substring(1)) + part[0].charAt(0);
      faces.add(new SampleFace(id, part[0], Double.parseDouble(part[1]), stone, text, seed));
    }
    return new SampleMarker(
        id,
        Tables.cell(row, "kind"),
        Tables.number(row, "x_m"),
        Tables.number(row, "y_m"),
        Tables.cell(row, "earlier"),
        (int) Tables.number(row, "lights"),
        Tables.cell(row, "note"),
        faces);
  }

  private static Set<String> words(String cell) {
    return cell.isBlank() ? Set.of() : Set.of(cell.strip().split(" +"));
  }

  private static SamplePerson person(Map<String, String> r) {
    return new SamplePerson(
        Tables.cell(r, "person"),
        Tables.cell(r, "given"),
        Tables.cell(r, "surname"),
        Tables.cell(r, "birth_surname"),
        Tables.cell(r, "title"),
        Tables.cell(r, "sex"),
        Tables.cell(r, "birth"),
        Tables.cell(r, "death"),
        Tables.cell(r, "age"),
        Tables.cell(r, "age_as"),
        Tables.cell(r, "kin"),
        Tables.cell(r, "service"),
        Tables.cell(r, "note"));
  }

  /**
   * Renders photographs of the ground into a folder, with manifest and truth beside them; {@link
   * SampleWriter} describes the files.
   *
   * @param widthPx width of the upright pictures, 200 to 9000; their height is 21/16 of it
   * @param markers ids of the markers wanted; empty for all
   * @param workers photographs made at a time; each needs about 60 bytes per pixel
   */
  public void writeTo(Path folder, int widthPx, Set<String> markers, int workers)
      throws IOException {
    new SampleWriter(this, folder).write(widthPx, markers, workers);
  }

  /** The views its photographers took of a face, at a width of choice. */
  public List<View> views(SampleMarker marker, SampleFace face, int widthPx) {
    return SeasonVisit.views(this, marker, face, widthPx);
  }

  /** The person with an id. */
  public SamplePerson person(String id) {
    return persons.stream()
        .filter(p -> p.id().equals(id))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("No person " + id + " in " + name));
  }

  /** What the stones assert, in the order of markers, faces and lines. */
  public List<SampleStatement> statements() {
    List<SampleStatement> out = new ArrayList<>();
    for (SampleMarker m : markers) {
      for (SampleFace f : m.faces()) {
        out.addAll(statements(f));
      }
    }
    return out;
  }

  private List<SampleStatement> statements(SampleFace face) {
    Map<MarkedText.Span, SampleStatement> found = new LinkedHashMap<>();
    for (SampleLine line : face.lines()) {
      MarkedText text = line.parsed();
      for (int s = 0; s < text.spans().size(); s++) {
        int index = s;
        MarkedText.Span span = text.spans().get(s);
        String letters =
            text.signs().stream()
                .filter(sign -> sign.span() == index)
                .map(sign -> String.valueOf(sign.letter()))
                .collect(Collectors.joining());
        SampleStatement before = found.get(span);
        found.put(
            span,
            new SampleStatement(
                face.marker(),
                face.face(),
                before == null ? line.number() : before.firstLine(),
                line.number(),
                span.person(),
                span.kind().name().toLowerCase(Locale.ROOT),
                before == null ? letters : before.text() + " / " + letters,
                value(span)));
      }
    }
    return List.copyOf(found.values());
  }

  private String value(MarkedText.Span span) {
    SamplePerson p = person(span.person());
    return switch (span.kind()) {
      case NAME -> p.given() + "|" + p.surname();
      case DEATH -> p.death();
      case BIRTH -> p.birth();
      case AGE -> p.age();
      case KIN, MARRIAGE -> p.kin();
      case SERVICE -> p.service();
      case ORIGIN -> "";
    };
  }
}
