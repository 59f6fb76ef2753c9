package rakelight.cli;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import rakelight.archive.Archive;
import rakelight.archive.Originals;
import rakelight.archive.Sha256;
import rakelight.person.Source;
import rakelight.person.SourceStore;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.work.LendingOut;

/** The originals that a ledger speaks of. */
final class Expected {
  private Expected() {}

  /** Where each photograph, scan and sealed original must lie, and its size in bytes. */
  static Map<Path, Long> originals(Archive archive) {
    Originals originals = archive.originals();
    Map<Path, Long> expected = new LinkedHashMap<>();
    Set<Sha256> notLent = LendingOut.notLent(archive);
    for (Photograph photograph : new PhotoStore(archive).photographs()) {
      if (notLent.contains(photograph.sha256())) {
        continue;
      }
      expected.put(
          originals.path(photograph.sha256(), photograph.format().extension()),
          photograph.sizeBytes());
    }
    for (Source source : new SourceStore(archive).sources()) {
      for (Source.Scan scan : source.scans()) {
        expected.put(originals.path(scan.sha256(), scan.extension()), scan.sizeBytes());
      }
    }
    expected.putAll(archive.withdrawals().sealed());
    return expected;
  }
}
