package rakelight.archive;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jdbi.v3.core.Handle;

/**
 * Two archives as they are looked at before they are merged, both in the same terms: where they, or
 * others that were merged into one of them, were begun apart, copies in which both know which
 * things are one. What is then found of them can be compared thing by thing.
 *
 * @param here the archive that is merged into, or a copy of its ledger
 * @param there the other, or a copy of its ledger
 * @param pairs what was found to be one, where the two were begun apart
 * @param becomesOne the decision that says so
 */
record Acquaintance(
    Archive here,
    Archive there,
    Optional<ArchivePairing.Pairs> pairs,
    Optional<NewDecision> becomesOne,
    List<Archive> copies)
    implements AutoCloseable {
  /**
   * @throws ArchiveException if they were begun apart and that isn't said, or are of two grounds
   */
  static Acquaintance of(Archive here, Archive there, Merging.How how) {
    List<DecisionOrder.Row> joinsHere = joins(here);
    List<DecisionOrder.Row> joinsThere = joins(there);
    boolean know = here.id().equals(there.id()) && ids(joinsHere).equals(ids(joinsThere));
    if (know && !how.dryRun()) {
      return new Acquaintance(here, there, Optional.empty(), Optional.empty(), List.of());
    }
    List<Archive> copies = new ArrayList<>();
    try {
      copies.add(here.copiedToLook());
      copies.add(there.copiedToLook());
      Archive one = copies.get(0);
      Archive other = copies.get(1);
      tell(one, joinsThere);
      tell(other, joinsHere);
      if (one.id().equals(other.id())) {
        return new Acquaintance(one, other, Optional.empty(), Optional.empty(), copies);
      }
      ArchivePairing pairing =
          how.pairing()
              .orElseThrow(
                  () ->
                      new ArchiveException(
                          there.root()
                              + ": another archive, begun by another `init`; it shares no decision"
                              + " with "
                              + here.root()
                              + ". If both are of one ground, see with --begun-apart --dry-run"
                              + " what would become one, then merge with --begun-apart."));
      boolean inOrder = one.id().toString().compareTo(other.id().toString()) < 0;
      Archive first = inOrder ? one : other;
      ArchivePairing.Pairs pairs = pairing.of(first, inOrder ? other : one);
      NewDecision becomesOne =
          NewDecision.of(
              Decision.PROGRAM,
              SameThings.JOINED,
              1,
              first.id(),
              new SameThings.Joined(
                  Stream.concat(
                          Stream.of(List.of(first.id(), (inOrder ? other : one).id())),
                          pairs.same().stream())
                      .toList()));
      for (Archive copy : copies) {
        copy.journal().follow(becomesOne, Instant.EPOCH);
        copy.journal().rebuild();
      }
      return new Acquaintance(one, other, Optional.of(pairs), Optional.of(becomesOne), copies);
    } catch (ArchiveException e) {
      copies.forEach(Archive::close);
      throw e;
    }
  }

  private static List<DecisionOrder.Row> joins(Archive archive) {
    return archive.ledger().read(DecisionOrder::rows).stream()
        .filter(row -> row.kind().equals(SameThings.JOINED))
        .toList();
  }

  private static Set<String> ids(List<DecisionOrder.Row> rows) {
    Set<String> ids = new LinkedHashSet<>();
    rows.stream().map(DecisionOrder.Row::id).sorted().forEach(ids::add);
    return ids;
  }

  private static void tell(Archive copy, List<DecisionOrder.Row> rows) {
    boolean isNews = copy.ledger().write(handle -> append(handle, rows));
    if (isNews) {
      copy.journal().rebuild();
    }
  }

  /**
   * Adds rows of another journal, as far as they aren't here.
   *
   * @return whether any wasn't
   */
  static boolean append(Handle handle, List<DecisionOrder.Row> rows) {
    boolean any = false;
    for (DecisionOrder.Row row : rows) {
      boolean isHere =
          handle
              .createQuery("SELECT count(*) > 0 FROM decision WHERE id = :id")
              .bind("id", row.id())
              .mapTo(Boolean.class)
              .one();
      if (!isHere) {
        DecisionOrder.append(handle, row);
        any = true;
      }
    }
    Chain.complete(handle);
    return any;
  }

  @Override
  public void close() {
    copies.forEach(Archive::close);
  }
}
