package rakelight.publish.epidoc;

import com.thaiopensource.util.PropertyMapBuilder;
import com.thaiopensource.validate.SchemaReader;
import com.thaiopensource.validate.ValidateProperty;
import com.thaiopensource.validate.ValidationDriver;
import com.thaiopensource.validate.auto.AutoSchemaReader;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.xml.sax.ErrorHandler;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;
import org.xml.sax.SAXParseException;

/**
 * The EpiDoc schema (RELAX NG, release 9.8), which isn't ours to carry. {@code
 * -Drakelight.schemas=FOLDER} says where it lies; {@code ../shared/schemas} beside the checkout is
 * looked at by itself. Where it is absent, tests that need it are skipped and say so.
 */
public final class EpidocSchema {
  private static final String FILE = "tei-epidoc-9.8.rng";

  private final ValidationDriver driver;
  private final List<String> errors = new ArrayList<>();

  private EpidocSchema(Path schema) {
    PropertyMapBuilder properties = new PropertyMapBuilder();
    properties.put(ValidateProperty.ERROR_HANDLER, new Collector());
    SchemaReader reader = new AutoSchemaReader();
    driver = new ValidationDriver(properties.toPropertyMap(), reader);
    try {
      if (!driver.loadSchema(new InputSource(schema.toUri().toString()))) {
        throw new AssertionError(schema + " is no schema: " + errors);
      }
    } catch (IOException | SAXException e) {
      throw new AssertionError(schema + " can't be read", e);
    }
  }

  /** The schema; the test that asks is skipped where there is none. */
  public static EpidocSchema orSkip() {
    List<Path> folders = new ArrayList<>();
    if (System.getProperty("rakelight.schemas") != null) {
      folders.add(Path.of(System.getProperty("rakelight.schemas")));
    }
    // From the checkout, or from one of its modules.
    folders.add(Path.of("../shared/schemas"));
    folders.add(Path.of("../../shared/schemas"));
    for (Path folder : folders) {
      if (Files.exists(folder.resolve(FILE))) {
        return new EpidocSchema(folder.resolve(FILE));
      }
    }
    Assumptions.abort(
        "Not checked against the EpiDoc schema: no "
            + FILE
            + " in "
            + folders
            + ". Download it from the EpiDoc project and name its folder with"
            + " -Drakelight.schemas=FOLDER.");
    throw new AssertionError("skipped");
  }

  /** What the schema has against a document; empty if it is valid. */
  public List<String> errors(String document) {
    errors.clear();
    try {
      driver.validate(new InputSource(new StringReader(document)));
    } catch (IOException | SAXException e) {
      errors.add(e.toString());
    }
    return List.copyOf(errors);
  }

  /** A document around the content of an edition. */
  public static String around(String edition) {
    return """
        <TEI xmlns="http://www.tei-c.org/ns/1.0"><teiHeader><fileDesc>
        <titleStmt><title>t</title></titleStmt><publicationStmt><p/></publicationStmt>
        <sourceDesc><p/></sourceDesc></fileDesc></teiHeader>
        <text><body><div type="edition"><ab>"""
        + edition
        + "</ab></div></body></text></TEI>";
  }

  private final class Collector implements ErrorHandler {
    @Override
    public void warning(SAXParseException e) {}

    @Override
    public void error(SAXParseException e) {
      errors.add("line " + e.getLineNumber() + ": " + e.getMessage());
    }

    @Override
    public void fatalError(SAXParseException e) {
      error(e);
    }
  }
}
