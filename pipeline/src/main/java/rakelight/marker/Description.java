package rakelight.marker;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * What somebody says a marker is. What isn't known is left empty.
 *
 * @param kind such as headstone; this and the next two, lettering, parts, states and origin are
 *     words of {@link Terms}
 * @param heightCm above the ground
 * @param origin whether it is the first marker, another in its place, or moved
 * @param maker as signed, or as a source says
 * @param madeAt where it was made, if something says so
 * @param earlier an earlier marker of the same grave, such as a wooden headboard in an old list
 * @param enclosure what stands around it
 * @param remark anything else, in one's own words
 */
public record Description(
    Optional<String> kind,
    Optional<String> form,
    Optional<String> material,
    List<String> lettering,
    List<Part> parts,
    Optional<Double> heightCm,
    Optional<Double> widthCm,
    Optional<Double> thicknessCm,
    Optional<String> origin,
    Optional<String> maker,
    Optional<String> madeAt,
    Optional<String> earlier,
    Optional<String> enclosure,
    Optional<String> remark) {

  /** Nothing is said yet. */
  public static final Description NONE =
      new Description(
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          List.of(),
          List.of(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());

  /**
   * A part of a marker and how it is.
   *
   * @param leanDegrees out of upright, of a leaning one, 0 to 90
   */
  public record Part(String name, String state, Optional<Double> leanDegrees) {
    /** As people write it: {@code shaft: leaning 8}. */
    public String told() {
      return name + ": " + state + leanDegrees.map(lean -> " " + number(lean)).orElse("");
    }
  }

  public Description {
    lettering = List.copyOf(lettering);
    parts = List.copyOf(parts);
  }

  /** How far the marker or the worst of its parts leans, in degrees. */
  public Optional<Double> leanDegrees() {
    return parts.stream().flatMap(part -> part.leanDegrees().stream()).max(Double::compare);
  }

  /** Whether any part is in a state. */
  public boolean hasState(String state) {
    return parts.stream().anyMatch(part -> part.state().equals(state));
  }

  /** What is said, a line for each, in words. */
  public List<String> told() {
    List<String> lines = new ArrayList<>();
    line(lines, "kind", kind);
    line(lines, "form", form);
    line(lines, "material", material);
    line(lines, "lettering", joined(lettering));
    line(lines, "parts", joined(parts.stream().map(Part::told).toList()));
    line(lines, "size", size());
    line(lines, "origin", origin);
    line(lines, "maker", maker);
    line(lines, "made at", madeAt);
    line(lines, "earlier", earlier);
    line(lines, "enclosure", enclosure);
    line(lines, "remark", remark);
    return lines;
  }

  /** Height, width and thickness as far as they are known. */
  public Optional<String> size() {
    String size =
        List.of(side("high", heightCm), side("wide", widthCm), side("thick", thicknessCm)).stream()
            .flatMap(Optional::stream)
            .collect(Collectors.joining(", "));
    return Optional.of(size).filter(text -> !text.isEmpty());
  }

  private static Optional<String> side(String which, Optional<Double> cm) {
    return cm.map(value -> number(value) + " cm " + which);
  }

  private static Optional<String> joined(List<String> words) {
    return words.isEmpty() ? Optional.empty() : Optional.of(String.join("; ", words));
  }

  private static void line(List<String> lines, String name, Optional<String> words) {
    words.ifPresent(text -> lines.add(name + ": " + text));
  }

  private static String number(double value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.format(Locale.ROOT, "%.1f", value);
  }
}
