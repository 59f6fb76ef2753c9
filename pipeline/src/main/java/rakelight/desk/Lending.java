package rakelight.desk;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import rakelight.archive.ApartStore;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.LentPart;
import rakelight.archive.MarkerId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.work.LendingStore;
import rakelight.work.NamedReader;
import rakelight.work.Queue;

/** The page of lending, taking back and bringing in, and what its forms ask. */
final class Lending {
  private static final int MOST_OFFERED = 30;

  private final Archive archive;
  private final Queue queue;

  Lending(Archive archive, Queue queue) {
    this.archive = archive;
    this.queue = queue;
  }

  /**
   * The page.
   *
   * @param given what stood in the form {@code of}
   */
  LendingPage page(
      NamedReader by, Map<String, String> given, String of, String entrance, String message) {
    MarkerStore markers = new MarkerStore(archive);
    List<LendingPage.Lent> lent = new ArrayList<>();
    Set<MarkerId> out = new LinkedHashSet<>();
    for (LendingStore.Lending one : new LendingStore(archive).lendings()) {
      if (one.returned().isEmpty()) {
        out.addAll(one.markers());
      }
      lent.add(
          0,
          new LendingPage.Lent(
              one.borrower(),
              String.join(", ", one.markers().stream().map(markers::numberOf).toList()),
              day(one.at()),
              one.returned().map(this::day).orElse("")));
    }
    Map<String, String> why = new LinkedHashMap<>();
    for (Queue.Item item : queue.waiting(by.name(), Set.of(), Queue.Order.HARDEST)) {
      if (!out.contains(item.marker().id())) {
        why.merge(
            item.marker().number(),
            item.face().name() + ": " + queue.left(item, by),
            (one, other) -> one + "; " + other);
      }
    }
    List<LendingPage.Offer> offers =
        why.entrySet().stream()
            .limit(MOST_OFFERED)
            .map(
                one ->
                    new LendingPage.Offer(
                        one.getKey(),
                        one.getValue(),
                        given.containsKey(LendingPage.BOX + one.getKey())))
            .toList();
    return new LendingPage(
        LentPart.of(archive).isPresent(),
        lent,
        offers,
        why.size() - offers.size(),
        new ApartStore(archive).waiting().size(),
        given,
        of,
        entrance,
        message);
  }

  private String day(Instant at) {
    return at.atZone(archive.ground().zone()).toLocalDate().toString();
  }

  /**
   * The numbers of the markers that a form names, by a box or written, each once.
   *
   * @throws ArchiveException if it names none, or one that isn't there
   */
  List<String> chosen(Map<String, String> form) {
    List<String> asked = new ArrayList<>();
    form.keySet().stream()
        .filter(field -> field.startsWith(LendingPage.BOX))
        .map(field -> field.substring(LendingPage.BOX.length()))
        .sorted()
        .forEach(asked::add);
    for (String written : Requests.words(form, "markers").split("[,;\n]", -1)) {
      Optional.of(written.strip()).filter(one -> !one.isEmpty()).ifPresent(asked::add);
    }
    if (asked.isEmpty()) {
      throw new ArchiveException("Choose the markers to lend.");
    }
    MarkerStore markers = new MarkerStore(archive);
    return asked.stream().map(markers::named).map(Marker::number).distinct().toList();
  }
}
