package rakelight.publish.iiif;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.temporal.ChronoUnit;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import rakelight.archive.PhotographId;
import rakelight.inscription.Candidate;
import rakelight.inscription.Leiden;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.publish.LetterPlaces;
import rakelight.publish.LetterPlaces.PlacedLetter;
import rakelight.publish.ReadFrom;
import rakelight.publish.ToldFace;

/**
 * Lines and letters of a face as Web Annotations on its photographs: the text of a line in Leiden
 * signs, a letter with its standing, or what it may be where the reader leaves that open. Each has
 * the rectangle around it as a fragment and its outline as SVG.
 */
public final class PictureAnnotations {
  private static final String CONTEXT = "http://www.w3.org/ns/anno.jsonld";
  private static final String FRAGMENT = "http://www.w3.org/TR/media-frags/";
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private final ToldFace face;
  private final ReadFrom from;
  private final LetterPlaces places;
  private Optional<List<PlacedLetter>> placed = Optional.empty();
  private final Reading reading;

  /**
   * What is annotated, a picture file or a canvas.
   *
   * @param scaleX how many of its pixels a pixel of the photograph is
   */
  record Target(ObjectNode source, double scaleX, double scaleY, int widthPx, int heightPx) {}

  /** Of what annotations are made. */
  enum Of {
    LINES,
    LETTERS;

    String label() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * @param from what the face was read from
   */
  public PictureAnnotations(ToldFace face, ReadFrom from, LetterPlaces places) {
    this.face = face;
    this.from = from;
    this.places = places;
    this.reading = face.says().reading().orElseThrow();
  }

  /**
   * All of a face on picture files, as a collection of one page; empty where no photograph that is
   * told shows a line or letter of it.
   *
   * @param address of the collection
   */
  public Optional<ObjectNode> collection(
      String address, Function<ReadFrom.Shot, Optional<PictureFile>> pictures) {
    ArrayNode items = JSON.arrayNode();
    for (Of what : Of.values()) {
      for (ReadFrom.Shot shot : from.shots()) {
        Optional<PictureFile> shown = pictures.apply(shot);
        if (shown.isEmpty()) {
          continue;
        }
        PictureFile picture = shown.get();
        Target target =
            new Target(
                JSON.objectNode()
                    .put("id", picture.address())
                    .put("type", "Image")
                    .put("format", picture.mediaType()),
                (double) picture.widthPx() / shot.widthPx(),
                (double) picture.heightPx() / shot.heightPx(),
                picture.widthPx(),
                picture.heightPx());
        String prefix = address + "#p" + (from.shots().indexOf(shot) + 1) + "-";
        items.addAll(
            on(shot.id(), what, target, prefix, what == Of.LINES ? "describing" : "identifying"));
      }
    }
    if (items.isEmpty()) {
      return Optional.empty();
    }
    ObjectNode collection =
        JSON.objectNode()
            .put("@context", CONTEXT)
            .put("id", address)
            .put("type", "AnnotationCollection")
            .put(
                "label",
                "Marker " + face.says().marker().number() + ", " + face.says().face().name())
            .put("total", items.size());
    ObjectNode page =
        collection
            .putObject("first")
            .put("id", address + "#page")
            .put("type", "AnnotationPage")
            .put("startIndex", 0);
    page.set("items", items);
    collection.put("last", address + "#page");
    return Optional.of(collection);
  }

  /** Those on one photograph, in reading order. */
  ArrayNode on(
      PhotographId photograph, Of what, Target target, String idPrefix, String motivation) {
    ArrayNode items = JSON.arrayNode();
    if (what == Of.LINES) {
      List<String> lines = Leiden.printLines(reading.inscription());
      for (ReadFrom.FoundAt found : from.lines()) {
        if (found.photograph().equals(photograph) && found.number() <= from.lineByLine()) {
          ObjectNode line = annotation(items, idPrefix + "line-" + found.number(), motivation);
          line.set("body", words(lines.get(found.number() - 1)));
          line.set("target", specific(target, found.outline()));
        }
      }
      return items;
    }
    Map<SignId, Letter> letters = new HashMap<>();
    for (Sign sign : reading.inscription().signs()) {
      if (sign instanceof Letter letter) {
        letters.put(letter.id(), letter);
      }
    }
    for (PlacedLetter at : placed()) {
      Letter letter = letters.get(at.sign());
      if (letter != null && at.photograph().equals(photograph)) {
        ObjectNode one = annotation(items, idPrefix + "sign-" + at.sign().number(), motivation);
        ArrayNode bodies = one.putArray("body");
        bodies.add(letter(letter));
        bodies.add(classified(standing(letter)));
        if (at.reckoned()) {
          bodies.add(classified("place worked out from the letters beside it"));
        }
        one.set("target", specific(target, at.outline()));
      }
    }
    return items;
  }

  private List<PlacedLetter> placed() {
    List<PlacedLetter> known = placed.orElseGet(() -> places.of(reading));
    placed = Optional.of(known);
    return known;
  }

  private ObjectNode annotation(ArrayNode items, String id, String motivation) {
    ObjectNode annotation =
        items.addObject().put("id", id).put("type", "Annotation").put("motivation", motivation);
    annotation.putObject("creator").put("type", "Person").put("name", reading.reader());
    // To the second, as the standard's examples have it.
    annotation.put("created", reading.at().truncatedTo(ChronoUnit.SECONDS).toString());
    return annotation;
  }

  private static ObjectNode words(String text) {
    return JSON.objectNode()
        .put("type", "TextualBody")
        .put("value", text)
        .put("format", "text/plain");
  }

  private static ObjectNode letter(Letter letter) {
    if (letter.candidates().isEmpty()) {
      return words(letter.text()).put("purpose", "identifying");
    }
    ObjectNode choice = JSON.objectNode().put("type", "Choice");
    ArrayNode items = choice.putArray("items");
    for (Candidate candidate : letter.candidates()) {
      items.add(words(candidate.text()).put("purpose", "identifying"));
    }
    return choice;
  }

  private static ObjectNode classified(String as) {
    return words(as).put("purpose", "classifying");
  }

  private static String standing(Letter letter) {
    return letter.standing().name().toLowerCase(Locale.ROOT).replace('_', ' ')
        + (letter.doubtful() ? ", doubtful" : "")
        + (letter.damaged() ? ", damaged" : "")
        + (letter.erased() ? ", erased" : "");
  }

  /** An outline may reach beyond the picture, which nothing on a canvas may (section 5.3). */
  private static ObjectNode specific(Target target, Polygon outline) {
    Polygon there =
        outline.map(
            point ->
                new Point(
                    within(point.x() * target.scaleX(), target.widthPx()),
                    within(point.y() * target.scaleY(), target.heightPx())));
    ObjectNode specific = JSON.objectNode().put("type", "SpecificResource");
    specific.set("source", target.source());
    ArrayNode selectors = specific.putArray("selector");
    selectors
        .addObject()
        .put("type", "FragmentSelector")
        .put("conformsTo", FRAGMENT)
        .put("value", "xywh=" + rectangle(there));
    selectors
        .addObject()
        .put("type", "SvgSelector")
        .put(
            "value",
            "<svg xmlns=\"http://www.w3.org/2000/svg\"><polygon points=\""
                + there.points().stream()
                    .map(point -> plain(point.x()) + "," + plain(point.y()))
                    .collect(Collectors.joining(" "))
                + "\"/></svg>");
    return specific;
  }

  private static double within(double px, int mostPx) {
    return Math.max(0, Math.min(mostPx, px));
  }

  /** Whole pixels around it. */
  private static String rectangle(Polygon outline) {
    long left = (long) Math.floor(outline.left());
    long top = (long) Math.floor(outline.top());
    long wide = Math.max(1, (long) Math.ceil(outline.right()) - left);
    long high = Math.max(1, (long) Math.ceil(outline.bottom()) - top);
    return left + "," + top + "," + wide + "," + high;
  }

  private static String plain(double px) {
    BigDecimal rounded = BigDecimal.valueOf(px).setScale(1, RoundingMode.HALF_UP);
    return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
  }
}
