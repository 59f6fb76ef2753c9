package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import rakelight.archive.Json;

/** Machine output: one JSON object a line, each of schema 1, nothing else on the stream. */
final class JsonLines {
  private static final int SCHEMA = 1;

  private JsonLines() {}

  /** A new object with the schema in front. */
  static ObjectNode object() {
    return Json.mapper().createObjectNode().put("schema", SCHEMA);
  }

  static void print(PrintWriter out, ObjectNode object) {
    out.print(Json.text(object));
    out.print('\n');
    out.flush();
  }
}
