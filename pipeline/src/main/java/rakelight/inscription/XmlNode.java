package rakelight.inscription;

/** What an element of an XML document holds: text and further elements. */
public sealed interface XmlNode permits XmlElement, XmlText {}
