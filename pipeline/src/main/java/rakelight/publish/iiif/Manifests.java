package rakelight.publish.iiif;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.inscription.Leiden;
import rakelight.marker.EmblemNote;
import rakelight.marker.Marker;
import rakelight.publish.Edition;
import rakelight.publish.LetterPlaces;
import rakelight.publish.ReadFrom;
import rakelight.publish.ToldFace;
import rakelight.publish.ToldMarker;

/**
 * IIIF manifests of an edition: one for each marker of which a photograph is told, a canvas for
 * each photograph, and pages of annotations beside it. Pictures are plain files; there is no image
 * service. Addresses follow from the archive's own ids, which outlive a marker's number.
 */
public final class Manifests {
  private static final String CONTEXT = "http://iiif.io/api/presentation/3/context.json";
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  /** What {@code rights} may hold (Presentation API 3.0, section 3.1). */
  private static final Pattern RIGHTS =
      Pattern.compile("https?://(creativecommons\\.org|rightsstatements\\.org)/\\S+");

  private final Edition edition;
  private final String base;
  private final Function<ReadFrom.Shot, Optional<PictureFile>> pictures;
  private final LetterPlaces letters;
  private final Map<MarkerId, List<ToldFace>> faces = new LinkedHashMap<>();
  private final Map<MarkerId, ToldMarker> markers;

  /**
   * @param faces of which manifests tell, all of the edition or some
   * @param base address below which all this will lie, with a slash at its end
   * @param pictures the file that shows a photograph; what has none is passed over
   */
  public Manifests(
      Edition edition,
      List<ToldFace> faces,
      Map<MarkerId, ToldMarker> markers,
      String base,
      Function<ReadFrom.Shot, Optional<PictureFile>> pictures,
      LetterPlaces letters) {
    this.edition = edition;
    this.markers = markers;
    this.base = base;
    this.pictures = pictures;
    this.letters = letters;
    for (ToldFace face : faces) {
      this.faces.computeIfAbsent(face.says().marker().id(), m -> new ArrayList<>()).add(face);
    }
  }

  /** The path of the collection below the base. */
  public static final String COLLECTION = "iiif/collection.json";

  /** The path of a marker's manifest below the base. */
  public static String path(MarkerId marker) {
    return "iiif/" + marker + "/manifest.json";
  }

  /** The path of a face's annotations below the base. */
  public static String path(FaceId face) {
    return "annotations/" + face + ".json";
  }

  /**
   * A page of a marker's annotations.
   *
   * @param name of its file, such as {@code p1-lines.json}
   */
  public record Page(String name, ObjectNode json) {}

  /** Where documents go. */
  @FunctionalInterface
  public interface Documents {
    /**
     * Takes one.
     *
     * @param path below the base
     */
    void put(String path, String text) throws IOException;
  }

  /** A photograph in a marker's manifest, and the face it shows. */
  private record Canvas(
      int number,
      ReadFrom.Shot shot,
      PictureFile file,
      ToldFace face,
      PictureAnnotations annotations) {
    String page(PictureAnnotations.Of what) {
      return "p" + number + "-" + what.label() + ".json";
    }
  }

  /**
   * Writes all manifests, the pages they lead to and the collection.
   *
   * @return how many manifests
   */
  public int write(Documents folder) throws IOException {
    List<Marker> written = new ArrayList<>();
    for (List<ToldFace> own : faces.values()) {
      Marker marker = own.get(0).says().marker();
      Optional<ObjectNode> manifest = manifest(marker.id());
      if (manifest.isPresent()) {
        folder.put(path(marker.id()), manifest.get() + "\n");
        for (Page page : pages(marker.id())) {
          folder.put("iiif/" + marker.id() + "/" + page.name(), page.json() + "\n");
        }
        written.add(marker);
      }
    }
    folder.put(COLLECTION, collection(written) + "\n");
    return written.size();
  }

  /**
   * Writes the annotations of all faces.
   *
   * @return of how many faces there are any
   */
  public int writeAnnotations(Documents folder) throws IOException {
    int written = 0;
    for (List<ToldFace> own : faces.values()) {
      for (ToldFace face : own) {
        Optional<ObjectNode> annotations = annotations(face);
        if (annotations.isPresent()) {
          folder.put(path(face.says().face().id()), annotations.get() + "\n");
          written++;
        }
      }
    }
    return written;
  }

  /** The markers of which a photograph is told that can be shown here, in their order. */
  public static List<Marker> pictured(Edition edition) {
    return edition.faces().stream()
        .filter(face -> edition.readFrom(face).shots().stream().anyMatch(edition::shows))
        .map(face -> face.says().marker())
        .distinct()
        .toList();
  }

  /** A list of manifests. */
  public ObjectNode collection(List<Marker> of) {
    ObjectNode collection = head(base + COLLECTION, "Collection", english(edition.ground()));
    ArrayNode items = collection.putArray("items");
    for (Marker marker : of) {
      ObjectNode item =
          items.addObject().put("id", base + path(marker.id())).put("type", "Manifest");
      item.set("label", english("Marker " + marker.number()));
    }
    return collection;
  }

  /** The manifest of a marker; empty where no photograph of it is told and can be shown. */
  public Optional<ObjectNode> manifest(MarkerId marker) {
    List<Canvas> canvases = canvases(marker);
    if (canvases.isEmpty()) {
      return Optional.empty();
    }
    String number = canvases.get(0).face().says().marker().number();
    ObjectNode manifest =
        head(
            base + path(marker), "Manifest", english("Marker " + number + ", " + edition.ground()));
    manifest.set(
        "summary",
        english(
            "Photographs of a grave marker with what people read on it and signed. Letters with"
                + " doubt stand in Leiden signs."));
    manifest.set("metadata", metadata(marker));
    ArrayNode items = manifest.putArray("items");
    canvases.forEach(canvas -> items.add(canvas(marker, canvas)));
    return Optional.of(manifest);
  }

  /** The pages that a marker's manifest leads to. */
  public List<Page> pages(MarkerId marker) {
    List<Page> pages = new ArrayList<>();
    for (Canvas canvas : canvases(marker)) {
      for (PictureAnnotations.Of what : PictureAnnotations.Of.values()) {
        ArrayNode items = items(marker, canvas, what);
        if (!items.isEmpty()) {
          ObjectNode page = head(address(marker, canvas.page(what)), "AnnotationPage", label(what));
          page.set("items", items);
          pages.add(new Page(canvas.page(what), page));
        }
      }
    }
    return pages;
  }

  /** What Web Annotations say of a face, by itself; empty where nothing is on its photographs. */
  public Optional<ObjectNode> annotations(ToldFace face) {
    return new PictureAnnotations(face, edition.readFrom(face), letters)
        .collection(base + path(face.says().face().id()), pictures);
  }

  private List<Canvas> canvases(MarkerId marker) {
    List<Canvas> canvases = new ArrayList<>();
    for (ToldFace face : faces.getOrDefault(marker, List.of())) {
      ReadFrom from = edition.readFrom(face);
      PictureAnnotations annotations = new PictureAnnotations(face, from, letters);
      for (ReadFrom.Shot shot : from.shots()) {
        pictures
            .apply(shot)
            .ifPresent(
                file ->
                    canvases.add(new Canvas(canvases.size() + 1, shot, file, face, annotations)));
      }
    }
    return canvases;
  }

  private String address(MarkerId marker, String name) {
    return base + "iiif/" + marker + "/" + name;
  }

  private ArrayNode items(MarkerId marker, Canvas canvas, PictureAnnotations.Of what) {
    ObjectNode source =
        JSON.objectNode()
            .put("id", address(marker, "canvas/p" + canvas.number()))
            .put("type", "Canvas");
    source.putArray("partOf").addObject().put("id", base + path(marker)).put("type", "Manifest");
    return canvas
        .annotations()
        .on(
            canvas.shot().id(),
            what,
            new PictureAnnotations.Target(
                source, 1, 1, canvas.shot().widthPx(), canvas.shot().heightPx()),
            address(marker, canvas.page(what)) + "#",
            "supplementing");
  }

  private ObjectNode canvas(MarkerId marker, Canvas of) {
    ReadFrom.Shot shot = of.shot();
    ObjectNode canvas =
        JSON.objectNode()
            .put("id", address(marker, "canvas/p" + of.number()))
            .put("type", "Canvas");
    canvas.set("label", english(of.face().says().face().name() + ", photograph " + of.number()));
    canvas.put("height", shot.heightPx()).put("width", shot.widthPx());
    shot.rights()
        .filter(rights -> RIGHTS.matcher(rights).matches())
        .ifPresent(rights -> canvas.put("rights", rights));
    String whose =
        Stream.of(
                shot.photographer().map(name -> "Photograph: " + name),
                shot.credit(),
                shot.rights())
            .flatMap(Optional::stream)
            .collect(Collectors.joining(". "));
    if (!whose.isEmpty()) {
      ObjectNode statement = canvas.putObject("requiredStatement");
      statement.set("label", english("Attribution"));
      statement.set("value", none(whose));
    }
    PictureFile file = of.file();
    ObjectNode page =
        canvas
            .putArray("items")
            .addObject()
            .put("id", address(marker, "canvas/p" + of.number() + "/page"))
            .put("type", "AnnotationPage");
    ObjectNode painting =
        page.putArray("items")
            .addObject()
            .put("id", address(marker, "canvas/p" + of.number() + "/painting"))
            .put("type", "Annotation")
            .put("motivation", "painting");
    painting
        .putObject("body")
        .put("id", file.address())
        .put("type", "Image")
        .put("format", file.mediaType())
        .put("height", file.heightPx())
        .put("width", file.widthPx());
    painting.put("target", canvas.path("id").asText());
    ArrayNode beside = JSON.arrayNode();
    for (PictureAnnotations.Of what : PictureAnnotations.Of.values()) {
      if (!items(marker, of, what).isEmpty()) {
        ObjectNode reference =
            beside
                .addObject()
                .put("id", address(marker, of.page(what)))
                .put("type", "AnnotationPage");
        reference.set("label", label(what));
      }
    }
    if (!beside.isEmpty()) {
      canvas.set("annotations", beside);
    }
    return canvas;
  }

  private ArrayNode metadata(MarkerId id) {
    ArrayNode pairs = JSON.arrayNode();
    List<ToldFace> own = faces.getOrDefault(id, List.of());
    Marker marker = own.get(0).says().marker();
    pair(pairs, "Ground", edition.ground());
    pair(pairs, "Marker", marker.number());
    if (!marker.earlierNumbers().isEmpty()) {
      pair(pairs, "Earlier numbers", String.join(", ", marker.earlierNumbers()));
    }
    ToldMarker told = markers.get(id);
    if (told != null) {
      told.description().kind().ifPresent(kind -> pair(pairs, "Kind", kind));
      told.description().form().ifPresent(form -> pair(pairs, "Form", form));
      told.description().material().ifPresent(material -> pair(pairs, "Material", material));
      told.description().size().ifPresent(size -> pair(pairs, "Size", size));
      if (!told.description().lettering().isEmpty()) {
        pair(pairs, "Lettering", String.join(", ", told.description().lettering()));
      }
      if (!told.emblems().isEmpty()) {
        pair(
            pairs,
            "Emblems",
            told.emblems().stream()
                .map(EmblemNote::name)
                .distinct()
                .collect(Collectors.joining(", ")));
      }
    }
    for (ToldFace face : own) {
      pair(
          pairs,
          "Inscription, " + face.says().face().name(),
          Leiden.print(face.says().inscription()));
    }
    return pairs;
  }

  private static void pair(ArrayNode pairs, String label, String value) {
    ObjectNode pair = pairs.addObject();
    pair.set("label", english(label));
    pair.set("value", none(value));
  }

  private static ObjectNode head(String id, String type, ObjectNode label) {
    ObjectNode head = JSON.objectNode().put("@context", CONTEXT).put("id", id).put("type", type);
    head.set("label", label);
    return head;
  }

  private static ObjectNode label(PictureAnnotations.Of what) {
    return english(what == PictureAnnotations.Of.LINES ? "Lines as read" : "Letters as read");
  }

  private static ObjectNode english(String text) {
    return text("en", text);
  }

  private static ObjectNode none(String text) {
    return text("none", text);
  }

  /** What begins and ends with angle brackets would be taken for HTML (section 4.5). */
  private static ObjectNode text(String language, String text) {
    ObjectNode map = JSON.objectNode();
    map.putArray(language).add(text.startsWith("<") && text.endsWith(">") ? " " + text : text);
    return map;
  }
}
