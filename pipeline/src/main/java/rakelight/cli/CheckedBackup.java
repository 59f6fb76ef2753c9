package rakelight.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Bag;
import rakelight.archive.Check;

/** Whether a backup is whole: every file as the manifests say, and an archive that holds. */
final class CheckedBackup {
  private CheckedBackup() {}

  /**
   * Reads all of a backup once and replays its journal.
   *
   * @param progress is told of each file as it has been read
   */
  static Check.Result of(Path bag, Consumer<Path> progress) {
    List<Check.Fault> faults = new ArrayList<>(Bag.verify(bag, progress));
    try (Archive copy = Archive.openToLook(bag.resolve("data"), Projections.all())) {
      Check.Result checked =
          Check.afterVerifying(copy).run(Expected.originals(copy).keySet(), original -> {});
      faults.addAll(checked.faults());
      return new Check.Result(faults, checked.originals(), checked.decisions(), checked.derived());
    } catch (ArchiveException e) {
      faults.add(
          new Check.Fault(
              "ledger-damaged", bag.resolve("data").toString(), String.valueOf(e.getMessage())));
      return new Check.Result(faults, 0, 0, Map.of());
    }
  }
}
