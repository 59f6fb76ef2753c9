package rakelight.archive;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Takes derivations that were made elsewhere into an archive. Each is checked: its key must be the
 * SHA-256 of what it says it was made from, and its result must be one of that stage. What can't be
 * checked so is whether the stage really gives that result; a machine that lies isn't found out.
 */
public final class TakeIn {
  private final Archive archive;
  private final Derived elsewhere;
  private final Map<String, StageKind<?, ?>> kinds = new HashMap<>();
  private final List<Refused> refused = new ArrayList<>();
  private int taken;
  private int thereBefore;

  /**
   * @param name of the derivation, with its stage
   * @param reason one line
   */
  public record Refused(String name, String reason) {}

  /**
   * @param taken derivations that are new here
   * @param thereBefore derivations that the archive had
   */
  public record Report(int taken, int thereBefore, List<Refused> refused) {
    public Report {
      refused = List.copyOf(refused);
    }
  }

  private TakeIn(Archive archive, Path folder, List<StageKind<?, ?>> kinds) {
    this.archive = archive;
    this.elsewhere = new Derived(folder, Optional.empty(), archive.originals());
    kinds.forEach(kind -> this.kinds.put(kind.name(), kind));
  }

  /**
   * Takes all of a folder.
   *
   * @param folder laid out as an archive's {@code derived/}; it is only read
   * @param kinds the stages whose results are taken; other folders in it are left
   * @throws ArchiveException if there is no such folder
   */
  public static Report of(Archive archive, Path folder, List<StageKind<?, ?>> kinds) {
    if (!Files.isDirectory(folder)) {
      throw new ArchiveException(
          folder + ": there is no such folder. Name the one that derivations were written to.");
    }
    TakeIn takeIn = new TakeIn(archive, folder, kinds);
    takeIn.elsewhere.eachLying(takeIn::take);
    return new Report(takeIn.taken, takeIn.thereBefore, takeIn.refused);
  }

  private void take(Derived.Lying lying) {
    StageKind<?, ?> kind = kinds.get(lying.stage());
    boolean begunOnly =
        lying.files().stream().noneMatch(file -> file.toString().endsWith("." + Derivation.RESULT));
    if (kind == null || begunOnly) {
      return;
    }
    Optional<String> problem = taken(kind, lying);
    problem.ifPresent(why -> refused.add(new Refused(lying.stage() + "/" + lying.name(), why)));
  }

  private <I extends Record, O> Optional<String> taken(StageKind<I, O> kind, Derived.Lying lying) {
    if (lying.input().isEmpty()) {
      return Optional.of("what it was made from is missing, or isn't what its key was made of");
    }
    DerivationInput input = lying.input().get();
    if (!input.isOf(kind)) {
      return Optional.of(
          "made by version %d of %s; this program has version %d"
              .formatted(input.version(), input.stage(), kind.version()));
    }
    if (archive.withdrawals().isMadeOf(input.text())) {
      return Optional.of("made of a photograph that was withdrawn");
    }
    DerivationKey key = input.key();
    if (archive.derived().has(kind, key)) {
      thereBefore++;
      return Optional.empty();
    }
    Optional<O> result = elsewhere.result(kind, key);
    if (result.isEmpty()) {
      return Optional.of("its result is missing or can't be read");
    }
    try {
      archive.derived().keep(Derivation.of(kind, input.as(kind), result.get()));
    } catch (IllegalArgumentException e) {
      return Optional.of("what it was made from can't be read: " + e.getMessage());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    taken++;
    return Optional.empty();
  }
}
