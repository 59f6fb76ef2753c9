package rakelight.spark;

import java.io.IOException;
import java.io.Serializable;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FSDataInputStream;
import org.apache.hadoop.fs.Path;
import org.jspecify.annotations.Nullable;
import rakelight.archive.BadInputException;
import rakelight.archive.Derivation;
import rakelight.archive.DerivationKey;
import rakelight.archive.Given;
import rakelight.archive.Sha256;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.photo.FileContent;
import rakelight.photo.PictureKind;
import rakelight.photo.UnfitFileException;
import rakelight.reading.MachineReader;
import rakelight.reading.MergeFace;
import rakelight.reading.ReadPhotograph;

/**
 * What one machine does: describes, reads and merges, and says of each photograph and face what
 * became of it. A fault of one is a row, never an exception. The networks are loaded once per
 * machine and shared by its threads.
 */
final class Worker {
  /** A photograph over which machines have died so often is set aside. */
  private static final int MOST_DEATHS = 2;

  private static @Nullable MachineReader reader;

  private final Output output;
  private final ReadPhotograph readPhotograph;
  private final MergeFace mergeFace;

  Worker(String output) {
    this.output = new Output(output);
    MachineReader here = readerHere();
    this.readPhotograph = new ReadPhotograph(here);
    this.mergeFace = new MergeFace(here);
  }

  private static synchronized MachineReader readerHere() {
    if (reader == null) {
      reader = MachineReader.standard();
    }
    return reader;
  }

  /**
   * What was learned of a file.
   *
   * @param shots the photograph; none if it can't be read, and then the row says why
   */
  record Learned(List<Shot> shots, Row row) implements Serializable {}

  /** Learns of a file what ingest would. */
  static Learned describe(String address, Shot.@Nullable OnFace face) {
    long start = System.nanoTime();
    try {
      byte[] bytes = bytes(address);
      FileContent content = FileContent.of(ByteBuffer.wrap(bytes), new Path(address).getName());
      if (content.inspection().picture() == PictureKind.NONE) {
        return unread(address, "it holds no picture that can be read", start);
      }
      Sha256 digest = Sha256.of(bytes);
      return new Learned(
          List.of(Shot.of(address, face, content.source(digest))),
          row(address, StagesJob.DESCRIBE, Row.Outcome.MADE, digest.hex(), "", start));
    } catch (UnfitFileException | IOException | RuntimeException | OutOfMemoryError e) {
      return unread(address, reason(e), start);
    }
  }

  private static Learned unread(String address, String reason, long start) {
    return new Learned(List.of(), failed(address, StagesJob.DESCRIBE, reason, start));
  }

  /** Reads one photograph. */
  Row read(Shot shot) {
    ReadPhotograph.Input input = readPhotograph.input(shot.source());
    return step(shot.address(), readPhotograph, input, () -> new Files(List.of(shot), output));
  }

  /** Puts the photographs of one face together, those of them that could be read. */
  Row merge(String subject, Iterable<Shot> shots) {
    long start = System.nanoTime();
    List<Shot> read = new ArrayList<>();
    List<MergeFace.View> views = new ArrayList<>();
    for (Shot shot : shots) {
      DerivationKey key = ReadPhotograph.KIND.key(readPhotograph.input(shot.source()));
      if (output.has(ReadPhotograph.KIND, key)) {
        read.add(shot);
        views.add(
            new MergeFace.View(
                shot.source(), key, Optional.ofNullable(shot.face()).flatMap(Shot.OnFace::light)));
      }
    }
    if (views.isEmpty()) {
      return failed(subject, MergeFace.KIND.name(), "none of its photographs was read", start);
    }
    return step(subject, mergeFace, mergeFace.input(views), () -> new Files(read, output));
  }

  private <I extends Record, O> Row step(
      String subject, Stage<I, O> stage, I input, Callable<Given> given) {
    long start = System.nanoTime();
    StageKind<I, O> kind = stage.kind();
    DerivationKey key = kind.key(input);
    try {
      if (output.has(kind, key)) {
        return row(subject, kind.name(), Row.Outcome.THERE_BEFORE, key.hex(), "", start);
      }
      int begun = output.begun(kind, key);
      if (begun >= MOST_DEATHS) {
        return failed(
            subject,
            kind.name(),
            "machines died twice over it, so it was set aside; delete its .started file to try again",
            start);
      }
      output.begin(kind, key, begun + 1);
      try {
        output.keep(kind, Derivation.made(stage, input, given.call()));
      } finally {
        output.ended(kind, key);
      }
      return row(subject, kind.name(), Row.Outcome.MADE, key.hex(), "", start);
    } catch (Exception | OutOfMemoryError e) {
      return failed(subject, kind.name(), reason(e), start);
    }
  }

  private static String reason(Throwable e) {
    if (e instanceof OutOfMemoryError) {
      return "it needs more memory than an executor has";
    }
    return e instanceof BadInputException || e instanceof UnfitFileException
        ? String.valueOf(e.getMessage())
        : e.toString();
  }

  private static Row failed(String subject, String step, String reason, long start) {
    return row(subject, step, Row.Outcome.FAILED, "", reason, start);
  }

  private static Row row(
      String subject, String step, Row.Outcome outcome, String key, String reason, long start) {
    return new Row(subject, step, outcome, key, reason, (System.nanoTime() - start) / 1_000_000);
  }

  private static byte[] bytes(String address) throws IOException {
    Path path = new Path(address);
    try (FSDataInputStream in = path.getFileSystem(new Configuration()).open(path)) {
      return in.readAllBytes();
    }
  }

  /** Originals by where their files are, results by where they were written. */
  private static final class Files implements Given {
    private final Map<String, String> addresses = new HashMap<>();
    private final Output output;

    Files(List<Shot> shots, Output output) {
      shots.forEach(shot -> addresses.put(shot.digest(), shot.address()));
      this.output = output;
    }

    @Override
    public byte[] original(Sha256 digest) throws BadInputException {
      String address = addresses.get(digest.hex());
      if (address == null) {
        throw new BadInputException("original " + digest + " isn't among the photographs");
      }
      byte[] bytes;
      try {
        bytes = bytes(address);
      } catch (IOException e) {
        throw new BadInputException(address + " can't be read: " + e.getMessage());
      }
      if (!Sha256.of(bytes).equals(digest)) {
        throw new BadInputException(address + " has changed since it was described");
      }
      return bytes;
    }

    @Override
    public <O> O result(StageKind<?, O> kind, DerivationKey key) {
      return output
          .result(kind, key)
          .orElseThrow(() -> new IllegalStateException(kind.name() + " " + key + " isn't there"));
    }
  }
}
