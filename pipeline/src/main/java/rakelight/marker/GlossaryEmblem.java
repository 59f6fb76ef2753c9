package rakelight.marker;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * A carved emblem of the glossary: what one sees, and what it is often said to mean. No emblem ever
 * makes an age, a service or an award.
 *
 * @param seen how one tells it
 * @param readings what it is often said to mean; several where it isn't agreed or depends
 * @param source who says so
 * @param mistakenFor what it is often mistaken for
 * @param neverProves what nobody may conclude from it
 */
public record GlossaryEmblem(
    String name,
    String seen,
    List<String> readings,
    Strength strength,
    String source,
    String mistakenFor,
    String neverProves) {
  private static final List<GlossaryEmblem> GLOSSARY = read();

  /** How far those who write of it agree. */
  public enum Strength {
    MANY_AGREE("many agree"),
    POPULAR_LISTS("popular lists"),
    DISPUTED("disputed");

    private final String label;

    Strength(String label) {
      this.label = label;
    }

    /** As the glossary writes it. */
    public String label() {
      return label;
    }

    private static Strength of(String label) {
      return Arrays.stream(values())
          .filter(one -> one.label.equals(label))
          .findFirst()
          .orElseThrow(() -> new IllegalStateException("emblems.tsv: strength " + label));
    }
  }

  public GlossaryEmblem {
    readings = List.copyOf(readings);
  }

  /** All of the glossary, in its order. */
  public static List<GlossaryEmblem> glossary() {
    return GLOSSARY;
  }

  /** An emblem of the glossary by its name, in whatever case. */
  public static Optional<GlossaryEmblem> named(String name) {
    return GLOSSARY.stream()
        .filter(emblem -> emblem.name.equalsIgnoreCase(name.strip()))
        .findFirst();
  }

  private static List<GlossaryEmblem> read() {
    try (InputStream in =
            Objects.requireNonNull(
                GlossaryEmblem.class.getResourceAsStream("emblems.tsv"), "emblems.tsv");
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      return reader.lines().skip(1).map(GlossaryEmblem::parse).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static GlossaryEmblem parse(String line) {
    String[] cells = line.split("\t", -1);
    if (cells.length != 7) {
      throw new IllegalStateException("emblems.tsv: " + line);
    }
    return new GlossaryEmblem(
        cells[0],
        cells[1],
        Arrays.asList(cells[2].split("\\|", -1)),
        Strength.of(cells[3]),
        cells[4],
        cells[5],
        cells[6]);
  }
}
