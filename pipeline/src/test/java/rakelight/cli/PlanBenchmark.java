package rakelight.cli;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import rakelight.archive.Archive;

/**
 * How soon the plan of a large ground can be used, from asking for the page until the script has
 * drawn it and takes keys: the argument is the archive that {@link FamilyGroundBenchmark} made.
 */
final class PlanBenchmark {
  private static final int TIMES = 10;

  /** The first time all families are put together. */
  private static final int MOST_MILLIS = 300_000;

  private PlanBenchmark() {}

  public static void main(String[] args) throws Exception {
    Path archive = Path.of(args[0]);
    try (VisitedDesk desk = VisitedDesk.of(() -> Archive.open(archive, Projections.all()));
        BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, "Ada Penrose");
      page.setDefaultNavigationTimeout(MOST_MILLIS);
      page.setDefaultTimeout(MOST_MILLIS);
      double[] usable = new double[TIMES];
      double[] moves = new double[TIMES];
      for (int i = 0; i < TIMES; i++) {
        page.navigate(desk.root() + "/plan");
        page.waitForCondition(
            () ->
                (Boolean)
                    page.evaluate("performance.getEntriesByName('plan-usable').length === 1"));
        usable[i] =
            ((Number) page.evaluate("performance.getEntriesByName('plan-usable')[0].startTime"))
                .doubleValue();
        page.focus("#plan");
        moves[i] =
            ((Number)
                    page.evaluate(
                        "async () => { const start = performance.now(); for (let i = 0; i < 20;"
                            + " i++) { document.getElementById('plan').dispatchEvent(new"
                            + " KeyboardEvent('keydown', { key: 'ArrowRight', shiftKey: true }));"
                            + " await new Promise(requestAnimationFrame); await new"
                            + " Promise(requestAnimationFrame); } return (performance.now() -"
                            + " start) / 40; }"))
                .doubleValue();
      }
      System.out.printf(Locale.ROOT, "the first %.0f ms%n", usable[0]);
      Arrays.sort(usable);
      Arrays.sort(moves);
      System.out.printf(
          Locale.ROOT,
          "usable after %.0f ms (least %.0f), a move every %.1f ms%n",
          usable[TIMES / 2],
          usable[0],
          moves[TIMES / 2]);
      VisitedDesk.window(page, "plan-large-1366");
    }
  }
}
