package rakelight.desk;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.WriterOutput;
import java.io.Writer;
import java.util.Map;
import rakelight.publish.site.Rendering;

/** Fills the templates of a ground's web site, which are compiled with those of the desk. */
public final class SitePages implements Rendering {
  private final TemplateEngine templates =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, SitePages.class.getClassLoader(), "rakelight.desk.pages");

  @Override
  public void render(String template, Map<String, Object> parameters, Writer out) {
    templates.render(template + ".jte", parameters, new WriterOutput(out));
  }
}
