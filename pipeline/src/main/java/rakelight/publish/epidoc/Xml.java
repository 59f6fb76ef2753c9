package rakelight.publish.epidoc;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16;
import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayInputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.XMLConstants;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;

/**
 * Reads and writes TEI documents. A document that declares a type or entities is refused, so that
 * nothing outside of it is ever fetched and nothing in it multiplies; size and depth are bounded.
 */
public final class Xml {
  /** The namespace of TEI. */
  public static final String TEI = "http://www.tei-c.org/ns/1.0";

  /** The largest document taken; an inscription's is some tens of kilobytes. */
  public static final int MOST_BYTES = 4 << 20;

  /** The deepest nesting taken. */
  public static final int DEEPEST = 100;

  private static final int MOST_ATTRIBUTES = 100;

  /** An XML declaration, which stands first, is far shorter. */
  private static final int MOST_HEAD_BYTES = 200;

  private static final Pattern ENCODING =
      Pattern.compile(
          "^(?:\\xef\\xbb\\xbf)?<\\?xml[^>]*encoding\\s*=\\s*[\"']([A-Za-z0-9._-]+)[\"']");

  /** An element whose end hasn't come yet. */
  private record Open(
      String name, Map<String, String> attributes, List<XmlNode> children, int line) {
    XmlElement closed() {
      return new XmlElement(name, attributes, children, line);
    }
  }

  private Xml() {}

  /**
   * Reads a document.
   *
   * @throws EpidocException if it isn't well-formed, declares a document type, or is too large or
   *     too deep
   */
  public static XmlElement parse(byte[] document) throws EpidocException {
    if (document.length > MOST_BYTES) {
      throw new EpidocException(
          1, "the file is larger than " + (MOST_BYTES >> 20) + " MB; an edition is far smaller.");
    }
    requireDecodable(document);
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_COALESCING, true);
    try {
      XMLStreamReader reader = factory.createXMLStreamReader(new ByteArrayInputStream(document));
      try {
        return tree(reader);
      } finally {
        reader.close();
      }
    } catch (XMLStreamException e) {
      int line = e.getLocation() == null ? 1 : Math.max(1, e.getLocation().getLineNumber());
      String reason = String.valueOf(e.getMessage()).replaceAll("(?s).*Message: ", "");
      throw new EpidocException(line, "no well-formed XML: " + reason.replaceAll("\\s+", " "));
    }
  }

  /**
   * Refuses bytes that aren't text in the encoding the document names. The parser would refuse them
   * too, but prints a line of its own about it that nobody can keep it from.
   */
  private static void requireDecodable(byte[] document) throws EpidocException {
    Matcher named = ENCODING.matcher(new String(document, 0, headBytes(document), ISO_8859_1));
    boolean declared = named.find();
    Charset charset = isUtf16(document) ? UTF_16 : UTF_8;
    if (declared) {
      try {
        charset = Charset.forName(named.group(1));
      } catch (IllegalArgumentException e) {
        return; // The parser says that it doesn't know it.
      }
    }
    ByteBuffer in = ByteBuffer.wrap(document);
    CharsetDecoder decoder = charset.newDecoder();
    CharBuffer out = CharBuffer.allocate(8192);
    CoderResult result = decoder.decode(in, out, true);
    while (result.isOverflow()) {
      out.clear();
      result = decoder.decode(in, out, true);
    }
    if (result.isError()) {
      int line = 1;
      for (int i = 0; i < in.position(); i++) {
        line += document[i] == '\n' ? 1 : 0;
      }
      throw new EpidocException(
          line,
          "byte "
              + (in.position() + 1)
              + " of the file isn't "
              + charset.name()
              + (declared ? ", though it says so" : ", and it names no other encoding")
              + ". Save it as UTF-8 in the program it comes from, or name its encoding in the first"
              + " line.");
    }
  }

  private static int headBytes(byte[] document) {
    return Math.min(document.length, MOST_HEAD_BYTES);
  }

  /** XML 1.0, appendix F: such a document begins with a byte order mark. */
  private static boolean isUtf16(byte[] document) {
    return document.length > 1
        && ((document[0] == (byte) 0xfe && document[1] == (byte) 0xff)
            || (document[0] == (byte) 0xff && document[1] == (byte) 0xfe));
  }

  private static XmlElement tree(XMLStreamReader reader)
      throws XMLStreamException, EpidocException {
    Deque<Open> open = new ArrayDeque<>();
    while (reader.hasNext()) {
      switch (reader.next()) {
        case XMLStreamConstants.DTD, XMLStreamConstants.ENTITY_REFERENCE ->
            throw new EpidocException(
                line(reader), "declares or uses a document type or entities; take those out.");
        case XMLStreamConstants.START_ELEMENT -> {
          if (open.size() == DEEPEST) {
            throw new EpidocException(
                line(reader), "elements lie more than " + DEEPEST + " deep within each other.");
          }
          open.push(
              new Open(
                  name(reader.getNamespaceURI(), reader.getLocalName()),
                  attributes(reader),
                  new ArrayList<>(),
                  line(reader)));
        }
        case XMLStreamConstants.END_ELEMENT -> {
          XmlElement element = open.pop().closed();
          if (open.isEmpty()) {
            // The rest is read too, so that a file cut in two or glued together is refused.
            while (reader.hasNext()) {
              reader.next();
            }
            return element;
          }
          open.element().children().add(element);
        }
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE -> {
          if (!open.isEmpty()) {
            open.element().children().add(new XmlText(reader.getText()));
          }
        }
        default -> {
          // Comments and processing instructions say nothing of the stone.
        }
      }
    }
    throw new EpidocException(line(reader), "no element in it.");
  }

  private static int line(XMLStreamReader reader) {
    return Math.max(1, reader.getLocation().getLineNumber());
  }

  private static String name(@Nullable String namespace, String local) {
    return namespace == null || namespace.isEmpty()
        ? "{}" + local
        : namespace.equals(TEI) ? local : "{" + namespace + "}" + local;
  }

  private static Map<String, String> attributes(XMLStreamReader reader) throws EpidocException {
    if (reader.getAttributeCount() > MOST_ATTRIBUTES) {
      throw new EpidocException(line(reader), "more than " + MOST_ATTRIBUTES + " attributes.");
    }
    Map<String, String> attributes = new LinkedHashMap<>();
    for (int i = 0; i < reader.getAttributeCount(); i++) {
      String namespace = reader.getAttributeNamespace(i);
      String local = reader.getAttributeLocalName(i);
      String name =
          namespace == null || namespace.isEmpty()
              ? local
              : namespace.equals(XMLConstants.XML_NS_URI)
                  ? "xml:" + local
                  : "{" + namespace + "}" + local;
      attributes.put(name, reader.getAttributeValue(i));
    }
    return attributes;
  }

  /**
   * A document with this root, which gets the namespace of TEI. Elements that hold no text are
   * indented; a line of an inscription begins on a line of its own unless a word runs on over it.
   */
  public static String print(XmlElement root) {
    StringBuilder out = new StringBuilder("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    Map<String, String> attributes = new LinkedHashMap<>();
    attributes.put("xmlns", TEI);
    attributes.putAll(root.attributes());
    print(new XmlElement(root.name(), attributes, root.children(), 0), 0, out);
    return out.append('\n').toString();
  }

  /** An element as it stands within a document of TEI, indented so deep. */
  static String within(XmlElement element, int depth) {
    StringBuilder out = new StringBuilder("  ".repeat(depth));
    print(element, depth, out);
    return out.append('\n').toString();
  }

  private static void print(XmlElement element, int depth, StringBuilder out) {
    open(element, out);
    boolean mixed =
        element.name().equals("ab")
            || element.name().equals("lem")
            || element.name().equals("rdg")
            || element.children().stream().anyMatch(child -> child instanceof XmlText);
    if (mixed) {
      element.children().forEach(child -> inline(child, out));
    } else {
      for (XmlElement child : element.elements()) {
        out.append('\n').append("  ".repeat(depth + 1));
        print(child, depth + 1, out);
      }
      if (!element.children().isEmpty()) {
        out.append('\n').append("  ".repeat(depth));
      }
    }
    close(element, out);
  }

  private static void inline(XmlNode node, StringBuilder out) {
    if (node instanceof XmlText run) {
      out.append(escaped(run.text()));
    } else if (node instanceof XmlElement element) {
      if (element.name().equals("lb") && !element.attributes().containsKey("break")) {
        out.append('\n');
      }
      open(element, out);
      element.children().forEach(child -> inline(child, out));
      close(element, out);
    }
  }

  private static void open(XmlElement element, StringBuilder out) {
    out.append('<').append(element.name());
    element
        .attributes()
        .forEach(
            (name, value) ->
                out.append(' ')
                    .append(name)
                    .append("=\"")
                    .append(escaped(value).replace("\"", "&quot;").replace("\n", "&#10;"))
                    .append('"'));
    out.append(element.children().isEmpty() ? "/>" : ">");
  }

  private static void close(XmlElement element, StringBuilder out) {
    if (!element.children().isEmpty()) {
      out.append("</").append(element.name()).append('>');
    }
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\r", "&#13;");
  }
}
