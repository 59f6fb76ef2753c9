package rakelight.publish.site;

import java.io.Writer;
import java.util.Map;

/** Whoever fills templates; they lie with those of the desk, which this package doesn't know. */
public interface Rendering {
  /**
   * Writes a page.
   *
   * @param template its name, such as {@code site/sitemarker}
   */
  void render(String template, Map<String, Object> parameters, Writer out);
}
