package rakelight.work;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.inscription.ReadingStore;

/**
 * The named readers of an archive. Who is one, and as what, is decided and stays in the journal;
 * passphrases are kept beside it, as digests, so that they can be changed and forgotten.
 */
public final class ReaderStore {
  private static final String ADMITTED = "reader.admitted";
  private static final String DISMISSED = "reader.dismissed";
  private static final int LONGEST_NAME = 100;

  private final Archive archive;
  private final int iterations;

  public ReaderStore(Archive archive) {
    this(archive, Passphrase.ITERATIONS);
  }

  /**
   * @param iterations for the digests of new passphrases; fewer than the other constructor takes
   *     only where nothing is at stake
   */
  public ReaderStore(Archive archive, int iterations) {
    this.archive = archive;
    this.iterations = iterations;
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new ReadersStore();
  }

  /** Version 1. */
  private record Admitted(String name, Role role) {}

  /** Everybody who may sign in, by name. */
  public List<NamedReader> all() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT name, role FROM reader ORDER BY name")
                    .map(
                        (row, context) ->
                            new NamedReader(
                                row.getString("name"),
                                Role.of(row.getString("role")).orElseThrow()))
                    .list());
  }

  /**
   * Somebody at the command line, where a reader is who he says he is: as what he was admitted, and
   * as an archivist if nobody of this name was.
   */
  public NamedReader atTheTerminal(String name) {
    return find(name).orElseGet(() -> new NamedReader(name, Role.ARCHIVIST));
  }

  /**
   * Changes how many readers must read each face.
   *
   * @throws IllegalArgumentException if it isn't 1 or 2
   */
  public void require(int readers, NamedReader by) {
    by.requireArchivist();
    new ReadingStore(archive).require(readers, by.name());
  }

  /** The reader of this name, in whatever case it is written. */
  public Optional<NamedReader> find(String name) {
    return all().stream().filter(reader -> reader.name().equalsIgnoreCase(name)).findFirst();
  }

  /**
   * Admits a reader, or changes his role or passphrase.
   *
   * @param by who decides so
   * @throws ArchiveException if the name or the passphrase won't do
   */
  public void admit(String name, Role role, char[] passphrase, String by) {
    String clean = name.strip();
    if (clean.isEmpty()
        || clean.length() > LONGEST_NAME
        || clean.equalsIgnoreCase(Decision.PROGRAM)
        || clean.chars().anyMatch(Character::isISOControl)) {
      throw new ArchiveException(
          "A reader's name has 1 to " + LONGEST_NAME + " signs, and isn't the program's own.");
    }
    if (passphrase.length < Passphrase.SHORTEST) {
      throw new ArchiveException(
          "A passphrase has " + Passphrase.SHORTEST + " signs at least; take several words.");
    }
    Passphrase digest = Passphrase.of(passphrase, iterations);
    archive
        .ledger()
        .write(
            handle -> {
              Optional<NamedReader> known = find(clean);
              if (known.filter(reader -> reader.role() == role).isEmpty()) {
                archive
                    .journal()
                    .append(
                        NewDecision.of(
                            by,
                            ADMITTED,
                            1,
                            idOf(clean),
                            new Admitted(known.map(NamedReader::name).orElse(clean), role)));
              }
              return handle.execute(
                  "INSERT OR REPLACE INTO reader_passphrase (name, iterations, salt, digest)"
                      + " VALUES (?, ?, ?, ?)",
                  clean,
                  digest.iterations(),
                  digest.salt(),
                  digest.digest());
            });
  }

  /**
   * Takes a reader's way in; what he decided stays.
   *
   * @throws ArchiveException if there is no such reader
   */
  public void dismiss(String name, String by) {
    archive
        .ledger()
        .write(
            handle -> {
              if (find(name).isEmpty()) {
                throw new ArchiveException("There is no reader " + name + " here.");
              }
              archive.journal().append(NewDecision.of(by, DISMISSED, 1, idOf(name), Map.of()));
              return handle.execute("DELETE FROM reader_passphrase WHERE name = ?", name);
            });
  }

  /** How the reader of this name, in whatever case it is written, comes in now. */
  public Optional<WayIn> wayIn(String name) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT reader.name, role, iterations, salt, digest FROM reader"
                            + " JOIN reader_passphrase ON reader_passphrase.name = reader.name"
                            + " WHERE reader.name = :name")
                    .bind("name", name)
                    .map(
                        (row, context) ->
                            new WayIn(
                                new NamedReader(
                                    row.getString("name"),
                                    Role.of(row.getString("role")).orElseThrow()),
                                new Passphrase(
                                    row.getInt("iterations"),
                                    row.getString("salt"),
                                    row.getString("digest"))))
                    .findOne());
  }

  /** Whether anybody is named, so that everybody needs a passphrase. */
  public boolean isAnybodyNamed() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT EXISTS (SELECT 1 FROM reader)")
                    .mapTo(Boolean.class)
                    .one());
  }

  /** The subject of what is decided about a reader: an id made from the name. */
  private static UUID idOf(String name) {
    return UUID.nameUUIDFromBytes(
        ("reader " + name.toLowerCase(Locale.ROOT)).getBytes(StandardCharsets.UTF_8));
  }

  /** Writes the table of readers. */
  private static final class ReadersStore implements Projection {
    @Override
    public Set<String> kinds() {
      return Set.of(ADMITTED, DISMISSED);
    }

    @Override
    public Set<String> tables() {
      return Set.of("reader");
    }

    @Override
    public Map<String, String> settings() {
      return Map.of(ADMITTED, "what the reader may do", DISMISSED, "what the reader may do");
    }

    @Override
    public void clear(Handle handle, UUID subject) {
      handle.execute("DELETE FROM reader WHERE id = ?", subject.toString());
    }

    @Override
    public void apply(Handle handle, Decision decision) {
      clear(handle, decision.subject());
      if (decision.kind().equals(ADMITTED)) {
        Admitted admitted = Json.read(decision.payload(), Admitted.class);
        handle.execute(
            "INSERT INTO reader (name, id, role, decision_id) VALUES (?, ?, ?, ?)",
            admitted.name(),
            decision.subject().toString(),
            admitted.role().label(),
            decision.id().toString());
      }
    }
  }
}
