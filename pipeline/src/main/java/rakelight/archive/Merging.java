package rakelight.archive;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
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
  private final How how;

  /**
   * How to merge.
   *
   * @param joinings what stores see to, in this order
   * @param pairing finds what is one in two archives begun apart; without it these are refused
   * @param knownThere what else the other knows, though it hasn't it: of a part that was lent, all
   *     that was decided here before
   * @param dryRun only says what would be done
   */
  public record How(
      List<Joining> joinings, Optional<ArchivePairing> pairing, long knownThere, boolean dryRun) {
    public How {
      joinings = List.copyOf(joinings);
    }

    /** For copies of one archive. */
    public static How ofCopies(List<Joining> joinings) {
      return new How(joinings, Optional.empty(), 0, false);
    }
  }

  /**
   * What came in.
   *
   * @param came the decisions from the other archive, in their order
   * @param follows decisions of the program that the meeting made necessary
   * @param originals from the other archive
   * @param apart what was decided on both, and waits
   * @param faults originals that couldn't be taken, one line each
   * @param pairs what is one in archives begun apart, where they were so until now
   */
  public record Result(
      List<DecisionId> came,
      int follows,
      int originals,
      List<Apart> apart,
      List<String> faults,
      Optional<ArchivePairing.Pairs> pairs) {
    public Result {
      came = List.copyOf(came);
      apart = List.copyOf(apart);
      faults = List.copyOf(faults);
    }

    /** How many decisions came. */
    public int decisions() {
      return came.size();
    }
  }

  /** What each has that the other hasn't. */
  private record Difference(List<DecisionOrder.Row> coming, Set<String> onlyHere, long counter) {}

  private Merging(Archive here, Archive there, How how) {
    this.here = here;
    this.there = there;
    this.how = how;
  }

  /**
   * Merges.
   *
   * @param there is only looked at
   * @param progress is told of each original that was copied
   * @throws ArchiveException if the two aren't of one archive; then nothing is changed
   */
  public static Result of(Archive here, Archive there, How how, Consumer<Path> progress) {
    if (!how.dryRun()) {
      here.requireWritable();
    }
    return new Merging(here, there, how).merge(progress);
  }

  private Result merge(Consumer<Path> progress) {
    Difference difference = difference();
    try (Acquaintance both = Acquaintance.of(here, there, how)) {
      Meeting meeting =
          new Meeting(
              new Meeting.Side(
                  both.here(), decisions(both.here(), difference.onlyHere(), how.knownThere())),
              new Meeting.Side(both.there(), decisions(both.there(), ids(difference.coming()), 0)));
      List<String> faults = new ArrayList<>();
      List<Apart> settings = new ArrayList<>();
      List<Apart> apart = new ArrayList<>();
      if (meeting.areApart()) {
        settings.addAll(both.here().journal().settingsApart(meeting));
        how.joinings().forEach(joining -> apart.addAll(joining.apart(meeting)));
        both.pairs().ifPresent(pairs -> apart.addAll(pairs.apart()));
      }
      int originals = takeOriginals(progress, faults);
      Archive joined = how.dryRun() ? both.here() : here;
      int follows =
          difference.coming().isEmpty()
              ? 0
              : joined
                  .ledger()
                  .write(
                      handle ->
                          join(
                              handle,
                              joined,
                              difference,
                              meeting,
                              both.becomesOne(),
                              settings,
                              apart));
      if (!how.dryRun()) {
        here.withdrawals().putAway();
      }
      return new Result(
          difference.coming().stream().map(row -> DecisionId.of(row.id())).toList(),
          follows,
          originals,
          apart,
          faults,
          both.pairs());
    }
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

  private static Set<String> ids(List<DecisionOrder.Row> rows) {
    Set<String> ids = new HashSet<>();
    rows.forEach(row -> ids.add(row.id()));
    return ids;
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

  /**
   * @param joined where it is done
   * @param becomesOne where the two were begun apart
   * @param settings that both made; where what follows takes one of the two back, nothing is asked
   * @param apart what else is asked, to which those settings come
   */
  private int join(
      Handle handle,
      Archive joined,
      Difference difference,
      Meeting meeting,
      Optional<NewDecision> becomesOne,
      List<Apart> settings,
      List<Apart> apart) {
    Journal journal = joined.journal();
    if (!how.dryRun()
        && Chain.head(handle).map(Chain.Head::counter).orElse(0L) != difference.counter()) {
      throw new ArchiveException(
          "Somebody decided something here meanwhile. Nothing was merged; run it again.");
    }
    Acquaintance.append(handle, difference.coming());
    becomesOne.ifPresent(one -> journal.follow(one, meeting.at()));
    journal.rebuild();
    if (!meeting.areApart()) {
      return 0;
    }
    int follows = 0;
    for (Joining joining : how.joinings()) {
      for (NewDecision decision : joining.follows(joined, meeting)) {
        follows += journal.follow(decision, meeting.at()) ? 1 : 0;
      }
    }
    settings.stream()
        .filter(pair -> journal.stands(pair.one()) && journal.stands(pair.other()))
        .forEach(apart::add);
    if (!apart.isEmpty()) {
      List<Apart> sorted =
          apart.stream()
              .sorted(
                  Comparator.comparing(Apart::what)
                      .thenComparing(one -> one.subject().toString())
                      .thenComparing(one -> one.one().toString()))
              .toList();
      NewDecision asked =
          NewDecision.of(Decision.PROGRAM, Apart.JOINED, 1, joined.id(), new Apart.Asked(sorted));
      follows += journal.follow(asked, meeting.at()) ? 1 : 0;
    }
    return follows;
  }

  private int takeOriginals(Consumer<Path> progress, List<String> faults) {
    List<Path> coming = coming();
    return how.dryRun() ? coming.size() : copyOriginals(coming, progress, faults);
  }

  /** Originals that aren't here; those sealed there are put away again once the merge is done. */
  private List<Path> coming() {
    List<Path> all = new ArrayList<>(there.originals().all());
    there.withdrawals().sealed().keySet().stream().filter(Files::exists).forEach(all::add);
    Set<Path> sealed = here.withdrawals().sealed().keySet();
    Set<String> put = new HashSet<>();
    sealed.stream().filter(Files::exists).forEach(path -> put.add("" + path.getFileName()));
    all.removeIf(
        file ->
            put.contains("" + file.getFileName())
                || Originals.digestInName(file)
                    .filter(digest -> !here.originals().isThere(digest))
                    .isEmpty());
    return all;
  }

  private int copyOriginals(List<Path> coming, Consumer<Path> progress, List<String> faults) {
    int copied = 0;
    try (Incoming incoming = here.originals().receive()) {
      for (Path file : coming) {
        Sha256 digest = Originals.digestInName(file).orElseThrow();
        try (FileChannel in = FileChannel.open(file, StandardOpenOption.READ)) {
          Incoming.Copy copy = incoming.copy(in);
          if (copy.digest().equals(digest)) {
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
