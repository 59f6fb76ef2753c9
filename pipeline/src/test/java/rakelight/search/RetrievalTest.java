package rakelight.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.index.Hit;
import rakelight.index.IndexWriting;
import rakelight.index.QueryException;
import rakelight.index.SearchIndex;
import rakelight.samples.burials.Asking;
import rakelight.samples.burials.InventedBurials;

/** The retrieval benchmark in small: invented burials by rules that the search doesn't know. */
class RetrievalTest {
  private static final int BURIALS = 1000;
  private static final int ASKINGS = 60;

  @TempDir Path folder;

  @Test
  void aPersonIsFoundThoughAFifthOfTheLettersIsLostOrMisread() throws Exception {
    InventedBurials burials = new InventedBurials(7, 20);
    try (IndexWriting writing = IndexWriting.open(folder, true).orElseThrow()) {
      for (int i = 0; i < BURIALS; i++) {
        writing.put(GeneratedGround.entry(burials, i));
      }
      writing.commit(1);
    }
    try (SearchIndex index = SearchIndex.open(folder)) {
      assertThat(found(index, burials, false)).isGreaterThanOrEqualTo(ASKINGS * 85 / 100);
      assertThat(found(index, burials, true)).isGreaterThanOrEqualTo(ASKINGS * 75 / 100);
      likelyOnesAreMostlyRight(index, burials);
    }
  }

  private static int found(SearchIndex index, InventedBurials burials, boolean slip)
      throws QueryException {
    int found = 0;
    for (int i = 0; i < ASKINGS; i++) {
      Asking asking = burials.asking(i, BURIALS, slip);
      found +=
          index.search(GeneratedGround.query(asking), 10).hits().stream()
                  .anyMatch(hit -> isWanted(hit, asking))
              ? 1
              : 0;
    }
    return found;
  }

  private static void likelyOnesAreMostlyRight(SearchIndex index, InventedBurials burials)
      throws QueryException {
    double given = 0;
    int right = 0;
    int all = 0;
    for (int i = 0; i < ASKINGS; i++) {
      Asking asking = burials.asking(i, BURIALS, false);
      for (Hit hit : index.search(GeneratedGround.query(asking), 10).hits()) {
        if (hit.probability() >= .8) {
          given += hit.probability();
          right += isWanted(hit, asking) ? 1 : 0;
          all++;
        }
      }
    }
    assertThat(all).isPositive();
    assertThat((double) right / all).isGreaterThan(given / all - .15);
  }

  private static boolean isWanted(Hit hit, Asking asking) {
    return hit.entry().marker().equals(Integer.toString(asking.wanted()));
  }
}
