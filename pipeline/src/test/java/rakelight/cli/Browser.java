package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.args.AxeRunOptions;
import com.deque.html.axecore.playwright.AxeBuilder;
import com.deque.html.axecore.results.Rule;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.ColorScheme;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Assumptions;

/**
 * The system's Chromium, without a window. Where there is none the tests of the pages are left out
 * with a notice, but never on a build machine (CI in the environment), where they fail.
 */
final class Browser implements AutoCloseable {
  private static final List<String> NAMES =
      List.of("chromium", "chromium-browser", "google-chrome");

  private static final List<String> ALL =
      List.of(
          "wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice", "experimental");

  /** Narrower windows show the same page in another layout, and in the colours of the night. */
  private static final int TELEPHONE_PX = 700;

  /** For a page on a machine that tests use fully. */
  private static final double LONGEST_MS = 90_000;

  private static final List<String> WHAT_LAYOUT_CHANGES =
      List.of("color-contrast", "link-in-text-block", "scrollable-region-focusable", "target-size");

  private final Playwright playwright;
  private final com.microsoft.playwright.Browser browser;

  private Browser(Path executable) {
    playwright =
        Playwright.create(
            new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
    browser =
        playwright
            .chromium()
            .launch(
                new BrowserType.LaunchOptions()
                    .setExecutablePath(executable)
                    .setArgs(List.of("--no-sandbox")));
  }

  static Browser open() {
    Optional<Path> executable =
        NAMES.stream()
            .flatMap(
                name ->
                    java.util.stream.Stream.of("/usr/bin/", "/usr/local/bin/", "/snap/bin/")
                        .map(at -> Path.of(at + name)))
            .filter(Files::isExecutable)
            .findFirst();
    String notice =
        "No Chromium in the usual places, so the pages aren't tested. Install chromium.";
    if (executable.isEmpty() && System.getenv("CI") != null) {
      throw new AssertionError(notice);
    }
    if (executable.isEmpty()) {
      System.out.println(notice);
    }
    Assumptions.assumeTrue(executable.isPresent(), notice);
    return new Browser(executable.orElseThrow());
  }

  /** A browser of its own, so to say: cookies aren't shared. */
  BrowserContext context(int widthPx, int heightPx, ColorScheme scheme) {
    BrowserContext context =
        browser.newContext(
            new com.microsoft.playwright.Browser.NewContextOptions()
                .setViewportSize(widthPx, heightPx)
                .setColorScheme(scheme));
    context.setDefaultTimeout(LONGEST_MS);
    return context;
  }

  BrowserContext withoutScript() {
    return browser.newContext(
        new com.microsoft.playwright.Browser.NewContextOptions().setJavaScriptEnabled(false));
  }

  /** A page in a browser of its own, as wide as a laptop's. */
  Page page() {
    return context(1280, 860, ColorScheme.LIGHT).newPage();
  }

  /**
   * What axe finds by WCAG 2.2 AA, and whether the page is wider than its window, fails a test; in
   * a telephone's window only what layout and colours may break.
   */
  static void isAccessible(Page page, String name) {
    AxeRunOptions onlyBroken = new AxeRunOptions();
    onlyBroken.setResultTypes(List.of("violations"));
    // Within the page: there are no frames, for which axe would open another page each time.
    AxeBuilder axe = new AxeBuilder(page).setLegacyMode(true).options(onlyBroken);
    List<Rule> violations =
        (page.viewportSize().width < TELEPHONE_PX
                ? axe.withRules(WHAT_LAYOUT_CHANGES)
                : axe.withTags(ALL))
            .analyze()
            .getViolations();
    assertThat(violations)
        .as(
            () ->
                name
                    + ": "
                    + violations.stream()
                        .map(
                            rule ->
                                rule.getId()
                                    + " "
                                    + rule.getNodes().get(0).getHtml()
                                    + " "
                                    + rule.getNodes().get(0).getFailureSummary())
                        .toList())
        .isEmpty();
    // WCAG 2.2, 1.4.10 Reflow: no scrolling sideways at 320 CSS pixels; here at 360.
    Object overflow =
        page.evaluate(
            "document.documentElement.scrollWidth - document.documentElement.clientWidth");
    assertThat(((Number) overflow).intValue()).as(name + " is wider than the window").isZero();
  }

  @Override
  public void close() {
    browser.close();
    playwright.close();
  }
}
