package rakelight.cli;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import rakelight.archive.Archive;
import rakelight.desk.SitePages;
import rakelight.publish.Edition;
import rakelight.publish.LetterPlaces;
import rakelight.publish.site.SiteExport;
import rakelight.publish.site.SiteWish;

/**
 * How long the site of an invented ground takes to make and how much memory, how many bytes a
 * search loads with the page, its style and script, and how often it finds first what the program
 * finds. {@code -Dsite.markers=10000 -Dsite.seed=7 -Dsite.folder=FOLDER}; not run with the tests.
 */
class SiteBenchmark {
  private static final int QUERIES = 100;

  @Test
  void theSiteOfALargeGround() throws Exception {
    int markers = Integer.getInteger("site.markers", 1000);
    long seed = Long.getLong("site.seed", 7);
    Path folder =
        Optional.ofNullable(System.getProperty("site.folder"))
            .map(Path::of)
            .orElse(Files.createTempDirectory("site-benchmark"));
    Path archive = folder.resolve("archive");
    Path site = folder.resolve("site");
    if (!Files.exists(archive)) {
      LargeGround.make(archive, markers, seed);
    }
    Map<String, List<String>> expected;
    LocalDate day = LocalDate.of(2026, 12, 1);
    try (Archive open = Archive.open(archive, Projections.all())) {
      peak(true);
      long begin = System.nanoTime();
      Edition edition = Edition.of(open, day);
      SiteExport.Written written =
          new SiteExport(
                  edition,
                  new SiteWish(day, Optional.empty(), Optional.empty(), Optional.empty()),
                  new SitePages(),
                  LetterPlaces.UNKNOWN)
              .write(site);
      System.out.printf(
          Locale.ROOT,
          "%d markers, %d persons, %d files, %.1f MB in %.0f s, heap at most %.0f MB%n",
          written.markers(),
          written.persons(),
          written.files(),
          written.sizeBytes() / 1e6,
          (System.nanoTime() - begin) / 1e9,
          peak(false) / 1e6);
      expected = SiteQueries.expected(edition, folder.resolve("index"), QUERIES, seed + 1);
    }
    long[] bytes = new long[expected.size()];
    double[] millis = new double[expected.size()];
    int same = 0;
    int first = 0;
    int i = 0;
    try (Browser browser = Browser.open();
        BrowserContext context = browser.context(1366, 900, ColorScheme.LIGHT)) {
      for (Map.Entry<String, List<String>> query : expected.entrySet()) {
        try (Page page = context.newPage()) {
          int at = i++;
          page.onRequest(request -> bytes[at] += size(request.url()));
          page.navigate(site.resolve("search.html").toUri().toString());
          long begin = System.nanoTime();
          Object found = page.evaluate(SiteQueries.FIRST_FIVE, query.getKey());
          millis[at] = (System.nanoTime() - begin) / 1e6;
          List<?> numbers = (List<?>) found;
          boolean alike = query.getValue().equals(numbers);
          same += alike ? 1 : 0;
          first +=
              query.getValue().stream().limit(1).toList().equals(numbers.stream().limit(1).toList())
                  ? 1
                  : 0;
          if (!alike) {
            System.out.println(query + " here " + numbers);
          }
        }
      }
    }
    Arrays.sort(bytes);
    Arrays.sort(millis);
    System.out.printf(
        Locale.ROOT,
        "same first five %d, same first %d of %d; kB a search: median %d, ninth in ten %d, most %d;"
            + " ms: median %.0f, most %.0f%n",
        same,
        first,
        expected.size(),
        bytes[bytes.length / 2] / 1000,
        bytes[bytes.length * 9 / 10] / 1000,
        bytes[bytes.length - 1] / 1000,
        millis[millis.length / 2],
        millis[millis.length - 1]);
  }

  private static long size(String url) {
    try {
      return Files.size(Path.of(URI.create(url.replaceFirst("[#?].*", ""))));
    } catch (java.io.IOException e) {
      return 0;
    }
  }

  /** The most that the heap held since it was asked to begin. */
  private static long peak(boolean begin) {
    long sum = 0;
    for (MemoryPoolMXBean pool : ManagementFactory.getMemoryPoolMXBeans()) {
      if (pool.getType() == MemoryType.HEAP) {
        if (begin) {
          pool.resetPeakUsage();
        }
        sum += pool.getPeakUsage().getUsed();
      }
    }
    return sum;
  }
}
