package rakelight.archive;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Consumer;

/**
 * Backs an archive up into a {@linkplain Bag bag} while others go on working in it; a second time
 * only what is new is copied. The bag's payload is the archive: the ledger by SQLite's own backup,
 * and every original, digested on its way. What a machine made is left out; it comes back. Earlier
 * ledgers are kept beside by a {@linkplain KeptLedgers rule}. An original that the archive has lost
 * stays; one that was withdrawn and purged goes here too.
 *
 * <p>Order of writes: the bag's own name first, then originals, then the ledger, last the
 * manifests. A backup cut short isn't a valid bag and becomes one by being run again.
 */
public final class Backup {
  static final String LEDGERS = "ledgers";
  private static final String WARNING = "CONFIDENTIAL.txt";
  private static final String LOCK = "backup.lock";
  private static final String COPIED = "Ledger-Copied";
  private static final String URN = "urn:uuid:";
  private static final String IDENTIFIER = "External-Identifier";
  private static final String ENDING = ".sqlite";
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HHmmss'Z'", Locale.ROOT);
  private static final int CHUNK_BYTES = 1 << 20;

  private final Archive archive;
  private final Path bag;
  private final Path data;
  private final Instant now;
  private final List<Check.Fault> faults = new ArrayList<>();

  /** Digests of payload and tag files by path and algorithm, as known before and as found. */
  private final Map<String, Map<String, String>> known = new TreeMap<>();

  private int copied;
  private int purged;
  private int originals;
  private long sizeBytes;

  private Backup(Archive archive, Path bag, Instant now) {
    this.archive = archive;
    this.bag = bag;
    this.data = bag.resolve(Bag.PAYLOAD);
    this.now = now;
  }

  /**
   * What was copied.
   *
   * @param originals that the backup holds of the archive's
   * @param sizeBytes of these
   * @param copied how many of them are new in it
   * @param purged originals that were deleted from the backup, since they are from the archive
   * @param ledgers earlier ledgers it keeps, by the time each was copied, the oldest first
   * @param faults originals that weren't copied, since they aren't what their name says, or are
   *     missing in the archive
   */
  public record Result(
      int originals,
      long sizeBytes,
      int copied,
      int purged,
      List<String> ledgers,
      List<Check.Fault> faults) {
    public Result {
      ledgers = List.copyOf(ledgers);
      faults = List.copyOf(faults);
    }
  }

  /**
   * Copies the archive, or what is new in it since it was last copied there.
   *
   * @param bag a folder that is empty, doesn't exist yet, or is a backup of the same archive
   * @param now the time this ledger is kept under
   * @param progress is told of each original as it has been seen to
   * @throws ArchiveException if the folder is in use or lies within the archive, or can't be
   *     written
   */
  public static Result copy(Archive archive, Path bag, Instant now, Consumer<Path> progress) {
    Backup backup = new Backup(archive, bag, now);
    try {
      return backup.copy(progress);
    } catch (IOException e) {
      throw unfinished(bag, e);
    } catch (UncheckedIOException e) {
      throw unfinished(bag, Objects.requireNonNull(e.getCause()));
    }
  }

  private static ArchiveException unfinished(Path bag, IOException e) {
    return new ArchiveException(
        bag + ": the backup wasn't finished (" + e + "). Mend that and run it again.", e);
  }

  private Result copy(Consumer<Path> progress) throws IOException {
    Path root = archive.root().toAbsolutePath().normalize();
    if (bag.toAbsolutePath().normalize().startsWith(root)) {
      throw new ArchiveException(bag + ": lies within the archive. Give a folder elsewhere.");
    }
    Files.createDirectories(bag);
    if (!Bag.isAt(bag)) {
      begin();
    }
    try (FileChannel channel =
            FileChannel.open(
                bag.resolve(LOCK),
                StandardOpenOption.CREATE,
                StandardOpenOption.WRITE,
                StandardOpenOption.DELETE_ON_CLOSE);
        FileLock lock = lock(channel)) {
      requireOurs();
      remember();
      copyAll(progress);
      List<String> ledgers = exchangeLedgers();
      writeManifests();
      return new Result(originals, sizeBytes, copied, purged, ledgers, faults);
    }
  }

  private void begin() throws IOException {
    try (DirectoryStream<Path> entries = Files.newDirectoryStream(bag)) {
      if (entries.iterator().hasNext()) {
        throw new ArchiveException(
            bag
                + ": the folder isn't empty and isn't a backup. Give a new folder, or that of an"
                + " earlier backup.");
      }
    }
    Durable.write(bag.resolve(WARNING), bytes(Notice.confidential()));
    Durable.write(bag.resolve(Bag.INFO), bytes(IDENTIFIER + ": " + identifier() + "\n"));
    Durable.write(
        bag.resolve(Bag.DECLARATION),
        bytes("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"));
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private FileLock lock(FileChannel channel) throws IOException {
    Optional<FileLock> lock;
    try {
      lock = Optional.ofNullable(channel.tryLock());
    } catch (OverlappingFileLockException e) {
      lock = Optional.empty();
    }
    return lock.orElseThrow(
        () -> new ArchiveException(bag + ": another backup is being written to it. Wait for it."));
  }

  private String identifier() {
    return URN + archive.id();
  }

  /** Also by the id of one of several archives that were begun apart and are this one now. */
  private boolean isOurs(String identifier) {
    if (!identifier.startsWith(URN)) {
      return false;
    }
    UUID id = UUID.fromString(identifier.substring(URN.length()));
    return archive.journal().now(id).equals(archive.id());
  }

  private void requireOurs() throws IOException {
    if (said(IDENTIFIER).filter(this::isOurs).isEmpty()) {
      throw new ArchiveException(
          bag
              + ": isn't a backup of this archive. Give a new folder, or that of an earlier"
              + " backup.");
    }
  }

  private Optional<String> said(String label) throws IOException {
    return Bag.info(bag, StandardCharsets.UTF_8)
        .getOrDefault(label.toLowerCase(Locale.ROOT), List.of())
        .stream()
        .findFirst();
  }

  /** What the manifests of the last time say, so that what is there isn't read again. */
  private void remember() throws IOException {
    for (String algorithm : Bag.ALGORITHMS) {
      Path manifest = bag.resolve(manifest("", algorithm));
      if (Files.exists(manifest)) {
        BagManifest.read(manifest, StandardCharsets.UTF_8)
            .digests()
            .forEach((path, digest) -> digestsOf(path).put(algorithm, digest));
      }
    }
  }

  private static String manifest(String ofWhat, String algorithm) {
    return ofWhat + "manifest-" + algorithm + ".txt";
  }

  private Map<String, String> digestsOf(String path) {
    return known.computeIfAbsent(path, p -> new LinkedHashMap<>());
  }

  private void copyAll(Consumer<Path> progress) throws IOException {
    Files.createDirectories(data.resolve(Originals.FOLDER));
    Notice.write(data, archive.ground(), archive.ledger().schema());
    // The ledger first: an original's row comes after the original, so that all it speaks of are
    // there to be copied.
    Files.deleteIfExists(part());
    archive.ledger().backupTo(part());
    Map<Sha256, String> wanted = new LinkedHashMap<>();
    for (Path original : archive.originals().all()) {
      Optional<Sha256> named = Originals.digestInName(original);
      if (named.isEmpty()) {
        add("original-stray", original, "isn't an original; not copied.");
      } else {
        wanted.put(named.get(), path(original));
        copy(original, named.get());
      }
      progress.accept(original);
    }
    for (var other : Bag.files(bag, Bag.PAYLOAD + "/" + Originals.FOLDER).entrySet()) {
      if (!wanted.containsValue(other.getKey())) {
        settle(other.getKey(), other.getValue(), wanted);
      }
    }
  }

  private Path part() {
    return data.resolve(Ledger.FILE + ".part");
  }

  /** Where an original lies in the bag, seen from its folder. */
  private String path(Path original) {
    return Bag.PAYLOAD + "/" + Bag.relative(archive.root(), original);
  }

  private void copy(Path original, Sha256 named) throws IOException {
    String path = path(original);
    Path copy = bag.resolve(path);
    if (Files.exists(copy) && Files.size(copy) == Files.size(original)) {
      if (!known.containsKey(path)) {
        known.put(path, Bag.digests(copy, Bag.ALGORITHMS));
      }
      if (named.hex().equals(digestsOf(path).get("sha256"))) {
        count(copy);
        return;
      }
    }
    Files.createDirectories(copy.resolveSibling("."));
    Path part = copy.resolveSibling(copy.getFileName() + ".part");
    Map<String, String> digests = copied(original, part);
    if (!named.hex().equals(digests.get("sha256"))) {
      Files.delete(part);
      add(
          "original-changed",
          original,
          "its content isn't what its name says; not copied. Run `check`.");
      if (Files.exists(copy)) {
        count(copy);
      }
      return;
    }
    Durable.delete(copy);
    Durable.rename(part, copy);
    Durable.readOnly(copy);
    known.put(path, digests);
    copied++;
    count(copy);
  }

  private void count(Path copy) throws IOException {
    originals++;
    sizeBytes += Files.size(copy);
  }

  private static Map<String, String> copied(Path from, Path to) throws IOException {
    Map<String, MessageDigest> digests = new LinkedHashMap<>();
    Bag.ALGORITHMS.forEach(one -> digests.put(one, BagManifest.digest(one).orElseThrow()));
    try (InputStream in = Files.newInputStream(from);
        FileChannel channel =
            FileChannel.open(
                to,
                StandardOpenOption.CREATE,
                StandardOpenOption.TRUNCATE_EXISTING,
                StandardOpenOption.WRITE)) {
      OutputStream out = Channels.newOutputStream(channel);
      for (MessageDigest digest : digests.values()) {
        out = new DigestOutputStream(out, digest);
      }
      byte[] chunk = new byte[CHUNK_BYTES];
      for (int n = in.read(chunk); n >= 0; n = in.read(chunk)) {
        out.write(chunk, 0, n);
      }
      channel.force(true);
    }
    Map<String, String> found = new LinkedHashMap<>();
    digests.forEach((name, digest) -> found.put(name, HexFormat.of().formatHex(digest.digest())));
    return found;
  }

  /** What lies among the backup's originals and not, or not there, among the archive's. */
  private void settle(String path, Path file, Map<Sha256, String> wanted) throws IOException {
    Optional<Sha256> named = Originals.digestInName(file);
    if (named.isEmpty() || wanted.containsKey(named.get())) {
      // Cut short while it was copied, or sealed since, or unsealed.
      Durable.delete(file);
      known.remove(path);
    } else if (archive.withdrawals().of(named.get()).isPresent()) {
      Durable.delete(file);
      known.remove(path);
      purged++;
    } else {
      add(
          "original-missing",
          archive.root().resolve(data.relativize(file).toString()),
          "the archive hasn't got it any more; the backup keeps it. Run `check`.");
      if (!known.containsKey(path)) {
        known.put(path, Bag.digests(file, Bag.ALGORITHMS));
      }
    }
  }

  /** Puts the new ledger in the place of the last, which is kept beside by the rule. */
  private List<String> exchangeLedgers() throws IOException {
    Path ledger = data.resolve(Ledger.FILE);
    Path kept = Files.createDirectories(bag.resolve(LEDGERS));
    Optional<Instant> last = said(COPIED).flatMap(Backup::time);
    if (Files.exists(ledger) && last.isPresent() && Files.mismatch(ledger, part()) >= 0) {
      Durable.rename(ledger, kept.resolve(TIME.format(last.get().atZone(ZoneOffset.UTC)) + ENDING));
    }
    try (FileChannel channel = FileChannel.open(part(), StandardOpenOption.WRITE)) {
      channel.force(true);
    }
    Durable.rename(part(), ledger);
    Map<Instant, Path> earlier = ledgers(bag);
    Collection<Instant> times = new ArrayList<>(earlier.keySet());
    times.add(now);
    SortedSet<Instant> keep = KeptLedgers.of(times);
    List<String> left = new ArrayList<>();
    for (var one : earlier.entrySet()) {
      if (keep.contains(one.getKey())) {
        left.add(TIME.format(one.getKey().atZone(ZoneOffset.UTC)));
      } else {
        Durable.delete(one.getValue());
      }
    }
    Durable.flushFolder(kept);
    Durable.flushFolder(data);
    return left;
  }

  /** The earlier ledgers of a backup by the time each was copied. */
  static Map<Instant, Path> ledgers(Path bag) throws IOException {
    Map<Instant, Path> ledgers = new TreeMap<>();
    for (Path file : Bag.files(bag, LEDGERS).values()) {
      String name = String.valueOf(file.getFileName());
      if (name.endsWith(ENDING)) {
        time(name.substring(0, name.length() - ENDING.length()))
            .ifPresent(time -> ledgers.put(time, file));
      }
    }
    return ledgers;
  }

  /** A time as ledgers are named by it, if a text is one. */
  static Optional<Instant> time(String text) {
    try {
      return Optional.of(LocalDateTime.parse(text, TIME).toInstant(ZoneOffset.UTC));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private void writeManifests() throws IOException {
    Map<String, Path> payload = Bag.files(bag, Bag.PAYLOAD);
    for (var file : payload.entrySet()) {
      if (!file.getKey().startsWith(Bag.PAYLOAD + "/" + Originals.FOLDER + "/")) {
        known.put(file.getKey(), Bag.digests(file.getValue(), Bag.ALGORITHMS));
      }
    }
    known.keySet().retainAll(payload.keySet());
    write("", known);
    Durable.write(bag.resolve(Bag.INFO), bytes(info(payload.values())));
    Map<String, Path> tags = new TreeMap<>(Bag.files(bag, LEDGERS));
    for (String name : List.of(Bag.DECLARATION, Bag.INFO, WARNING)) {
      tags.put(name, bag.resolve(name));
    }
    for (String algorithm : Bag.ALGORITHMS) {
      tags.put(manifest("", algorithm), bag.resolve(manifest("", algorithm)));
    }
    Map<String, Map<String, String>> digests = new TreeMap<>();
    for (var file : tags.entrySet()) {
      digests.put(file.getKey(), Bag.digests(file.getValue(), Bag.ALGORITHMS));
    }
    write("tag", digests);
    Durable.flushFolder(bag);
  }

  private void write(String ofWhat, Map<String, Map<String, String>> digests) throws IOException {
    for (String algorithm : Bag.ALGORITHMS) {
      Map<String, String> ofOne = new TreeMap<>();
      digests.forEach((path, all) -> ofOne.put(path, Objects.requireNonNull(all.get(algorithm))));
      BagManifest.write(bag.resolve(manifest(ofWhat, algorithm)), ofOne);
    }
  }

  private String info(Collection<Path> payload) throws IOException {
    Map<String, String> elements = new LinkedHashMap<>();
    elements.put(
        "External-Description",
        "An archive of the burial ground " + archive.ground().name() + ", complete, confidential");
    elements.put(IDENTIFIER, identifier());
    elements.put("Bagging-Date", now.atZone(ZoneOffset.UTC).toLocalDate().toString());
    elements.put(COPIED, TIME.format(now.atZone(ZoneOffset.UTC)));
    elements.put(Bag.OXUM, Bag.sum(payload));
    StringBuilder text = new StringBuilder();
    elements.forEach(
        (label, value) ->
            text.append(label).append(": ").append(value.replaceAll("\\s+", " ")).append('\n'));
    return text.toString();
  }

  private void add(String code, Path where, String text) {
    faults.add(new Check.Fault(code, where.toString(), text));
  }
}
