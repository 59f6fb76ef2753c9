package rakelight.publish.site;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Json;
import rakelight.inscription.Leiden;
import rakelight.person.Person;
import rakelight.person.Statement.Kind;
import rakelight.publish.ToldFace;

/**
 * What pages say of themselves to programs: JSON-LD in the words of <a
 * href="https://schema.org">schema.org</a> ({@code WebSite}, {@code Cemetery}, {@code
 * VisualArtwork}, {@code ImageObject}, {@code Person}, {@code CollectionPage}), and the fifteen
 * elements of Dublin Core as DCMI writes them in HTML ("Expressing Dublin Core metadata using
 * HTML/XHTML meta and link elements", 2008). Only days, months and years that are sure are dates.
 */
final class LinkedData {
  private static final String CONTEXT = "https://schema.org";
  private static final String SURE_DATE = "[0-9]{4}(-[0-9]{2}(-[0-9]{2})?)?";

  private final String ground;
  private final SiteWish wish;

  LinkedData(String ground, SiteWish wish) {
    this.ground = ground;
    this.wish = wish;
  }

  private ObjectNode thing(String type, String path) {
    ObjectNode thing = Json.mapper().createObjectNode().put("@context", CONTEXT).put("@type", type);
    wish.absolute(path).ifPresent(url -> thing.put("@id", url).put("url", url));
    return thing;
  }

  private void cemetery(ObjectNode of, String field) {
    of.putObject(field).put("@type", "Cemetery").put("name", ground);
  }

  /** The front page. */
  String site(String said) {
    ObjectNode site = thing("WebSite", "index.html");
    site.put("name", "Grave markers of " + ground)
        .put("description", said)
        .put("inLanguage", "en")
        .put("dateModified", wish.day().toString());
    cemetery(site, "about");
    wish.publisher()
        .ifPresent(
            name -> site.putObject("publisher").put("@type", "Organization").put("name", name));
    return text(site);
  }

  /** Any other list. */
  String collection(String path, String title, String said) {
    ObjectNode page = thing("CollectionPage", path);
    page.put("name", title)
        .put("description", said)
        .put("inLanguage", "en")
        .put("dateModified", wish.day().toString());
    cemetery(page, "about");
    return text(page);
  }

  /** A marker with its readings, photographs and persons. */
  String marker(
      String path, String number, List<ToldFace> faces, List<Leaf.Face> shown, List<Person> who) {
    ObjectNode stone = thing("VisualArtwork", path);
    stone
        .put("name", "Marker " + number)
        .put("artform", "grave marker")
        .put("identifier", number)
        .put("inLanguage", "en")
        .put("dateModified", wish.day().toString());
    cemetery(stone, "contentLocation");
    List<String> texts = new ArrayList<>();
    faces.forEach(
        face -> texts.add(String.join("\n", Leiden.printLines(face.says().inscription()))));
    stone.put("text", String.join("\n\n", texts));
    ArrayNode images = Json.mapper().createArrayNode();
    for (Leaf.Face face : shown) {
      if (!face.hero().picture().isEmpty()) {
        image(images.addObject(), face.hero().picture(), face.hero().alt(), face.hero().credit());
      }
      face.others()
          .forEach(shot -> image(images.addObject(), shot.picture(), shot.alt(), shot.credit()));
    }
    if (!images.isEmpty()) {
      stone.set("image", images);
    }
    ArrayNode about = Json.mapper().createArrayNode();
    for (Person person : who) {
      if (person.isCommemorated() && !person.isUnnamed()) {
        ObjectNode one = about.addObject().put("@type", "Person").put("name", person.called());
        sure(person, Kind.BIRTH).ifPresent(day -> one.put("birthDate", day));
        sure(person, Kind.DEATH).ifPresent(day -> one.put("deathDate", day));
      }
    }
    if (!about.isEmpty()) {
      stone.set("about", about);
    }
    return text(stone);
  }

  private void image(ObjectNode image, String picture, String alt, String credit) {
    String path = picture.replaceFirst("^(\\.\\./)*", "");
    image
        .put("@type", "ImageObject")
        .put("contentUrl", wish.absolute(path).orElse(picture))
        .put("caption", alt);
    if (!credit.isEmpty()) {
      image.put("creditText", credit);
    }
  }

  private static Optional<String> sure(Person person, Kind kind) {
    List<String> values = person.values(kind);
    return values.size() == 1 && !person.isWorkedOut(kind)
        ? Optional.of(values.get(0)).filter(value -> value.matches(SURE_DATE))
        : Optional.empty();
  }

  /** Nothing in it can end the script it stands in. */
  private static String text(ObjectNode thing) {
    return Json.text(thing).replace("&", "\\u0026").replace("<", "\\u003c");
  }

  /** Dublin Core of a page. */
  List<SiteFrame.Element> elements(
      String path, String title, String said, String type, Optional<String> creator) {
    List<SiteFrame.Element> elements = new ArrayList<>();
    elements.add(new SiteFrame.Element("title", title));
    creator.ifPresent(name -> elements.add(new SiteFrame.Element("creator", name)));
    elements.add(new SiteFrame.Element("subject", "grave markers"));
    elements.add(new SiteFrame.Element("description", said));
    elements.add(new SiteFrame.Element("publisher", wish.publisher().orElse(ground)));
    elements.add(new SiteFrame.Element("date", wish.day().toString()));
    elements.add(new SiteFrame.Element("type", type));
    elements.add(new SiteFrame.Element("format", "text/html"));
    elements.add(new SiteFrame.Element("identifier", wish.absolute(path).orElse(path)));
    elements.add(new SiteFrame.Element("language", "en"));
    elements.add(new SiteFrame.Element("coverage", ground));
    return elements;
  }
}
