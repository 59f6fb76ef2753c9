package rakelight.marker;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.archive.ArchiveException;

/**
 * A description as people write it, field by field: on the command line, in a table's cells, in a
 * form.
 *
 * @param fields the words of each field of {@link #FIELDS} that is said; empty words take a field
 *     back, a field that isn't in it stays as it was
 */
public record DescriptionWords(Map<String, String> fields) {
  /** The fields, as options, columns and forms name them. */
  public static final List<String> FIELDS =
      List.of(
          "kind",
          "form",
          "material",
          "lettering",
          "parts",
          "height",
          "width",
          "thickness",
          "origin",
          "maker",
          "made-at",
          "earlier",
          "enclosure",
          "remark");

  private static final Pattern PART =
      Pattern.compile("([^:]+):\\s*(.+?)(?:\\s+(\\d+(?:\\.\\d+)?))?");

  public DescriptionWords {
    fields = Map.copyOf(new LinkedHashMap<>(fields));
  }

  /**
   * What they make of what was said before.
   *
   * @throws ArchiveException if a measure is no number, or a part isn't written as one
   */
  public Description over(Description before) {
    return new Description(
        text("kind", before.kind()),
        text("form", before.form()),
        text("material", before.material()),
        said("lettering") ? list("lettering") : before.lettering(),
        said("parts")
            ? list("parts").stream().map(DescriptionWords::part).toList()
            : before.parts(),
        measure("height", before.heightCm()),
        measure("width", before.widthCm()),
        measure("thickness", before.thicknessCm()),
        text("origin", before.origin()),
        text("maker", before.maker()),
        text("made-at", before.madeAt()),
        text("earlier", before.earlier()),
        text("enclosure", before.enclosure()),
        text("remark", before.remark()));
  }

  private boolean said(String field) {
    return fields.containsKey(field);
  }

  private String words(String field) {
    return fields.getOrDefault(field, "").strip();
  }

  private Optional<String> text(String field, Optional<String> before) {
    return said(field) ? Optional.of(words(field)).filter(words -> !words.isEmpty()) : before;
  }

  private List<String> list(String field) {
    List<String> words = new ArrayList<>();
    Arrays.stream(words(field).split(";", -1))
        .map(String::strip)
        .filter(word -> !word.isEmpty())
        .forEach(words::add);
    return words;
  }

  private Optional<Double> measure(String field, Optional<Double> before) {
    Optional<String> words = text(field, before.map(String::valueOf));
    try {
      return words.map(Double::valueOf);
    } catch (NumberFormatException e) {
      throw new ArchiveException(
          "A " + field + " is a number of centimetres, not “" + words.orElse("") + "”.", e);
    }
  }

  private static Description.Part part(String words) {
    Matcher written = PART.matcher(words);
    if (!written.matches()) {
      throw new ArchiveException(
          "A part is written as its name and its state, such as shaft: leaning 8, not “"
              + words
              + "”.");
    }
    return new Description.Part(
        written.group(1).strip(),
        written.group(2).strip(),
        Optional.ofNullable(written.group(3)).map(Double::valueOf));
  }
}
