package rakelight.marker;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import rakelight.archive.ArchiveException;
import rakelight.marker.Term.Quality;

/**
 * The words by which markers are described: those the program brings, and those of the ground. A
 * file of them is UTF-8, columns {@code list term meaning source} parted by tabs, the first line
 * their names.
 */
public final class Terms {
  private static final String HEADER = "list\tterm\tmeaning\tsource";

  private static final Terms CARRIED = new Terms(read());

  private final List<Term> terms;

  private Terms(List<Term> terms) {
    this.terms = List.copyOf(terms);
  }

  /** Those the program brings. */
  public static Terms carried() {
    return CARRIED;
  }

  /** These and more; of two of one name the first stays. */
  public Terms with(List<Term> more) {
    List<Term> all = new ArrayList<>(terms);
    more.stream().filter(term -> find(term.of(), term.name()).isEmpty()).forEach(all::add);
    return new Terms(all);
  }

  /** All of one list, in its order. */
  public List<Term> of(Quality list) {
    return terms.stream().filter(term -> term.of() == list).toList();
  }

  /** A term by its name, in whatever case. */
  public Optional<Term> find(Quality list, String name) {
    return of(list).stream().filter(term -> term.name().equalsIgnoreCase(name.strip())).findFirst();
  }

  /**
   * The term somebody means.
   *
   * @throws ArchiveException if there is none, naming those there are
   */
  public String named(Quality list, String name) {
    return find(list, name)
        .map(Term::name)
        .orElseThrow(
            () ->
                new ArchiveException(
                    "No "
                        + list.label()
                        + " is called “"
                        + name.strip()
                        + "”; there are "
                        + of(list).stream().map(Term::name).collect(Collectors.joining(", "))
                        + ". `describe --terms FILE.tsv` adds your own."));
  }

  /**
   * The terms of a ground's own file.
   *
   * @throws ArchiveException naming the line that can't be taken, and why
   */
  public static List<Term> read(Path file) {
    try {
      return parse(file.toString(), Files.readAllLines(file, StandardCharsets.UTF_8));
    } catch (CharacterCodingException e) {
      throw new ArchiveException(file + ": not in UTF-8. Save it as UTF-8.", e);
    } catch (NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such file.", e);
    } catch (IOException e) {
      throw new ArchiveException(file + ": can't be read: " + e.getMessage(), e);
    }
  }

  private static List<Term> read() {
    try (InputStream in =
            Objects.requireNonNull(Terms.class.getResourceAsStream("terms.tsv"), "terms.tsv");
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      return parse("terms.tsv", reader.lines().toList());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<Term> parse(String file, List<String> lines) {
    if (lines.isEmpty() || !lines.get(0).replace("\uFEFF", "").equals(HEADER)) {
      throw new ArchiveException(
          file + ", line 1: the first line must name the columns list, term, meaning, source.");
    }
    List<Term> terms = new ArrayList<>();
    for (int i = 1; i < lines.size(); i++) {
      if (lines.get(i).isBlank()) {
        continue;
      }
      String[] cells = lines.get(i).split("\t", -1);
      String place = file + ", line " + (i + 1) + ": ";
      if (cells.length != 4 || cells[1].isBlank() || cells[2].isBlank()) {
        throw new ArchiveException(
            place + "needs a list, a term, what it means and a source, parted by tabs.");
      }
      Quality list =
          Arrays.stream(Quality.values())
              .filter(one -> one.label().equals(cells[0].strip().toLowerCase(Locale.ROOT)))
              .findFirst()
              .orElseThrow(
                  () ->
                      new ArchiveException(
                          place
                              + "no list is called “"
                              + cells[0]
                              + "”; there are "
                              + Arrays.stream(Quality.values())
                                  .map(Quality::label)
                                  .collect(Collectors.joining(", "))
                              + "."));
      String source = cells[3].isBlank() ? "common practice, no source" : cells[3].strip();
      terms.add(new Term(list, cells[1].strip(), cells[2].strip(), source));
    }
    return terms;
  }
}
