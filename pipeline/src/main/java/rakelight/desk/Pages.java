package rakelight.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import io.javalin.http.Context;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.Json;
import rakelight.work.Role;

/** Answers with pages and with JSON. */
final class Pages {
  private final Archive archive;
  private final Door door;
  private final TemplateEngine templates =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, Pages.class.getClassLoader(), "rakelight.desk.pages");

  Pages(Archive archive, Door door) {
    this.archive = archive;
    this.door = door;
  }

  /** Answers with a page; every template takes a {@link Page} beside its own parameters. */
  void show(Context context, String template, Map<String, Object> parameters) {
    Optional<Session> session = door.session(context);
    Map<String, Object> all = new HashMap<>(parameters);
    all.put(
        "page",
        new Page(
            archive.ground().name(),
            session.flatMap(Session::reader).orElse(""),
            session.map(Session::token).orElse(""),
            session.filter(one -> one.role() == Role.ARCHIVIST).isPresent(),
            session.filter(one -> one.role().mayDecide()).isEmpty(),
            archive.isOnlyLookedAt()));
    StringOutput html = new StringOutput();
    templates.render(template + ".jte", all, html);
    context.contentType("text/html; charset=utf-8").result(html.toString());
  }

  /** An answer to be filled. */
  static ObjectNode object() {
    return Json.mapper().createObjectNode().put("schema", 1);
  }

  static void json(Context context, ObjectNode answer) {
    context.contentType("application/json; charset=utf-8").result(Json.text(answer));
  }
}
