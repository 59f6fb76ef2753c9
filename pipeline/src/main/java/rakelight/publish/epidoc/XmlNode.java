package rakelight.publish.epidoc;

/** What an element of an XML document holds: text and further elements. */
public sealed interface XmlNode permits XmlElement, XmlText {}
