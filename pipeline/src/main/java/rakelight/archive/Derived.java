package rakelight.archive;

import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * What a machine made from originals: {@code derived/STAGE/ab/KEY.json}, or several files of that
 * key, with {@code KEY.input.json}, whose SHA-256 is the key, beside. All of it may be deleted and
 * comes back. Thread-safe, also between processes.
 *
 * <p>Order of writes: the input, the files of a result of several, {@code KEY.sha256} with the
 * digests of all of them as {@code sha256sum} writes it, last the result; each is written beside
 * its place, flushed and renamed. A derivation counts once all of it is there.
 *
 * <p>Which derivation belongs to a face or photograph now is a <i>note</i>: {@code
 * derived/KIND/ab/UUID.json}.
 */
public final class Derived {
  static final String FOLDER = "derived";
  private static final String INPUT = "input.json";
  private static final String SUMS = "sha256";
  private static final String PART = ".part";
  private static final int KEY_DIGITS = 64;
  private static final Pattern DIGEST = Pattern.compile("[0-9a-f]{" + KEY_DIGITS + "}");

  private final Path folder;
  private final Optional<Path> instead;
  private final Originals originals;

  /**
   * @param instead where what isn't there is written, if the folder can't be
   */
  Derived(Path folder, Optional<Path> instead, Originals originals) {
    this.folder = folder;
    this.instead = instead;
    this.originals = originals;
  }

  /** Writes the content of a file to a stream it doesn't close. */
  @FunctionalInterface
  public interface Content {
    void writeTo(OutputStream out) throws IOException;
  }

  /** Whether it has been made and all of it is there and can be read. */
  public boolean has(StageKind<?, ?> kind, DerivationKey key) {
    if (!Files.exists(path(kind, key, INPUT))) {
      return false;
    }
    return kind.result().equals(NamedFiles.class)
        ? whole(kind, key).isPresent()
        : result(kind, key).isPresent();
  }

  /**
   * The result; empty if it hasn't been made, or is damaged, and then it is made anew. Of a result
   * of several files, take single ones with {@link #file}.
   */
  public <O> Optional<O> result(StageKind<?, O> kind, DerivationKey key) {
    if (kind.result().equals(NamedFiles.class)) {
      return severalFiles(kind, key).map(kind.result()::cast);
    }
    Map<String, String> sums = sums(shard(kind.name(), key.hex()), key.hex());
    try {
      return text(path(kind, key, Derivation.RESULT))
          .filter(json -> isAsWritten(sums, key.hex() + "." + Derivation.RESULT, Sha256.of(json)))
          .map(json -> Json.read(json, kind.result()));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private Optional<NamedFiles> severalFiles(StageKind<?, ?> kind, DerivationKey key) {
    Optional<List<String>> names = whole(kind, key);
    if (names.isEmpty()) {
      return Optional.empty();
    }
    Map<String, String> sums = sums(shard(kind.name(), key.hex()), key.hex());
    TreeMap<String, byte[]> files = new TreeMap<>();
    try {
      for (String name : names.get()) {
        byte[] bytes = Files.readAllBytes(path(kind, key, name));
        if (!isAsWritten(sums, key.hex() + "." + name, Sha256.of(bytes))) {
          return Optional.empty();
        }
        files.put(name, bytes);
      }
    } catch (NoSuchFileException e) {
      return Optional.empty();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return Optional.of(new NamedFiles(files));
  }

  /** True also where no digest was written down. */
  private static boolean isAsWritten(Map<String, String> sums, String name, Sha256 digest) {
    return sums.getOrDefault(name, digest.hex()).equals(digest.hex());
  }

  /** The names of the files of a result of several; none unless all of them are there. */
  public List<String> names(StageKind<?, NamedFiles> kind, DerivationKey key) {
    return whole(kind, key).orElse(List.of());
  }

  private Optional<List<String>> whole(StageKind<?, ?> kind, DerivationKey key) {
    return text(path(kind, key, Derivation.RESULT))
        .flatMap(Derivation::names)
        .filter(names -> names.stream().allMatch(name -> Files.exists(path(kind, key, name))));
  }

  /** One file of a result of several. */
  public Optional<Path> file(StageKind<?, NamedFiles> kind, DerivationKey key, String name) {
    return names(kind, key).contains(name) ? Optional.of(path(kind, key, name)) : Optional.empty();
  }

  /**
   * What it was made from, also by another version of the stage, whose results stand until they are
   * made anew. Empty where nothing lies under the key that this program understands.
   */
  public <I extends Record> Optional<I> input(StageKind<I, ?> kind, DerivationKey key) {
    return text(path(kind, key, INPUT))
        .flatMap(text -> input(text, key))
        .flatMap(input -> input.inAnyVersion(kind));
  }

  /** When it was made, by the clock of the file system; empty if it hasn't been. */
  public Optional<Instant> madeAt(StageKind<?, ?> kind, DerivationKey key) {
    try {
      Path result = path(kind, key, Derivation.RESULT);
      return Optional.of(Files.getLastModifiedTime(result).toInstant());
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /**
   * Runs a stage, unless what it would make is there.
   *
   * @return the key under which the result lies now
   * @throws BadInputException if the input can't be worked on
   */
  public <I extends Record, O> DerivationKey make(Stage<I, O> stage, I input)
      throws IOException, BadInputException {
    DerivationKey key = stage.kind().key(input);
    if (!has(stage.kind(), key)) {
      keep(Derivation.made(stage, input, new Stored()));
    }
    return key;
  }

  /** Keeps a derivation that was made here or elsewhere; one that is there is replaced. */
  public void keep(Derivation derivation) throws IOException {
    DerivationInput input = derivation.input();
    Path shard = shard(input.stage(), derivation.key().hex());
    String stem = derivation.key().hex() + ".";
    byte[] text = input.text().getBytes(StandardCharsets.UTF_8);
    write(shard.resolve(stem + INPUT), out -> out.write(text));
    for (Map.Entry<String, byte[]> file : derivation.files().files().entrySet()) {
      if (!file.getKey().equals(Derivation.RESULT)) {
        write(shard.resolve(stem + file.getKey()), out -> out.write(file.getValue()));
      }
    }
    byte[] result = derivation.files().file(Derivation.RESULT).orElseThrow();
    StringBuilder sums = new StringBuilder(sum(text, stem + INPUT));
    derivation.files().files().forEach((name, bytes) -> sums.append(sum(bytes, stem + name)));
    byte[] list = sums.toString().getBytes(StandardCharsets.UTF_8);
    write(shard.resolve(stem + SUMS), out -> out.write(list));
    write(shard.resolve(stem + Derivation.RESULT), out -> out.write(result));
  }

  private static String sum(byte[] bytes, String name) {
    return Sha256.of(bytes) + "  " + name + "\n";
  }

  /** The digests that were written down for files of one stem, by name; none in older archives. */
  private static Map<String, String> sums(Path shard, String stem) {
    return text(shard.resolve(stem + "." + SUMS)).map(Derived::sums).orElse(Map.of());
  }

  /** By name, in the order written; lines that aren't a digest and a name are left out. */
  private static Map<String, String> sums(String text) {
    Map<String, String> sums = new LinkedHashMap<>();
    text.lines()
        .map(line -> line.split("  ", 2))
        .filter(parts -> parts.length == 2)
        .forEach(parts -> sums.put(parts[1], parts[0]));
    return sums;
  }

  /**
   * Whether a list of digests is whole: every line of it read, all of one stem, its result among
   * them. A line that had lost its gap would otherwise take its file out of the check unseen.
   */
  private static boolean isList(String text, String stem) {
    Map<String, String> sums = sums(text);
    StringBuilder again = new StringBuilder();
    sums.forEach((name, digest) -> again.append(digest).append("  ").append(name).append('\n'));
    return again.toString().equals(text)
        && sums.containsKey(stem + "." + Derivation.RESULT)
        && sums.keySet().stream()
            .allMatch(name -> name.startsWith(stem + ".") && NamedFiles.isName(name));
  }

  /** The files that aren't as they were written: missing, or other bytes. */
  List<Path> changed(Lying lying) throws IOException {
    List<Path> changed = new ArrayList<>();
    for (Path file : lying.files()) {
      if (file.toString().endsWith("." + SUMS)) {
        String list = text(file).orElse("");
        if (!isList(list, lying.name())) {
          changed.add(file);
          continue;
        }
        for (Map.Entry<String, String> sum : sums(list).entrySet()) {
          Path of = file.resolveSibling(sum.getKey());
          if (!Files.exists(of) || !Sha256.of(of).hex().equals(sum.getValue())) {
            changed.add(of);
          }
        }
      }
    }
    return changed;
  }

  /** What this archive can give a stage with this input. */
  public Given given(Record input) {
    return new Stored().only(input);
  }

  /** Where a file of a derivation, or a mark beside it, lies or would lie. */
  public Path path(StageKind<?, ?> kind, DerivationKey key, String ending) {
    return shard(kind.name(), key.hex()).resolve(key.hex() + "." + ending);
  }

  /** Where the note on a face or photograph lies or would lie. */
  public Path note(String kind, UUID subject) {
    // The last digits of an id are random, the first are the time.
    String name = subject.toString();
    return in(kind, name.substring(name.length() - 2), name + "." + Derivation.RESULT)
        .resolve(name + "." + Derivation.RESULT);
  }

  /** Writes a file of this folder, or replaces it; nobody sees half of it. */
  public Path write(Path target, Content content) throws IOException {
    Path shard = Optional.ofNullable(target.getParent()).orElseThrow();
    Files.createDirectories(shard);
    Path temporary = shard.resolve(target.getFileName() + "." + Uuid7.next() + PART);
    try {
      try (FileChannel channel =
              FileChannel.open(temporary, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
          OutputStream out = Channels.newOutputStream(channel)) {
        content.writeTo(out);
        out.flush();
        channel.force(true);
      }
      Durable.rename(temporary, target);
    } catch (IOException e) {
      Files.deleteIfExists(temporary);
      throw e;
    }
    return target;
  }

  /**
   * Everything in the folder that has one name but for its ending.
   *
   * @param stage the stage's folder, or that of a kind of notes
   * @param name a derivation's key, or the id a note is on
   * @param input what it was made from; empty for notes and for what an earlier program left
   */
  public record Lying(
      String stage,
      String name,
      Optional<DerivationInput> input,
      List<Path> files,
      long sizeBytes) {
    public Lying {
      files = List.copyOf(files);
    }
  }

  /** Goes through the folder, one name after the other; what is just being written is left out. */
  public void eachLying(Consumer<Lying> consumer) {
    for (Path stage : folders(folder)) {
      for (Path shard : folders(stage)) {
        Map<String, List<Path>> byName = new TreeMap<>();
        for (Path file : entries(shard)) {
          String name = file.getFileName().toString();
          if (!name.endsWith(PART)) {
            String stem = name.substring(0, (name + ".").indexOf('.'));
            byName.computeIfAbsent(stem, s -> new ArrayList<>()).add(file);
          }
        }
        byName.forEach(
            (name, files) ->
                consumer.accept(
                    new Lying(
                        stage.getFileName().toString(),
                        name,
                        input(shard, name),
                        files,
                        size(files))));
      }
    }
  }

  /**
   * Deletes derivations of which a file isn't as it was written.
   *
   * @return how many
   */
  public int dropChanged() throws IOException {
    List<Lying> all = new ArrayList<>();
    eachLying(all::add);
    int dropped = 0;
    for (Lying lying : all) {
      if (!changed(lying).isEmpty()) {
        drop(lying);
        dropped++;
      }
    }
    return dropped;
  }

  /**
   * Deletes what was made from originals, and what was made from that in turn.
   *
   * @return how many derivations
   */
  public int dropMadeFrom(Set<Sha256> originals) throws IOException {
    List<Lying> made = madeFrom(originals);
    for (Lying lying : made) {
      drop(lying);
    }
    return made.size();
  }

  /** What was made from originals, and what was made from that in turn. */
  List<Lying> madeFrom(Set<Sha256> originals) {
    // What names a digest in its input, be it an original's or another derivation's key.
    Map<String, List<Lying>> madeFrom = new HashMap<>();
    eachLying(
        lying ->
            digests(lying)
                .forEach(
                    digest -> madeFrom.computeIfAbsent(digest, d -> new ArrayList<>()).add(lying)));
    Deque<String> sources = new ArrayDeque<>();
    originals.forEach(original -> sources.add(original.hex()));
    Map<String, Lying> made = new TreeMap<>();
    while (!sources.isEmpty()) {
      for (Lying lying : madeFrom.getOrDefault(sources.remove(), List.of())) {
        if (made.put(lying.stage() + "/" + lying.name(), lying) == null) {
          sources.add(lying.name());
        }
      }
    }
    return List.copyOf(made.values());
  }

  /** The digests and keys that its input names. */
  static Set<String> digests(Lying lying) {
    return lying
        .input()
        .map(
            input ->
                DIGEST
                    .matcher(input.text())
                    .results()
                    .map(MatchResult::group)
                    .collect(Collectors.toSet()))
        .orElse(Set.of());
  }

  /** The files of a note, where there is one. */
  List<Path> ofNote(String kind, UUID subject) {
    Path note = note(kind, subject);
    return Files.exists(note) ? List.of(note) : List.of();
  }

  /** Deletes what lies under one name, the result first. */
  public void drop(Lying lying) throws IOException {
    if (instead.isPresent()) {
      throw new ArchiveException(folder + ": can't be written, so nothing in it is deleted.");
    }
    String result = lying.name() + "." + Derivation.RESULT;
    for (Path file : lying.files()) {
      if (file.getFileName().toString().equals(result)) {
        Files.deleteIfExists(file);
      }
    }
    for (Path file : lying.files()) {
      Files.deleteIfExists(file);
    }
  }

  private static Optional<DerivationInput> input(Path shard, String name) {
    return name.length() == KEY_DIGITS && Sha256.HEX.matcher(name).matches()
        ? text(shard.resolve(name + "." + INPUT))
            .flatMap(text -> input(text, new DerivationKey(name)))
        : Optional.empty();
  }

  /** Reads an input; one that doesn't belong to its key counts as missing. */
  private static Optional<DerivationInput> input(String text, DerivationKey key) {
    try {
      return Optional.of(DerivationInput.read(text)).filter(input -> input.key().equals(key));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private Path shard(String stage, String key) {
    return in(stage, key.substring(0, 2), key + "." + Derivation.RESULT);
  }

  /** The folder in which a file lies, or may be written. */
  private Path in(String stage, String shard, String file) {
    Path own = folder.resolve(stage).resolve(shard);
    return instead.isEmpty() || Files.exists(own.resolve(file))
        ? own
        : instead.get().resolve(stage).resolve(shard);
  }

  private static Optional<String> text(Path file) {
    try {
      return Optional.of(Files.readString(file, StandardCharsets.UTF_8));
    } catch (NoSuchFileException | CharacterCodingException e) {
      return Optional.empty();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static long size(List<Path> files) {
    long size = 0;
    for (Path file : files) {
      try {
        size += Files.size(file);
      } catch (IOException e) {
        // Gone meanwhile.
      }
    }
    return size;
  }

  private static List<Path> folders(Path folder) {
    return entries(folder).stream().filter(Files::isDirectory).toList();
  }

  private static List<Path> entries(Path folder) {
    List<Path> entries = new ArrayList<>();
    try (DirectoryStream<Path> stream = Files.newDirectoryStream(folder)) {
      stream.forEach(entries::add);
    } catch (NoSuchFileException e) {
      return List.of();
    } catch (IOException e) {
      throw new ArchiveException(folder + ": can't be listed (" + e + "). Check the disk.", e);
    }
    entries.sort(null);
    return entries;
  }

  /** Originals and derivations of this archive. */
  private final class Stored implements Given {
    @Override
    public byte[] original(Sha256 digest) throws BadInputException {
      return originals.read(digest);
    }

    @Override
    public byte[] original(Sha256 digest, long offsetBytes, long lengthBytes)
        throws BadInputException {
      byte[] part = new byte[Math.toIntExact(lengthBytes)];
      try (RandomAccessFile in = new RandomAccessFile(originals.sound(digest).toFile(), "r")) {
        in.seek(offsetBytes);
        in.readFully(part);
      } catch (EOFException e) {
        throw new BadInputException("original " + digest + " is shorter than it was; run `check`");
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
      return part;
    }

    @Override
    public <O> O result(StageKind<?, O> kind, DerivationKey key) {
      return Derived.this
          .result(kind, key)
          .orElseThrow(
              () -> new IllegalStateException(kind.name() + " " + key + " hasn't been made"));
    }
  }
}
