package rakelight.archive;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;

/**
 * What lies in every archive for whoever finds it without this program: what the folder is, how it
 * is laid out, the tables of its ledger.
 */
final class Notice {
  private static final String README = "README.txt";
  private static final String FORMAT = "FORMAT.txt";
  private static final String SCHEMA = "schema.sql";

  private Notice() {}

  /** Writes the pages, or those that are no longer true. */
  static void write(Path root, Ground ground, String schema) throws IOException {
    put(root.resolve(README), of(ground));
    put(root.resolve(FORMAT), format());
    put(root.resolve(SCHEMA), schema);
  }

  private static void put(Path file, String text) throws IOException {
    if (!Files.exists(file) || !Files.readString(file).equals(text)) {
      Files.writeString(file, text);
    }
  }

  private static String format() throws IOException {
    try (InputStream page = Notice.class.getResourceAsStream("archive-format.md")) {
      return new String(Objects.requireNonNull(page).readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** The page that lies beside it in a backup. */
  static String confidential() {
    return """
        CONFIDENTIAL

        This is a complete copy of an archive. It may hold names of people who may be living, and
        other things that must not be published yet. Keep it where the archive itself could be kept,
        and hand it to nobody who may not see that.

        The folder is a bag (RFC 8493): the archive lies in `data`, the manifests tell the digest of
        every file, and any tool for bags can check them (`sha256sum -c manifest-sha256.txt` too).
        `rakelight restore` makes an archive of it. Without the program, copy `data` and see the
        README in it; `ledgers` holds the ledger as it was at earlier times.
        """;
  }

  private static String of(Ground ground) {
    return """
        The burial ground: %s

        CONFIDENTIAL. This archive and its copies are complete. They may hold what must not be
        published yet, such as names of people who may be living.

        originals/      photographs, byte for byte, each named by the SHA-256 of its content.
                        `sha256sum` alone can check them.
        ledger.sqlite   what people decided and what can't be made again: one SQLite 3 file.
                        The table `decision` is the journal; all other state follows from it.
        derived/        pictures and texts made by machine. May be deleted; they come back.
        index/          the search index. May be deleted; it comes back.
        FORMAT.txt      all of this in full.
        schema.sql      the tables of ledger.sqlite.

        To copy the archive, use the program's `backup` and `restore`, or first close every program that has it open.

        Three questions that any program for SQLite can answer (sqlite3 ledger.sqlite):

        The readings that stand, in Leiden signs:
          SELECT m.number, f.name, r.reader, r.at, r.text
          FROM reading r JOIN face f ON f.id = r.face_id JOIN marker m ON m.id = f.marker_id
          WHERE r.version = (SELECT max(version) FROM reading WHERE face_id = r.face_id)
          ORDER BY m.number, f.name;

        The photographs of a marker, here 12, with the names of their files:
          SELECT p.original_name, p.sha256, f.name, p.taken_local
          FROM photograph p JOIN face f ON f.id = p.face_id JOIN marker m ON m.id = f.marker_id
          WHERE m.number = '12' ORDER BY p.taken_local;

        What one reader decided, here Ada Fenn:
          SELECT d.at, d.kind, d.payload FROM decision d WHERE d.reader = 'Ada Fenn' ORDER BY d.counter;
        """
        .formatted(ground.name());
  }
}
