package rakelight.search;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import java.io.InputStream;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rakelight.index.Entry;
import rakelight.index.IndexWriting;
import rakelight.index.SearchIndex;
import rakelight.index.SearchPieces;
import rakelight.publish.site.ShortScript;
import rakelight.publish.site.SiteExport;
import rakelight.samples.burials.Asking;
import rakelight.samples.burials.InventedBurials;

/**
 * How many bytes of index and script a search of a site loads among invented burials, and how often
 * it finds first what the program finds: {@code -Dsite.entries=20000 -Dsite.worn=10
 * -Dsite.seed=90210}; not run with the tests. Each query is asked of a page that has loaded
 * nothing.
 */
class SiteSearchBenchmark {
  private static final int QUERIES = Integer.getInteger("site.queries", 100);
  private static final int FIVE = 5;
  private static final int SIXTY = 60;

  @Test
  void searchesOfInventedBurials() throws Exception {
    int count = Integer.getInteger("site.entries", 1000);
    int worn = Integer.getInteger("site.worn", 10);
    long seed = Long.getLong("site.seed", 90_210);
    InventedBurials burials = new InventedBurials(seed, worn);
    List<Entry> entries = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      entries.add(GeneratedGround.entry(burials, i));
    }
    List<Entry> inOrder = SearchPieces.inOrder(entries);
    Path folder = Files.createTempDirectory("site-search");
    Path pieces = Files.createDirectories(folder.resolve("index"));
    try (IndexWriting writing = IndexWriting.open(folder.resolve("core"), true).orElseThrow()) {
      inOrder.forEach(writing::put);
      writing.commit(1);
    }
    Map<String, Integer> numbers = new HashMap<>();
    inOrder.forEach(entry -> numbers.put(entry.id(), numbers.size()));
    Map<String, List<Integer>> expected = new LinkedHashMap<>();
    long[] all = {0, 0};
    try (SearchIndex index = SearchIndex.open(folder.resolve("core"))) {
      SearchPieces.write(
          index,
          inOrder,
          List.of(),
          (name, text) -> {
            all[0] += text.length();
            all[1]++;
            Files.writeString(pieces.resolve(name + ".js"), "p(\"" + text + "\");\n");
          });
      for (String query : queries(burials, count, seed)) {
        expected.put(
            query,
            index.search(query, SIXTY).hits().stream()
                .map(hit -> numbers.getOrDefault(hit.entry().id(), -1))
                .toList());
      }
    }
    System.out.printf(Locale.ROOT, "%d pieces, %.1f MB%n", all[1], all[0] / 1e6);
    try (InputStream script =
        Objects.requireNonNull(SiteExport.class.getResourceAsStream("search.js"))) {
      Files.writeString(
          folder.resolve("search.js"),
          ShortScript.of(new String(script.readAllBytes(), StandardCharsets.UTF_8)));
    }
    Path html = folder.resolve("search.html");
    Files.writeString(
        html,
        "<!doctype html><meta charset=utf-8><script src=search.js></script>",
        StandardCharsets.UTF_8);
    ask(html, expected);
  }

  private static void ask(Path html, Map<String, List<Integer>> expected) {
    long[] bytes = new long[expected.size()];
    int[] files = new int[expected.size()];
    int[] same = new int[SIXTY + 1];
    int at = 0;
    try (Playwright playwright =
            Playwright.create(
                new Playwright.CreateOptions()
                    .setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
        Browser browser =
            playwright
                .chromium()
                .launch(
                    new BrowserType.LaunchOptions()
                        .setExecutablePath(Path.of("/usr/bin/chromium"))
                        .setArgs(List.of("--no-sandbox")));
        BrowserContext context = browser.newContext()) {
      context.setDefaultTimeout(0);
      for (Map.Entry<String, List<Integer>> query : expected.entrySet()) {
        try (Page page = context.newPage()) {
          int i = at++;
          page.onRequest(
              request -> {
                bytes[i] += size(request.url());
                files[i]++;
              });
          page.navigate(html.toUri().toString());
          Object found =
              page.evaluate(
                  "async (q) => (await searchGround(q, 60)).best.slice(0, 60).map(hit => hit.doc)",
                  query.getKey());
          List<?> docs = (List<?>) found;
          for (int most : new int[] {1, FIVE, SIXTY}) {
            same[most] += head(query.getValue(), most).equals(head(docs, most)) ? 1 : 0;
          }
          if (!head(query.getValue(), FIVE).equals(head(docs, FIVE))) {
            System.out.println(
                query.getKey() + head(query.getValue(), FIVE) + " here " + head(docs, FIVE));
          }
        }
      }
    }
    Arrays.sort(bytes);
    Arrays.sort(files);
    System.out.printf(
        Locale.ROOT,
        "same first %d, same first five %d, same first sixty %d of %d; kB a search with the script:"
            + " median %d, ninth in ten %d, most %d; files: median %d, most %d%n",
        same[1],
        same[FIVE],
        same[SIXTY],
        expected.size(),
        bytes[bytes.length / 2] / 1000,
        bytes[bytes.length * 9 / 10] / 1000,
        bytes[bytes.length - 1] / 1000,
        files[files.length / 2],
        files[files.length - 1]);
  }

  private static List<?> head(List<?> all, int most) {
    return all.subList(0, Math.min(most, all.size()));
  }

  private static long size(String url) {
    try {
      return Files.size(Path.of(URI.create(url)));
    } catch (java.io.IOException e) {
      return 0;
    }
  }

  /** Every second asked for with a slip. */
  private static List<String> queries(InventedBurials burials, int count, long seed) {
    Random random = new Random(seed + 1);
    List<String> queries = new ArrayList<>();
    for (int i = 0; queries.size() < QUERIES; i++) {
      Asking asking = burials.asking(i, count, i % 2 == 1);
      String given = asking.given().toLowerCase(Locale.ROOT);
      String surname = asking.surname().toLowerCase(Locale.ROOT);
      int year = asking.from() + 5;
      int at = random.nextInt(surname.length() - 1);
      queries.add(
          switch (i % 11) {
            case 0, 1 -> given + " " + surname;
            case 2, 3 -> surname;
            case 4 -> given + " " + surname + " " + year;
            case 5 -> given + " " + surname + " year:" + asking.from() + ".." + asking.to();
            case 6 -> surname.substring(0, at + 1) + "?" + surname.substring(at + 2);
            case 7 -> given + " " + surname.substring(0, at) + surname.substring(at + 1);
            case 10 -> "\"" + given + " " + surname + "\"";
            case 8 -> "name:" + surname + " died:" + year;
            default -> surname + " " + year;
          });
    }
    return queries;
  }
}
