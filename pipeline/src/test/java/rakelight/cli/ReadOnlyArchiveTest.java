package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.net.CookieManager;
import java.net.InetAddress;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Restore;
import rakelight.desk.Desk;
import rakelight.marker.MarkerStore;

/**
 * An archive in a folder without permission to write, as on a disc. What it allows is asked of a
 * process of its own, which as root gives up the right to write everywhere; where it can't, the
 * test says so and is left out.
 */
@Tag("long")
class ReadOnlyArchiveTest {
  private static final String NEXT = "=== ";

  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void anArchiveThatNobodyMayWrite() throws Exception {
    assumeThat(Files.getFileStore(folder).supportsFileAttributeView("posix"))
        .as("permissions are asked of POSIX systems only")
        .isTrue();
    archive = folder.resolve("archive");
    assertThat(
            Ran.command(
                    "init",
                    archive,
                    "--ground",
                    "Thornbeck",
                    "--datum",
                    "54.1,-3.2",
                    "--zone",
                    "UTC")
                .code())
        .isZero();
    Path season = folder.resolve("season");
    Files.createDirectories(season.resolve("12"));
    ImageIO.write(
        new BufferedImage(60, 40, BufferedImage.TYPE_INT_RGB),
        "png",
        season.resolve("12/a.png").toFile());
    Ran.command("ingest", archive, season, "--reader", "Ada");
    Path readings = folder.resolve("readings.tsv");
    Files.writeString(readings, "marker\tline\ttext\n12\t1\tELI HOLT died 1820\n");
    Ran.command("confirm", archive, "--from", readings, "--reader", "Ada");
    permit("r");
  }

  @AfterEach
  void letTheFolderGo() throws IOException {
    permit("rw");
  }

  private void permit(String what) throws IOException {
    boolean write = what.contains("w");
    try (Stream<Path> all = Files.walk(archive)) {
      for (Path path : all.toList()) {
        assertThat(path.toFile().setWritable(write)).isTrue();
      }
    }
  }

  /** Runs this class's {@link #main} without the right to write everywhere. */
  private List<String> withoutRights() throws Exception {
    List<String> command = new ArrayList<>();
    if ("root".equals(System.getProperty("user.name"))) {
      Path setpriv = Path.of("/usr/bin/setpriv");
      assumeThat(Files.isExecutable(setpriv))
          .as("root may write everywhere, and setpriv isn't here to take that away")
          .isTrue();
      command.addAll(List.of(setpriv.toString(), "--bounding-set=-all", "--inh-caps=-all"));
    }
    command.addAll(
        List.of(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            System.getProperty("java.class.path"),
            ReadOnlyArchiveTest.class.getName(),
            archive.toString(),
            folder.toString()));
    Path out = folder.resolve("out.txt");
    Process process =
        new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(out.toFile()).start();
    assertThat(process.waitFor(2, TimeUnit.MINUTES)).isTrue();
    return List.of(Files.readString(out).split("(?m)^" + NEXT));
  }

  @Test
  void itIsCheckedListedSearchedCopiedExportedAndLookedAtButNotChanged() throws Exception {
    List<String> said = withoutRights();
    assertThat(said.get(1)).startsWith("check 0").contains("1 original");
    assertThat(said.get(2)).startsWith("photographs 0").contains("a.png");
    assertThat(said.get(3)).startsWith("proposals 0");
    assertThat(said.get(4)).startsWith("search 0").contains("ELI HOLT");
    assertThat(said.get(5)).startsWith("export 0").contains("12");
    assertThat(said.get(6)).startsWith("backup 0");
    assertThat(said.get(7)).startsWith("condition 1").contains("the archive is only looked at");
    assertThat(said.get(8)).startsWith("ingest 1").contains("the archive is only looked at");
    assertThat(said.get(9)).startsWith("propose 1").contains("the archive is only looked at");
    String desk = said.get(10);
    assertThat(desk)
        .startsWith("desk 200")
        .contains("This archive can only be looked at")
        .contains("Eli Holt")
        .doesNotContain("/condition\"")
        .doesNotContain("/number\"")
        .doesNotContain("/question\"");
    assertThat(said.get(11)).startsWith("picture 200");
    assertThat(said.get(12).strip()).isEqualTo("refused 403");
    Restore.copy(folder.resolve("copy"), folder.resolve("again"), Optional.empty(), file -> {});
    try (Archive copy = Archive.open(folder.resolve("again"), Projections.all())) {
      assertThat(copy.isOnlyLookedAt()).isFalse();
      assertThat(new MarkerStore(copy).byNumber("12")).isPresent();
    }
  }

  /** What the process without rights does. */
  public static void main(String[] args) throws Exception {
    Path archive = Path.of(args[0]);
    Path folder = Path.of(args[1]);
    tell("check", archive);
    tell("photographs", archive);
    tell("proposals", archive);
    tell("search", archive, "holt");
    tell("export", archive, "--to", folder.resolve("xml"), "--as-of", "2026-11-25");
    tell("backup", archive, folder.resolve("copy"));
    tell("condition", archive, "12", "leaning", "--on", "2026-05-04", "--reader", "Ada");
    tell("ingest", archive, folder.resolve("season"), "--reader", "Ada");
    tell("propose", archive);
    try (Archive open = Archive.open(archive, Projections.all());
        Desk desk = Desk.start(open, InetAddress.getLoopbackAddress(), 0, Clock.systemUTC())) {
      look(open, "http://127.0.0.1:" + desk.port());
    }
    System.exit(0);
  }

  private static void tell(Object... words) {
    Ran ran = Ran.command(words);
    System.out.println(NEXT + words[0] + " " + ran.code() + "\n" + ran.out() + ran.err());
  }

  private static void look(Archive archive, String address) throws Exception {
    HttpClient client =
        HttpClient.newBuilder()
            .cookieHandler(new CookieManager())
            .followRedirects(HttpClient.Redirect.NORMAL)
            .build();
    String signIn = get(client, address + "/sign-in").body();
    post(client, address + "/sign-in", "name=Ada&token=" + token(signIn));
    String marker = new MarkerStore(archive).byNumber("12").orElseThrow().id().toString();
    HttpResponse<String> page = get(client, address + "/markers/" + marker);
    System.out.println(NEXT + "desk " + page.statusCode() + "\n" + page.body());
    Matcher picture = Pattern.compile("/images/photographs/[^\"?]+").matcher(page.body());
    String shown = picture.find() ? address + picture.group() : address;
    System.out.println(NEXT + "picture " + get(client, shown).statusCode());
    int refused =
        post(client, address + "/markers/" + marker + "/number", "number=13&token=" + token(signIn))
            .statusCode();
    System.out.println(NEXT + "refused " + refused);
  }

  private static String token(String page) {
    Matcher token = Pattern.compile("name=\"csrf\" content=\"([^\"]*)\"").matcher(page);
    return token.find() ? URLEncoder.encode(token.group(1), StandardCharsets.UTF_8) : "";
  }

  private static HttpResponse<String> get(HttpClient client, String address) throws Exception {
    return client.send(
        HttpRequest.newBuilder(URI.create(address)).build(),
        HttpResponse.BodyHandlers.ofString(StandardCharsets.ISO_8859_1));
  }

  private static HttpResponse<String> post(HttpClient client, String address, String form)
      throws Exception {
    return client.send(
        HttpRequest.newBuilder(URI.create(address))
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(HttpRequest.BodyPublishers.ofString(form))
            .build(),
        HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
  }
}
