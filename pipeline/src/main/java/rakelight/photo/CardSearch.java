package rakelight.photo;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;
import java.util.function.Predicate;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;

/**
 * Looks for field cards in photographs that are on no face yet. What was found, or that nothing
 * was, is kept as a derivation, so that no picture is looked through twice.
 */
public final class CardSearch {
  private static final int WORKERS = 2;

  private final Archive archive;
  private final PhotoStore store;
  private final String reader;
  private final CardLook look;
  private final Predicate<Photograph> shown;

  /**
   * @param shown whether the picture of a photograph can be shown here
   */
  public CardSearch(
      Archive archive, SmallPictures pictures, Predicate<Photograph> shown, String reader) {
    this.archive = archive;
    this.store = new PhotoStore(archive);
    this.look = new CardLook(pictures);
    this.shown = shown;
    this.reader = reader;
  }

  /** The photographs that a search would look at. */
  public List<Photograph> candidates() {
    return store.photographs().stream().filter(Photograph::isWaiting).filter(shown).toList();
  }

  /**
   * Looks, and notes the cards found.
   *
   * @param progress is told of each photograph as it is done
   * @return how many cards were found
   */
  public int run(List<Photograph> candidates, Consumer<Photograph> progress) {
    ExecutorService pool = Executors.newFixedThreadPool(WORKERS);
    int cards = 0;
    try {
      List<Future<CardLook.Outcome>> outcomes = new ArrayList<>();
      for (Photograph photograph : candidates) {
        outcomes.add(pool.submit(() -> outcome(photograph)));
      }
      for (int i = 0; i < candidates.size(); i++) {
        Photograph photograph = candidates.get(i);
        Optional<CardLabel> card = outcomes.get(i).get().card();
        if (card.isPresent()) {
          store.showsCard(photograph.id(), card.get(), reader);
          cards++;
        }
        progress.accept(photograph);
      }
    } catch (ExecutionException e) {
      throw new ArchiveException("The search for field cards failed: " + e.getCause(), e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new ArchiveException("Interrupted. Run the command again; it goes on.", e);
    } finally {
      pool.shutdownNow();
    }
    return cards;
  }

  private CardLook.Outcome outcome(Photograph photograph) throws IOException {
    CardLook.Input input = new CardLook.Input(photograph.sha256(), photograph.preview());
    try {
      DerivationKey key = archive.derived().make(look, input);
      return archive.derived().result(CardLook.KIND, key).orElseThrow();
    } catch (BadInputException e) {
      // An original that is missing shows no card; `check` names it.
      return new CardLook.Outcome(Optional.empty());
    }
  }
}
