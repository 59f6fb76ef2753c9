package rakelight.publish.epidoc;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * An element of a TEI document. Comments and processing instructions aren't kept.
 *
 * @param name without prefix for elements of TEI, {@code {namespace}name} for others
 * @param attributes by name, {@code xml:id} and {@code xml:lang} with their prefix, others of a
 *     namespace as {@code {namespace}name}
 * @param line of the file, from 1; 0 for an element made here
 */
public record XmlElement(
    String name, Map<String, String> attributes, List<XmlNode> children, int line)
    implements XmlNode {
  public XmlElement {
    attributes = Collections.unmodifiableMap(new LinkedHashMap<>(attributes));
    children = List.copyOf(children);
  }

  /** A new element around these. */
  public static XmlElement of(String name, List<? extends XmlNode> children) {
    return new XmlElement(name, Map.of(), List.copyOf(children), 0);
  }

  /** A new element around these. */
  public static XmlElement of(String name, XmlNode... children) {
    return of(name, List.of(children));
  }

  /** A new element around text alone. */
  public static XmlElement of(String name, String text) {
    return of(name, new XmlText(text));
  }

  /** The same with one more attribute, the last. */
  public XmlElement with(String attribute, String value) {
    Map<String, String> more = new LinkedHashMap<>(attributes);
    more.put(attribute, new XmlText(value).text());
    return new XmlElement(name, more, children, line);
  }

  /** The same with more children, the last ones. */
  public XmlElement with(List<? extends XmlNode> more) {
    List<XmlNode> all = new ArrayList<>(children);
    all.addAll(more);
    return new XmlElement(name, attributes, all, line);
  }

  public Optional<String> attribute(String attribute) {
    return Optional.ofNullable(attributes.get(attribute));
  }

  /** The elements it directly holds. */
  public List<XmlElement> elements() {
    return children.stream()
        .flatMap(child -> child instanceof XmlElement element ? Stream.of(element) : Stream.empty())
        .toList();
  }

  /** The elements of a name that it directly holds. */
  public List<XmlElement> elements(String wanted) {
    return elements().stream().filter(element -> element.name().equals(wanted)).toList();
  }

  /** The first element along a path of names, each directly within the one before. */
  public Optional<XmlElement> first(String... path) {
    Optional<XmlElement> at = Optional.of(this);
    for (String step : path) {
      at = at.flatMap(element -> element.elements(step).stream().findFirst());
    }
    return at;
  }

  /** This element and all within it, in document order. */
  public Stream<XmlElement> all() {
    return Stream.concat(Stream.of(this), elements().stream().flatMap(XmlElement::all));
  }

  /** Its text and that of all within it, white space made single. */
  public String text() {
    StringBuilder text = new StringBuilder();
    gather(this, text);
    return text.toString().replaceAll("\\s+", " ").strip();
  }

  private static void gather(XmlElement element, StringBuilder text) {
    for (XmlNode child : element.children()) {
      if (child instanceof XmlText run) {
        text.append(run.text());
      } else if (child instanceof XmlElement inner) {
        gather(inner, text);
      }
    }
  }
}
