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
  private static final TemplateEngine TEMPLATES =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, Pages.class.getClassLoader(), "rakelight.desk.pages");

  private final Archive archive;
  private final Door door;
  private final boolean application;

  Pages(Archive archive, Door door, boolean application) {
    this.archive = archive;
    this.door = door;
    this.application = application;
  }

  /** Answers with a page; every template takes a {@link Page} beside its own parameters. */
  void show(Context context, String template, Map<String, Object> parameters) {
    Optional<Session> session = door.session(context);
    show(
        context,
        template,
        new Page(
            archive.ground().name(),
            session.flatMap(Session::reader).orElse(""),
            session.map(Session::token).orElse(""),
            session.filter(one -> one.role() == Role.ARCHIVIST).isPresent(),
            session.filter(one -> one.role().mayDecide()).isEmpty(),
            application,
            archive.isOnlyLookedAt()),
        parameters);
  }

  /** The same where there is no archive yet. */
  static void show(Context context, String template, Page page, Map<String, Object> parameters) {
    Map<String, Object> all = new HashMap<>(parameters);
    all.put("page", page);
    StringOutput html = new StringOutput();
    TEMPLATES.render(template + ".jte", all, html);
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
