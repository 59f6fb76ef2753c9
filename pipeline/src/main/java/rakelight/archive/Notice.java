package rakelight.archive;

/** The page that lies in every archive and says what the folder is, to whoever finds it. */
final class Notice {
  private Notice() {}

  /** The page that lies beside it in a backup. */
  static String confidential() {
    return """
        CONFIDENTIAL

        This is a complete copy of an archive. It may hold names of people who may be living, and
        other things that must not be published yet. Keep it where the archive itself could be kept,
        and hand it to nobody who may not see that.
        """;
  }

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

        To copy the archive, use the program's `backup`, or first close every program that has it open.
        """
        .formatted(ground.name());
  }
}
