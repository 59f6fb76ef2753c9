package rakelight.person;

import static java.nio.channels.FileChannel.MapMode.READ_ONLY;
import static java.nio.charset.StandardCharsets.US_ASCII;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.ReadableByteChannel;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.Incoming;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.archive.Sha256;
import rakelight.archive.SourceId;
import rakelight.inscription.Reading;
import rakelight.photo.FileContent;

/** Sources, their scans, and the persons that rolls and registers say are buried here somewhere. */
public final class SourceStore {
  static final String RECORDED = "source.recorded";

  /** How a PDF begins (ISO 32000-1, 7.5.2). */
  private static final String HEAD = "%PDF-";

  private static final Set<String> PICTURES =
      Set.of("jpg", "jpeg", "png", "tif", "tiff", "webp", "heic", "avif");

  static final String SCANNED = "source.scanned";
  static final String LISTED = "sought.listed";
  static final String FOUND = "sought.found";
  static final String NOT_FOUND = "sought.not-found";

  private static final RowMapper<Source> ROW =
      (row, context) ->
          new Source(
              SourceId.of(row.getString("source")),
              row.getLong("counter"),
              Source.Kind.of(row.getString("kind")).orElseThrow(),
              row.getString("title"),
              row.getString("repository"),
              row.getString("reference"),
              Optional.ofNullable(row.getString("consulted")).map(LocalDate::parse),
              row.getString("note"),
              row.getString("reader"),
              List.of(),
              DecisionId.of(row.getString("decision_id")));

  private final Archive archive;

  /** Version 1 of the payload of {@link #RECORDED}. */
  record Recorded(
      Source.Kind kind,
      String title,
      String repository,
      String reference,
      Optional<LocalDate> consulted,
      String note) {}

  /** Version 1 of the payload of {@link #LISTED}. */
  record Listed(String file, List<Sought.Row> rows) {}

  /** Version 1 of the payload of {@link #FOUND} and {@link #NOT_FOUND}. */
  record Judged(int row, MentionId mention, String note) {}

  /**
   * What somebody decided about a person sought.
   *
   * @param found whether the mention is of that person; else it is of another
   */
  public record Judgement(
      SourceId source,
      int row,
      boolean found,
      MentionId mention,
      String note,
      String reader,
      DecisionId decision) {}

  public SourceStore(Archive archive) {
    this.archive = archive;
  }

  /** The state tables of this store. */
  public static Projection projection() {
    return new SourceProjection();
  }

  /** Every source with its scans, in the order they were recorded. */
  public List<Source> sources() {
    return archive
        .ledger()
        .read(
            handle ->
                handle.select("SELECT * FROM source ORDER BY counter").map(ROW).list().stream()
                    .map(
                        source ->
                            new Source(
                                source.id(),
                                source.number(),
                                source.kind(),
                                source.title(),
                                source.repository(),
                                source.reference(),
                                source.consulted(),
                                source.note(),
                                source.reader(),
                                scans(source.id()),
                                source.decision()))
                    .toList());
  }

  private List<Source.Scan> scans(SourceId source) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT * FROM source_scan WHERE source = ? ORDER BY counter",
                        source.toString())
                    .map(
                        (row, context) ->
                            new Source.Scan(
                                new Sha256(row.getString("sha256")),
                                row.getString("extension"),
                                row.getString("original_name"),
                                row.getLong("size_bytes")))
                    .list());
  }

  /**
   * The source of a number such as {@code 5}.
   *
   * @throws ArchiveException if there is none
   */
  public Source source(String number) {
    return sources().stream()
        .filter(source -> Long.toString(source.number()).equals(number.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new ArchiveException(
                    "There is no source " + number + " here. List them with `sources`."));
  }

  /**
   * Records a source.
   *
   * @throws ArchiveException if it has no title
   */
  public Source record(
      Source.Kind kind,
      String title,
      String repository,
      String reference,
      Optional<LocalDate> consulted,
      String note,
      String reader) {
    if (title.isBlank()) {
      throw new ArchiveException("A source needs its title (--title).");
    }
    SourceId id = SourceId.next();
    archive
        .journal()
        .append(
            NewDecision.of(
                reader,
                RECORDED,
                1,
                id.value(),
                new Recorded(
                    kind,
                    title.strip(),
                    repository.strip(),
                    reference.strip(),
                    consulted,
                    note.strip())));
    return sources().stream().filter(source -> source.id().equals(id)).findFirst().orElseThrow();
  }

  /**
   * Keeps a file as a scan of a source, byte for byte among the originals. The same file twice is
   * kept once.
   *
   * @throws ArchiveException if the file can't be read, or its name has no plain extension
   */
  public void scan(Source source, Path file, String reader) {
    String name = String.valueOf(file.getFileName());
    String extension = name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
    if (name.lastIndexOf('.') < 0 || !extension.matches("[a-z0-9]{1,8}")) {
      throw new ArchiveException(
          file + ": its name has no extension such as .pdf or .jpg. Rename it.");
    }
    requireWhatItSays(file, extension);
    try (Incoming incoming = archive.originals().receive();
        ReadableByteChannel in = FileChannel.open(file, StandardOpenOption.READ)) {
      Incoming.Copy copy = incoming.copy(in);
      if (archive.withdrawals().of(copy.digest()).isPresent()) {
        incoming.drop(copy);
        throw new ArchiveException(file + ": was withdrawn from the archive; it isn't kept again.");
      }
      incoming.keep(copy, extension);
      incoming.settle();
      Path kept = archive.originals().path(copy.digest(), extension);
      Source.Scan scan = new Source.Scan(copy.digest(), extension, name, Files.size(kept));
      if (source.scans().stream().noneMatch(s -> s.sha256().equals(scan.sha256()))) {
        archive
            .journal()
            .append(
                NewDecision.of(reader, SCANNED, 1, source.id().value(), scan)
                    .restingOn(List.of(source.decision())));
      }
    } catch (NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such file.", e);
    } catch (IOException e) {
      throw new ArchiveException(file + ": can't be kept (" + e.getMessage() + ").", e);
    }
  }

  /** A picture's name must be that of a picture, and that of a PDF of a PDF. */
  private static void requireWhatItSays(Path file, String extension) {
    boolean pdf = extension.equals("pdf");
    if (!pdf && !PICTURES.contains(extension)) {
      return;
    }
    try (FileChannel in = FileChannel.open(file, StandardOpenOption.READ)) {
      byte[] head = new byte[HEAD.length()];
      int read = in.read(ByteBuffer.wrap(head));
      boolean startsAsPdf = read == head.length && new String(head, US_ASCII).equals(HEAD);
      if (pdf != startsAsPdf || (!pdf && !FileContent.isPicture(in.map(READ_ONLY, 0, in.size())))) {
        throw new ArchiveException(
            file
                + ": isn't what its name says, a "
                + extension
                + " file. Give it its right name, or the right file.");
      }
    } catch (NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such file.", e);
    } catch (IOException e) {
      throw new ArchiveException(file + ": can't be kept (" + e.getMessage() + ").", e);
    }
  }

  /** Everybody sought, source by source and row by row. */
  public List<Sought> sought() {
    List<Sought> all = new ArrayList<>();
    for (Source source : sources()) {
      archive
          .ledger()
          .read(
              handle ->
                  handle
                      .select(
                          "SELECT document FROM sought WHERE source = ? ORDER BY row",
                          source.id().toString())
                      .mapTo(String.class)
                      .list())
          .forEach(
              document -> {
                Sought.Row row = Json.read(document, Sought.Row.class);
                all.add(new Sought(source.id(), source.number(), row));
              });
    }
    return List.copyOf(all);
  }

  /**
   * The person sought by a row of a source, such as {@code 5.3}.
   *
   * @throws ArchiveException if there is none
   */
  public Sought sought(String place) {
    return sought().stream()
        .filter(sought -> sought.place().equals(place.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new ArchiveException(
                    "Nobody is sought as " + place + " here. List them with `sought`."));
  }

  /**
   * Takes the rows of a roll or register as persons sought.
   *
   * @throws ArchiveException if rows of this source are here already
   */
  public void list(Source source, String file, SoughtFile rows, String reader) {
    archive
        .ledger()
        .write(
            handle -> {
              if (sought().stream().anyMatch(s -> s.source().equals(source.id()))) {
                throw new ArchiveException(
                    "Source "
                        + source.number()
                        + " has its persons here already. Undo that first, or record another"
                        + " source.");
              }
              return archive
                  .journal()
                  .append(
                      NewDecision.of(
                              reader, LISTED, 1, source.id().value(), new Listed(file, rows.rows()))
                          .restingOn(List.of(source.decision())));
            });
  }

  /**
   * Takes further rows as persons sought by a source, beside those that are here.
   *
   * @return who is sought by the first of them
   */
  public Sought add(Source source, SoughtFile further, String reader) {
    return archive
        .ledger()
        .write(
            handle -> {
              int last =
                  sought().stream()
                      .filter(one -> one.source().equals(source.id()))
                      .mapToInt(one -> one.row().number())
                      .max()
                      .orElse(0);
              List<Sought.Row> rows =
                  further.rows().stream().map(row -> row.numbered(last + row.number())).toList();
              archive
                  .journal()
                  .append(
                      NewDecision.of(reader, LISTED, 1, source.id().value(), new Listed("", rows))
                          .restingOn(List.of(source.decision())));
              return new Sought(source.id(), source.number(), rows.get(0));
            });
  }

  /** What was decided about persons sought, the oldest first. */
  public List<Judgement> judgements() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select("SELECT * FROM sought_opinion ORDER BY counter")
                    .map(
                        (row, context) ->
                            new Judgement(
                                SourceId.of(row.getString("source")),
                                row.getInt("row"),
                                row.getInt("found") == 1,
                                new MentionId(
                                    FaceId.of(row.getString("face")),
                                    row.getInt("sign"),
                                    row.getInt("place")),
                                row.getString("note"),
                                row.getString("reader"),
                                DecisionId.of(row.getString("decision_id"))))
                    .list());
  }

  /**
   * Says that a person sought is the one a stone speaks of, or isn't.
   *
   * @throws ArchiveException if somebody has said the opposite, or the face has been read anew
   *     since
   */
  public void judge(Sought sought, Mention mention, boolean found, String note, String reader) {
    archive
        .ledger()
        .write(
            handle -> {
              new Evidence(archive).requireCurrent(mention);
              for (Judgement earlier : judgements()) {
                boolean same =
                    earlier.source().equals(sought.source())
                        && earlier.row() == sought.row().number()
                        && earlier.mention().equals(mention.id());
                if (same && earlier.found() == found) {
                  return earlier.decision();
                }
                if (same) {
                  throw new ArchiveException(
                      earlier.reader()
                          + " has said the opposite. Undo that first: undo ARCHIVE "
                          + earlier.decision());
                }
              }
              List<DecisionId> rests = new ArrayList<>();
              rests.add(listing(sought));
              mention.source().reading().map(Reading::decision).ifPresent(rests::add);
              return archive
                  .journal()
                  .append(
                      NewDecision.of(
                              reader,
                              found ? FOUND : NOT_FOUND,
                              1,
                              sought.source().value(),
                              new Judged(sought.row().number(), mention.id(), note.strip()))
                          .restingOn(rests))
                  .id();
            });
  }

  private DecisionId listing(Sought sought) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT decision_id FROM sought WHERE source = ? AND row = ?",
                        sought.source().toString(),
                        sought.row().number())
                    .mapTo(String.class)
                    .findOne()
                    .map(DecisionId::of)
                    .orElseThrow(
                        () -> new ArchiveException("Nobody is sought as " + sought.place() + ".")));
  }
}
