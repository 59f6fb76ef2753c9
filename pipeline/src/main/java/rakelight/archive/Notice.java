package rakelight.archive;

/** The page that lies in every archive and says what the folder is, to whoever finds it. */
final class Notice {
  private Notice() {}

  static String of(Ground ground) {
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

        To copy the archive, first close every program that has it open.
        """
        .formatted(ground.name());
  }
}
