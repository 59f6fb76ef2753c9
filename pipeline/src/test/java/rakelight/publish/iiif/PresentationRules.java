package rakelight.publish.iiif;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.URI;
import java.net.URISyntaxException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A judge of IIIF and Web Annotation documents that knows nothing of the writer.
 *
 * <p>Sources: IIIF Presentation API 3.0 (3 June 2020), appendix A "Summary of Property
 * Requirements" for what each type must and must not have, sections 3.1 (rights, label, metadata),
 * 4.4 (language maps), 4.5 (HTML), 5.3 (canvases and what lies on them), 5.5 and 5.6 (pages,
 * annotations); W3C Web Annotation Data Model (23 February 2017), sections 3.1 (annotations), 3.2.4
 * (textual bodies), 3.2.7 (choices), 3.3.5 (motivations), 4.2.1 and 4.2.8 (fragment and SVG
 * selectors), 5.1 and 5.2 (collections, pages).
 */
public final class PresentationRules {
  private static final String IIIF = "http://iiif.io/api/presentation/3/context.json";
  private static final String ANNO = "http://www.w3.org/ns/anno.jsonld";
  private static final String FRAGMENTS = "http://www.w3.org/TR/media-frags/";

  /** Of each type what it must have, and what of the specification's properties it may have. */
  private static final Map<String, Set<String>> REQUIRED =
      Map.of(
          "Collection", Set.of("id", "type", "label", "items"),
          "Manifest", Set.of("id", "type", "label", "items"),
          "Canvas", Set.of("id", "type"),
          "AnnotationPage", Set.of("id", "type"),
          "Annotation", Set.of("id", "type"),
          "Image", Set.of("id", "type"));

  private static final Map<String, Set<String>> FORBIDDEN =
      Map.of(
          "Collection",
          Set.of("language", "format", "profile", "height", "width", "duration", "structures"),
          "Manifest",
          Set.of("language", "format", "profile", "height", "width", "duration"),
          "Canvas",
          Set.of("language", "format", "profile", "viewingDirection", "structures"),
          "AnnotationPage",
          Set.of("format", "height", "width", "duration", "structures", "annotations"),
          "Annotation",
          Set.of("format", "height", "width", "duration", "items", "structures", "annotations"),
          "Image",
          Set.of("navDate", "items", "structures", "viewingDirection"));

  private static final Set<String> MOTIVATIONS =
      Set.of(
          "assessing",
          "bookmarking",
          "classifying",
          "commenting",
          "describing",
          "editing",
          "highlighting",
          "identifying",
          "linking",
          "moderating",
          "questioning",
          "replying",
          "tagging");

  private static final Pattern RECTANGLE = Pattern.compile("xywh=(\\d+),(\\d+),(\\d+),(\\d+)");
  private static final Pattern CORNERS =
      Pattern.compile(
          "<svg xmlns=\"http://www.w3.org/2000/svg\"><polygon points=\"([-0-9., ]+)\"/></svg>");

  private final List<String> broken = new ArrayList<>();
  private final Set<String> ids = new HashSet<>();
  private final Map<String, double[]> sizes = new HashMap<>();

  private PresentationRules() {}

  /**
   * What a document breaks; empty if nothing.
   *
   * @param sizes width and height of what annotations lie on, by its id; what isn't in it isn't
   *     measured. Canvases of the document are added
   */
  public static List<String> broken(JsonNode document, Map<String, double[]> sizes) {
    PresentationRules rules = new PresentationRules();
    rules.sizes.putAll(sizes);
    String type = document.path("type").asText();
    boolean plain = type.equals("AnnotationCollection");
    rules.require(
        document.path("@context").asText().equals(plain ? ANNO : IIIF), "the context of a " + type);
    if (plain) {
      rules.collectionOfAnnotations(document);
    } else {
      rules.resource(document, true);
    }
    sizes.putAll(rules.sizes);
    return rules.broken;
  }

  private void require(boolean holds, String what) {
    if (!holds) {
      broken.add(what);
    }
  }

  private void resource(JsonNode node, boolean whole) {
    String type = node.path("type").asText();
    require(REQUIRED.containsKey(type), "type " + type);
    for (String name : REQUIRED.getOrDefault(type, Set.of())) {
      require(node.has(name) || (!whole && name.equals("items")), type + " without " + name);
    }
    for (String name : FORBIDDEN.getOrDefault(type, Set.of())) {
      require(!node.has(name), type + " with " + name);
    }
    id(node, whole);
    languages(node);
    switch (type) {
      case "Collection" -> node.path("items").forEach(item -> resource(item, false));
      case "Manifest" -> {
        if (whole) {
          require(node.path("items").size() > 0, "a manifest without a canvas");
          node.path("items").forEach(this::canvas);
        }
      }
      case "AnnotationPage" ->
          node.path("items").forEach(item -> annotation(item, Set.of("supplementing")));
      default -> broken.add("a document of type " + type);
    }
  }

  private void id(JsonNode node, boolean once) {
    String id = node.path("id").asText();
    require(isHttp(id), "id " + id);
    require(!once || ids.add(id), "id given twice: " + id);
  }

  private static boolean isHttp(String address) {
    try {
      URI uri = new URI(address);
      return uri.getHost() != null && Set.of("http", "https").contains(uri.getScheme());
    } catch (URISyntaxException e) {
      return false;
    }
  }

  /** Sections 3.1 and 4.4: texts are maps from a language to texts. */
  private void languages(JsonNode node) {
    for (String name : List.of("label", "summary")) {
      if (node.has(name)) {
        map(node.path(name), name);
      }
    }
    for (JsonNode pair : node.path("metadata")) {
      map(pair.path("label"), "metadata");
      map(pair.path("value"), "metadata");
    }
    if (node.has("requiredStatement")) {
      map(node.path("requiredStatement").path("label"), "requiredStatement");
      map(node.path("requiredStatement").path("value"), "requiredStatement");
    }
    if (node.has("rights")) {
      require(
          node.path("rights")
              .asText()
              .matches("https?://(creativecommons\\.org|rightsstatements\\.org)/.*"),
          "rights");
    }
  }

  private void map(JsonNode texts, String of) {
    require(texts.isObject() && texts.size() > 0, of + " isn't a map of languages");
    texts
        .fields()
        .forEachRemaining(
            language -> {
              require(language.getKey().matches("none|[a-z]{2,3}(-\\w+)*"), of + ": language");
              require(
                  language.getValue().isArray() && language.getValue().size() > 0,
                  of + " isn't a list of texts");
              for (JsonNode text : language.getValue()) {
                String words = text.asText();
                require(
                    text.isTextual() && !(words.startsWith("<") && words.endsWith(">")),
                    of + " would be taken for HTML");
              }
            });
  }

  private void canvas(JsonNode canvas) {
    require(canvas.path("type").asText().equals("Canvas"), "an item that is no canvas");
    id(canvas, true);
    languages(canvas);
    FORBIDDEN
        .getOrDefault("Canvas", Set.of())
        .forEach(name -> require(!canvas.has(name), "Canvas with " + name));
    String id = canvas.path("id").asText();
    require(!id.contains("#"), "a canvas has no fragment");
    require(
        canvas.path("height").asInt() > 0 && canvas.path("width").asInt() > 0,
        "a canvas without height and width");
    sizes.put(id, new double[] {canvas.path("width").asDouble(), canvas.path("height").asDouble()});
    require(canvas.path("items").size() > 0, "nothing is painted on a canvas");
    for (JsonNode page : canvas.path("items")) {
      require(page.path("type").asText().equals("AnnotationPage"), "no page on a canvas");
      id(page, true);
      for (JsonNode painting : page.path("items")) {
        id(painting, true);
        require(painting.path("motivation").asText().equals("painting"), "motivation painting");
        require(painting.path("target").asText().equals(id), "a painting's target");
        JsonNode body = painting.path("body");
        require(
            body.path("type").asText().equals("Image")
                && isHttp(body.path("id").asText())
                && body.path("format").asText().startsWith("image/")
                && body.path("height").asInt() > 0
                && body.path("width").asInt() > 0,
            "a painting's body");
      }
    }
    for (JsonNode page : canvas.path("annotations")) {
      require(page.path("type").asText().equals("AnnotationPage"), "annotations are pages");
      id(page, true);
      require(!page.has("items"), "a page that is only led to has no items");
      languages(page);
    }
  }

  // Web Annotations

  private void collectionOfAnnotations(JsonNode collection) {
    id(collection, true);
    require(collection.path("label").isTextual(), "a label is a text there");
    JsonNode page = collection.path("first");
    require(page.path("type").asText().equals("AnnotationPage"), "first is a page");
    id(page, true);
    require(collection.path("total").asInt(-1) == page.path("items").size(), "total");
    require(page.path("startIndex").asInt(-1) == 0, "startIndex");
    require(collection.path("last").equals(page.path("id")), "last");
    page.path("items").forEach(item -> annotation(item, MOTIVATIONS));
  }

  private void annotation(JsonNode annotation, Set<String> motivations) {
    require(annotation.path("type").asText().equals("Annotation"), "type Annotation");
    id(annotation, true);
    require(
        motivations.contains(annotation.path("motivation").asText()),
        "motivation " + annotation.path("motivation"));
    require(
        annotation.path("created").asText().matches("\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\dZ"),
        "created");
    JsonNode body = annotation.path("body");
    if (body.isArray()) {
      body.forEach(this::body);
    } else {
      body(body);
    }
    JsonNode target = annotation.path("target");
    require(target.path("type").asText().equals("SpecificResource"), "a specific resource");
    String source = target.path("source").path("id").asText();
    require(isHttp(source), "source");
    require(target.path("selector").size() == 2, "two selectors");
    double[] size = sizes.get(source);
    for (JsonNode selector : target.path("selector")) {
      selector(selector, size);
    }
  }

  private void body(JsonNode body) {
    if (body.path("type").asText().equals("Choice")) {
      require(body.path("items").size() > 1, "a choice of one");
      body.path("items").forEach(this::body);
      return;
    }
    require(body.path("type").asText().equals("TextualBody"), "a textual body");
    require(body.path("value").isTextual(), "a body's value");
    require(!body.has("purpose") || MOTIVATIONS.contains(body.path("purpose").asText()), "purpose");
  }

  private void selector(JsonNode selector, double @Nullable [] size) {
    String value = selector.path("value").asText();
    List<double[]> corners = new ArrayList<>();
    if (selector.path("type").asText().equals("FragmentSelector")) {
      require(selector.path("conformsTo").asText().equals(FRAGMENTS), "conformsTo");
      Matcher matcher = RECTANGLE.matcher(value);
      require(matcher.matches(), value);
      if (matcher.matches()) {
        double left = Double.parseDouble(matcher.group(1));
        double top = Double.parseDouble(matcher.group(2));
        corners.add(new double[] {left, top});
        corners.add(
            new double[] {
              left + Double.parseDouble(matcher.group(3)),
              top + Double.parseDouble(matcher.group(4))
            });
      }
    } else {
      require(selector.path("type").asText().equals("SvgSelector"), "an SVG selector");
      Matcher matcher = CORNERS.matcher(value);
      require(matcher.matches(), value);
      if (matcher.matches()) {
        for (String corner : matcher.group(1).split(" ", -1)) {
          String[] xy = corner.split(",", -1);
          corners.add(new double[] {Double.parseDouble(xy[0]), Double.parseDouble(xy[1])});
        }
        require(corners.size() >= 3, "an outline of three corners");
      }
    }
    for (double[] at : corners) {
      require(
          at[0] >= 0 && at[1] >= 0 && (size == null || (at[0] <= size[0] && at[1] <= size[1])),
          "beyond what it lies on: " + value);
    }
  }
}
