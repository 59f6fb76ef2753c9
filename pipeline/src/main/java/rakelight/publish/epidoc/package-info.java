/**
 * EpiDoc's one room: readings as TEI P5 XML after the EpiDoc Guidelines, out and in, and the XML
 * they are written in. Readings, persons and photographs of a ground enter; documents that other
 * tools read leave ({@link rakelight.publish.epidoc.EpidocExport}), and readings from elsewhere
 * come in ({@link rakelight.publish.epidoc.EpidocImport}). Don't decide here what may be published.
 */
@NullMarked
package rakelight.publish.epidoc;

import org.jspecify.annotations.NullMarked;
