package rakelight.survey;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.NamedFiles;
import rakelight.archive.PhotographId;
import rakelight.archive.ProposalId;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.reading.FaceView;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.relief.Features;
import rakelight.relief.FindFeatures;
import rakelight.relief.SameStone;

/**
 * Which photographs look like one stone. What makes a picture unlike others is looked for once and
 * kept among what is derived; where a machine has found the stone's outline, only within it. Of
 * thousands of photographs the most like are found by an index, those are then compared place by
 * place.
 *
 * <p>Keeps what it has seen in memory; for use by several threads.
 */
public final class StoneLikeness {
  /** The photographs compared place by place. */
  private static final int COMPARED = 20;

  /** The outline is that of the inscribed face; rims and shoulders are as good as letters. */
  private static final double ROUND_THE_OUTLINE = 1.1;

  private final Archive archive;
  private final PhotoStore photos;
  private final ProposalStore proposals;
  private final FindFeatures finder = new FindFeatures();

  private final FeatureIndex index = new FeatureIndex();
  private final List<PhotographId> numbered = new ArrayList<>();
  private final Map<PhotographId, Integer> numbers = new HashMap<>();
  private final Map<PhotographId, Seen> seen = new ConcurrentHashMap<>();
  private final Map<ProposalId, Set<String>> letters = new ConcurrentHashMap<>();

  public StoneLikeness(Archive archive) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
    this.proposals = new ProposalStore(archive);
  }

  /**
   * A photograph that looks like another.
   *
   * @param places how many places agree, see {@link SameStone}
   */
  public record Alike(PhotographId photograph, int places) {}

  /**
   * @param among how many photographs were known then
   */
  private record Seen(int among, List<Alike> alike) {}

  /** Told of each photograph that has been looked at. */
  @FunctionalInterface
  public interface Progress {
    void done(int done, int all);
  }

  /**
   * Looks at the photographs it doesn't know yet. Those that can't be shown look like none; {@code
   * check} names them.
   */
  public void look(int workers, Progress progress) {
    List<Photograph> unknown;
    synchronized (index) {
      unknown =
          photos.photographs().stream()
              .filter(shot -> shot.isShown(Picture::isRead))
              .filter(shot -> shot.card().isEmpty() && shot.setAside().isEmpty())
              .filter(shot -> !numbers.containsKey(shot.id()))
              .toList();
    }
    Map<PhotographId, Polygon> outlines = outlines(unknown);
    ExecutorService pool = Executors.newFixedThreadPool(workers);
    try {
      List<Future<Features>> found = new ArrayList<>();
      for (Photograph shot : unknown) {
        Optional<Polygon> outline = Optional.ofNullable(outlines.get(shot.id()));
        found.add(pool.submit(() -> features(shot, outline)));
      }
      for (int i = 0; i < unknown.size(); i++) {
        know(unknown.get(i).id(), found.get(i).get());
        progress.done(i + 1, unknown.size());
      }
    } catch (ExecutionException e) {
      throw new ArchiveException("Photographs can't be compared: " + e.getCause(), e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new ArchiveException("Interrupted. Run it again; it goes on.", e);
    } finally {
      pool.shutdownNow();
    }
  }

  /** The runs of letters that a machine reads on a face by its newest proposal; none if unread. */
  Set<String> letters(FaceId face) {
    return proposals
        .latestId(face)
        .map(
            id ->
                letters.computeIfAbsent(
                    id,
                    unknown -> proposals.latest(face).map(LettersShared::runs).orElse(Set.of())))
        .orElse(Set.of());
  }

  /** Whether a photograph has been looked at. */
  public boolean knows(PhotographId photograph) {
    synchronized (index) {
      return numbers.containsKey(photograph);
    }
  }

  private void know(PhotographId photograph, Features features) {
    synchronized (index) {
      if (numbers.putIfAbsent(photograph, numbered.size()) == null) {
        numbered.add(photograph);
        index.add(features);
      }
    }
  }

  /**
   * The photographs that look like this one, the most alike first; none where it hasn't been looked
   * at.
   */
  public List<Alike> alike(PhotographId photograph) {
    List<Features> compared = new ArrayList<>();
    List<PhotographId> ids = new ArrayList<>();
    Features own;
    int among;
    synchronized (index) {
      among = index.size();
      Integer number = numbers.get(photograph);
      if (number == null) {
        return List.of();
      }
      Optional<Seen> before =
          Optional.ofNullable(seen.get(photograph)).filter(s -> s.among() == index.size());
      if (before.isPresent()) {
        return before.get().alike();
      }
      own = index.picture(number);
      for (int other : index.most(own, COMPARED + 1)) {
        if (other != number) {
          compared.add(index.picture(other));
          ids.add(numbered.get(other));
        }
      }
    }
    List<Alike> alike = new ArrayList<>();
    for (int i = 0; i < compared.size(); i++) {
      int places = SameStone.agreeing(own, compared.get(i));
      if (places > 0) {
        alike.add(new Alike(ids.get(i), places));
      }
    }
    alike.sort(Comparator.comparingInt(Alike::places).reversed());
    seen.put(photograph, new Seen(among, List.copyOf(alike)));
    return List.copyOf(alike);
  }

  /** Whether what looks like a photograph is known without comparing. */
  public boolean hasCompared(PhotographId photograph) {
    synchronized (index) {
      return Optional.ofNullable(seen.get(photograph))
          .filter(before -> before.among() == index.size())
          .isPresent();
    }
  }

  private Features features(Photograph shot, Optional<Polygon> outline) throws IOException {
    Features all;
    try {
      DerivationKey key = archive.derived().make(finder, new FindFeatures.Input(shot.source()));
      NamedFiles kept = archive.derived().result(FindFeatures.KIND, key).orElseThrow();
      all = FindFeatures.read(kept);
    } catch (BadInputException e) {
      return Features.NONE;
    }
    if (outline.isEmpty()) {
      return all;
    }
    double longest = Math.max(shot.uprightWidthPx(), shot.uprightHeightPx());
    Point centre = outline.get().centre();
    Polygon round =
        outline
            .get()
            .map(
                p ->
                    new Point(
                        centre.x() + ROUND_THE_OUTLINE * (p.x() - centre.x()),
                        centre.y() + ROUND_THE_OUTLINE * (p.y() - centre.y())));
    return all.only(
        i -> round.contains(new Point(all.place(i).x() * longest, all.place(i).y() * longest)));
  }

  /** Where the stone is on the photographs that a machine has read. */
  private Map<PhotographId, Polygon> outlines(List<Photograph> shots) {
    Map<PhotographId, Polygon> outlines = new HashMap<>();
    Set<FaceId> faces = new HashSet<>();
    for (Photograph shot : shots) {
      Optional<Proposal> proposal =
          shot.face().isEmpty()
              ? proposals.latest(shot.id())
              : shot.face().filter(faces::add).flatMap(proposals::latest);
      proposal
          .map(Proposal::views)
          .ifPresent(
              views -> {
                for (FaceView view : views) {
                  outlines.put(view.photograph(), view.outline());
                }
              });
    }
    return outlines;
  }
}
