package rakelight.archive;

import java.util.List;
import java.util.UUID;

/** Finds which things of two archives that were begun apart are one. */
public interface ArchivePairing {
  /**
   * What was found; it doesn't depend on which archive is given first.
   *
   * @param same ids of one thing each
   * @param markers how many are in both
   * @param photographs how many are in both
   * @param keptApart what seemed to be one and is contradicted, a line each
   * @param apart the same, to be asked about
   */
  record Pairs(
      List<List<UUID>> same,
      int markers,
      int photographs,
      List<String> keptApart,
      List<Apart> apart) {
    public Pairs {
      same = same.stream().map(List::copyOf).toList();
      keptApart = List.copyOf(keptApart);
      apart = List.copyOf(apart);
    }
  }

  /**
   * Pairs the things of two archives.
   *
   * @throws ArchiveException if they are of different grounds
   */
  Pairs of(Archive one, Archive other);
}
