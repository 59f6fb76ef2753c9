package rakelight.archive;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * One derivation with what it was made from, as it lies on disk; it can be made anywhere and taken
 * into an archive later.
 *
 * @param files its files by ending: {@code json} is the result itself, or, of a result of several
 *     files, the list of their names
 */
public record Derivation(DerivationInput input, NamedFiles files) {
  /** The ending of the result, or of the list of its files. */
  static final String RESULT = "json";

  /** The list of a result's files. */
  record Names(List<String> files) {}

  public Derivation {
    if (files.file(RESULT).isEmpty()) {
      throw new IllegalArgumentException("a derivation has a result");
    }
  }

  /**
   * Runs a stage.
   *
   * @param given the stage sees of it only what its input names
   * @throws BadInputException if the input can't be worked on
   */
  public static <I extends Record, O> Derivation made(Stage<I, O> stage, I input, Given given)
      throws BadInputException {
    return of(stage.kind(), input, stage.run(input, given.only(input)));
  }

  /** What a stage has made. */
  public static <I extends Record, O> Derivation of(StageKind<I, O> kind, I input, O result) {
    return new Derivation(DerivationInput.of(kind, input), files(result));
  }

  private static NamedFiles files(Object result) {
    if (!(result instanceof NamedFiles several)) {
      return NamedFiles.of(Map.of(RESULT, bytes(result)));
    }
    TreeMap<String, byte[]> all = new TreeMap<>(several.files());
    all.put(RESULT, bytes(new Names(List.copyOf(several.names()))));
    return new NamedFiles(all);
  }

  private static byte[] bytes(Object value) {
    return (Json.text(value) + "\n").getBytes(StandardCharsets.UTF_8);
  }

  /** Its name. */
  public DerivationKey key() {
    return input.key();
  }

  /**
   * The result.
   *
   * @throws IllegalArgumentException if it isn't one of this stage's
   */
  public <O> O result(StageKind<?, O> kind) {
    if (!input.isOf(kind)) {
      throw new IllegalArgumentException("made by " + input.stage() + ", not by " + kind.name());
    }
    byte[] json = files.file(RESULT).orElseThrow();
    if (!kind.result().equals(NamedFiles.class)) {
      return Json.read(new String(json, StandardCharsets.UTF_8), kind.result());
    }
    TreeMap<String, byte[]> several = new TreeMap<>(files.files());
    several.remove(RESULT);
    return kind.result().cast(new NamedFiles(several));
  }

  /** The files of a result of several, from the text of their list; empty if it can't be read. */
  static Optional<List<String>> names(String list) {
    try {
      List<String> names = Json.read(list, Names.class).files();
      names.forEach(NamedFiles::requireName);
      return Optional.of(names);
    } catch (IllegalArgumentException | NullPointerException e) {
      return Optional.empty();
    }
  }
}
