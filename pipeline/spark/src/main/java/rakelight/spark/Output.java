package rakelight.spark;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FSDataInputStream;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import rakelight.archive.Derivation;
import rakelight.archive.DerivationInput;
import rakelight.archive.DerivationKey;
import rakelight.archive.NamedFiles;
import rakelight.archive.StageKind;

/**
 * Where derivations are written, laid out as in an archive's {@code derived/}: {@code
 * STAGE/ab/KEY.input.json} and {@code STAGE/ab/KEY.json}. The result comes last and each file is
 * renamed into its place, so that what is there is whole, also when a machine dies, and two
 * machines that make the same do no harm.
 */
final class Output {
  private static final String INPUT = "input.json";
  private static final String RESULT = "json";
  private static final String MARK = "started";

  private final Path folder;
  private final FileSystem files;

  Output(String folder) {
    this.folder = new Path(folder);
    try {
      this.files = this.folder.getFileSystem(new Configuration());
      // On a local disk checksums would lie as files among the derivations.
      this.files.setWriteChecksum(false);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  boolean has(StageKind<?, ?> kind, DerivationKey key) {
    return result(kind, key).isPresent();
  }

  /** A result of one document; empty unless it is there and can be read. */
  <O> Optional<O> result(StageKind<?, O> kind, DerivationKey key) {
    try {
      Optional<String> input = text(path(kind, key, INPUT));
      Optional<String> result = text(path(kind, key, RESULT));
      if (input.isEmpty() || result.isEmpty()) {
        return Optional.empty();
      }
      NamedFiles document =
          NamedFiles.of(Map.of(RESULT, result.get().getBytes(StandardCharsets.UTF_8)));
      Derivation derivation = new Derivation(DerivationInput.read(input.get()), document);
      return derivation.key().equals(key) ? Optional.of(derivation.result(kind)) : Optional.empty();
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  void keep(StageKind<?, ?> kind, Derivation derivation) throws IOException {
    DerivationKey key = derivation.key();
    write(path(kind, key, INPUT), derivation.input().text().getBytes(StandardCharsets.UTF_8));
    TreeMap<String, byte[]> others = new TreeMap<>(derivation.files().files());
    byte[] result = Optional.ofNullable(others.remove(RESULT)).orElseThrow();
    for (Map.Entry<String, byte[]> other : others.entrySet()) {
      write(path(kind, key, other.getKey()), other.getValue());
    }
    write(path(kind, key, RESULT), result);
  }

  /** How often a machine has begun this and died over it, as far as marks tell. */
  int begun(StageKind<?, ?> kind, DerivationKey key) throws IOException {
    return text(path(kind, key, MARK)).map(mark -> Integer.parseInt(mark.strip())).orElse(0);
  }

  void begin(StageKind<?, ?> kind, DerivationKey key, int time) throws IOException {
    write(path(kind, key, MARK), Integer.toString(time).getBytes(StandardCharsets.UTF_8));
  }

  void ended(StageKind<?, ?> kind, DerivationKey key) throws IOException {
    files.delete(path(kind, key, MARK), false);
  }

  /** Writes a text beside the derivations. */
  void write(String name, String text) throws IOException {
    Path target = new Path(folder, name);
    files.delete(target, false);
    write(target, text.getBytes(StandardCharsets.UTF_8));
  }

  private Path path(StageKind<?, ?> kind, DerivationKey key, String ending) {
    return new Path(
        folder, kind.name() + "/" + key.hex().substring(0, 2) + "/" + key.hex() + "." + ending);
  }

  private Optional<String> text(Path path) throws IOException {
    try (FSDataInputStream in = files.open(path)) {
      return Optional.of(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (FileNotFoundException e) {
      return Optional.empty();
    }
  }

  private void write(Path target, byte[] content) throws IOException {
    Path part = target.suffix("." + UUID.randomUUID() + ".part");
    try (FSDataOutputStream out = files.create(part, true)) {
      out.write(content);
      out.hsync();
    }
    if (!files.rename(part, target)) {
      // Where a rename doesn't replace: what another machine wrote under this key says the same.
      if (target.getName().endsWith("." + MARK)) {
        files.delete(target, false);
        files.rename(part, target);
      }
      files.delete(part, false);
    }
  }
}
