package rakelight.archive;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;

/**
 * Brings what was decided in a copy of an archive back into it; see
 * docs/decisions/0031-two-histories-become-one.md. Whichever of the two is merged into which, the
 * same decisions in the same order come out, and so the same content; merging again changes
 * nothing. The other archive is only looked at.
 *
 * <p>Order of writes: originals that are missing here, each flushed; then, in one transaction, the
 * decisions, all state tables and what follows from the meeting; last, originals of what is
 * withdrawn are put away. A crash leaves the archive as it was, at most with originals no row
 * speaks of, which the next merge takes up.
 */
public final class Merging {
  private final Archive here;
  private final Archive there;
  private final List<Joining> joinings;

  /**
   * What came in.
   *
   * @param decisions from the other archive
   * @param follows decisions of the program that the meeting made necessary
   * @param originals from the other archive
   * @param apart what was decided on both, and waits
   * @param faults originals that couldn't be taken, one line each
   */
  public record Result(
      int decisions, int follows, int originals, List<Apart> apart, List<String> faults) {
    public Result {
      apart = List.copyOf(apart);
      faults = List.copyOf(faults);
    }
  }

  /** What each has that the other hasn't. */
  private record Difference(List<DecisionOrder.Row> coming, Set<String> onlyHere, long counter) {}

  private Merging(Archive here, Archive there, List<Joining> joinings) {
    this.here = here;
    this.there = there;
    this.joinings = List.copyOf(joinings);
  }

  /**
   * Merges.
   *
   * @param there is only looked at
   * @param knownThere what else the other knows, though it hasn't it: of a part that was lent, all
   *     that was decided here before
   * @param progress is told of each original that was copied
   * @throws ArchiveException if the two aren't of one archive, or something must be settled first;
   *     then nothing is changed
   */
  public static Result of(
      Archive here,
      Archive there,
      List<Joining> joinings,
      long knownThere,
      Consumer<Path> progress) {
    here.requireWritable();
    return new Merging(here, there, joinings).merge(knownThere, progress);
  }

  private Result merge(long knownThere, Consumer<Path> progress) {
    if (!here.id().equals(there.id())) {
      throw new ArchiveException(
          there.root()
              + ": another archive, begun by another `init`; it shares no decision with "
              + here.root()
              + ". Only copies of one archive and parts lent from it can be merged.");
    }
    Difference difference = difference();
    Meeting meeting =
        new Meeting(
            new Meeting.Side(here, ownHere(difference.onlyHere(), knownThere)),
            new Meeting.Side(there, ownThere(difference.coming())));
    List<String> faults = new ArrayList<>();
    List<Apart> apart = new ArrayList<>();
    if (meeting.areApart()) {
      List<String> refusals =
          joinings.stream().flatMap(joining -> joining.refusals(meeting).stream()).toList();
      if (!refusals.isEmpty()) {
        throw new ArchiveException(
            "Nothing was merged. To be settled first: " + String.join(" ", refusals));
      }
      apart.addAll(here.journal().settingsApart(meeting));
      joinings.forEach(joining -> apart.addAll(joining.apart(meeting)));
    }
    int originals = copyOriginals(progress, faults);
    int follows =
        difference.coming().isEmpty()
            ? 0
            : here.ledger().write(handle -> join(handle, difference, meeting, apart));
    here.withdrawals().putAway();
    return new Result(difference.coming().size(), follows, originals, apart, faults);
  }

  /** The decisions that one has and the other hasn't; those that both have must be the same. */
  private Difference difference() {
    Map<String, String> known = new HashMap<>();
    long counter =
        here.ledger()
            .read(
                handle -> {
                  DecisionOrder.rows(handle).forEach(row -> known.put(row.id(), digest(row)));
                  return Chain.head(handle).map(Chain.Head::counter).orElse(0L);
                });
    List<DecisionOrder.Row> coming = new ArrayList<>();
    Set<String> onlyHere = new HashSet<>(known.keySet());
    there
        .ledger()
        .read(
            handle -> {
              for (DecisionOrder.Row row : DecisionOrder.rows(handle)) {
                String same = known.get(row.id());
                onlyHere.remove(row.id());
                if (same == null) {
                  coming.add(row);
                } else if (!same.equals(digest(row))) {
                  throw new ArchiveException(
                      "Decision "
                          + row.id()
                          + " says something else in "
                          + there.root()
                          + " than here, and decisions are never changed: one of the two was"
                          + " tampered with. Nothing was merged; `check` both, also against a"
                          + " backup.");
                }
              }
              return 0;
            });
    coming.forEach(row -> requireKnown(row));
    return new Difference(List.copyOf(coming), Set.copyOf(onlyHere), counter);
  }

  private void requireKnown(DecisionOrder.Row row) {
    if (!row.kind().equals(Decision.UNDONE) && !here.journal().kinds().contains(row.kind())) {
      throw new ArchiveException(
          there.root() + " has decisions of a kind this program doesn't know, " + row.kind() + ".");
    }
  }

  private static String digest(DecisionOrder.Row row) {
    return Sha256.of(Json.text(row)).hex();
  }

  private List<Decision> ownHere(Set<String> ids, long knownThere) {
    return decisions(here, ids, knownThere);
  }

  private List<Decision> ownThere(List<DecisionOrder.Row> rows) {
    Set<String> ids = new HashSet<>();
    rows.forEach(row -> ids.add(row.id()));
    return decisions(there, ids, 0);
  }

  private static List<Decision> decisions(Archive archive, Set<String> ids, long after) {
    Map<Long, Decision> inOrder = new TreeMap<>();
    ids.forEach(
        id ->
            archive
                .journal()
                .find(DecisionId.of(id))
                .filter(decision -> decision.counter() > after)
                .ifPresent(decision -> inOrder.put(decision.counter(), decision)));
    return List.copyOf(inOrder.values());
  }

  private int join(Handle handle, Difference difference, Meeting meeting, List<Apart> apart) {
    if (Chain.head(handle).map(Chain.Head::counter).orElse(0L) != difference.counter()) {
      throw new ArchiveException(
          "Somebody decided something here meanwhile. Nothing was merged; run it again.");
    }
    Journal journal = here.journal();
    difference.coming().forEach(row -> DecisionOrder.append(handle, row));
    Chain.complete(handle);
    journal.rebuild();
    if (!meeting.areApart()) {
      return 0;
    }
    int follows = 0;
    for (Joining joining : joinings) {
      for (NewDecision decision : joining.follows(here, meeting)) {
        follows += journal.follow(decision, meeting) ? 1 : 0;
      }
    }
    if (!apart.isEmpty()) {
      List<Apart> sorted =
          apart.stream()
              .sorted(
                  Comparator.comparing(Apart::what)
                      .thenComparing(one -> one.subject().toString())
                      .thenComparing(one -> one.one().toString()))
              .toList();
      NewDecision asked =
          NewDecision.of(Decision.PROGRAM, Apart.JOINED, 1, here.id(), new Apart.Asked(sorted));
      follows += journal.follow(asked, meeting) ? 1 : 0;
    }
    return follows;
  }

  private int copyOriginals(Consumer<Path> progress, List<String> faults) {
    int copied = 0;
    try (Incoming incoming = here.originals().receive()) {
      for (Path file : there.originals().all()) {
        Optional<Sha256> digest = Originals.digestInName(file);
        if (digest.isEmpty() || here.originals().isThere(digest.get())) {
          continue;
        }
        if (here.withdrawals().of(digest.get()).isPresent()) {
          continue;
        }
        try (FileChannel in = FileChannel.open(file, StandardOpenOption.READ)) {
          Incoming.Copy copy = incoming.copy(in);
          if (copy.digest().equals(digest.get())) {
            String name = String.valueOf(file.getFileName());
            incoming.keep(copy, name.substring(name.lastIndexOf('.') + 1));
            copied++;
          } else {
            incoming.drop(copy);
            faults.add(
                file
                    + ": damaged, its bytes aren't those its name tells; not taken. Ingest the"
                    + " same file again.");
          }
        }
        progress.accept(file);
      }
      incoming.settle();
    } catch (IOException e) {
      throw new ArchiveException(
          here.root() + ": originals can't be copied (" + e + "). Nothing else was changed.", e);
    }
    return copied;
  }
}
