package rakelight.marker;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Uuid7;

/**
 * What a table of descriptions would change, before it does.
 *
 * @param changed what markers are by the table where that isn't what stands, in the table's order
 * @param faults rows that can't be taken, each in a line; where there is one nothing is to be taken
 */
public record DescriptionChanges(Map<Marker, Description> changed, List<String> faults) {
  public DescriptionChanges {
    changed = new LinkedHashMap<>(changed);
    faults = List.copyOf(faults);
  }

  /**
   * Compares a table with what stands.
   *
   * @param file what faults call the table
   */
  public static DescriptionChanges of(Archive archive, DescriptionFile table, String file) {
    DescriptionStore store = new DescriptionStore(archive);
    MarkerStore markers = new MarkerStore(archive);
    Terms terms = store.terms();
    Map<Marker, Description> changed = new LinkedHashMap<>();
    List<String> faults = new ArrayList<>();
    for (DescriptionFile.Row row : table.rows()) {
      try {
        Marker marker = markers.named(row.marker());
        Description stands =
            store.of(marker.id()).map(Described::description).orElse(Description.NONE);
        Description before = changed.getOrDefault(marker, stands);
        Description now = DescriptionStore.checked(row.words().over(before), terms);
        if (now.equals(stands)) {
          changed.remove(marker);
        } else {
          changed.put(marker, now);
        }
      } catch (ArchiveException e) {
        faults.add(file + ":" + row.line() + ": " + e.getMessage());
      }
    }
    return new DescriptionChanges(changed, faults);
  }

  /**
   * Says all of it in one act.
   *
   * @throws ArchiveException if a row can't be taken
   */
  public void take(Archive archive, String reader) {
    if (!faults.isEmpty()) {
      throw new ArchiveException(faults.get(0) + " Nothing was taken.");
    }
    DescriptionStore store = new DescriptionStore(archive);
    UUID batch = Uuid7.next();
    archive
        .ledger()
        .write(
            handle -> {
              changed.forEach((marker, now) -> store.describe(marker.id(), now, batch, reader));
              return changed.size();
            });
  }
}
