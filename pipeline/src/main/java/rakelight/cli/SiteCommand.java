package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.desk.SitePages;
import rakelight.publish.Edition;
import rakelight.publish.site.SiteExport;
import rakelight.publish.site.SiteWish;
import rakelight.work.CutLetters;
import rakelight.work.Faces;
import rakelight.work.Leases;

@Command(
    name = "site",
    description =
        "Writes what may be told on a day as a web site of plain files, for a society's web space"
            + " or a stick. It also opens from disk, and is searched without a server.")
final class SiteCommand extends ArchiveCommand {
  @Option(
      names = "--to",
      required = true,
      paramLabel = "FOLDER",
      description =
          "Where the site goes: a new or an empty folder, or a site made before, which it takes the"
              + " place of once it is whole.")
  private Path folder;

  @Option(
      names = "--as-of",
      required = true,
      paramLabel = "DAY",
      description =
          "The day of publication, such as 2026-11-25: what may not be told then is left out"
              + " (`withheld` lists it).")
  private LocalDate asOf;

  @Option(
      names = "--address",
      paramLabel = "URL",
      description =
          "Where it will lie, such as https://example.org/ground/. Without it there is no"
              + " sitemap.xml and nothing for viewers of pictures (IIIF).")
  private Optional<String> address = Optional.empty();

  @Option(
      names = "--mail",
      paramLabel = "ADDRESS",
      description = "Where corrections go. Without it pages offer a form to print.")
  private Optional<String> mail = Optional.empty();

  @Option(
      names = "--publisher",
      paramLabel = "NAME",
      description = "Who publishes it, such as a society.")
  private Optional<String> publisher = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) throws Exception {
    if (mail.filter(at -> !at.matches("[^\\s@<>\"?&]+@[^\\s@<>\"?&]+")).isPresent()) {
      throw wrong("--mail " + mail.get() + " isn't a mail address such as stones@example.org");
    }
    SiteWish wish = new SiteWish(asOf, address.map(this::root), mail, publisher);
    Edition edition = Edition.of(archive, asOf);
    if (edition.faces().isEmpty()) {
      err()
          .println(
              "Nothing that may be told on "
                  + asOf
                  + " is confirmed here; `read` or `confirm` does that. No site is made.");
      return 1;
    }
    SiteExport.Written written =
        new SiteExport(
                edition,
                wish,
                new SitePages(),
                new CutLetters(archive, new Faces(archive, new Leases(Clock.systemUTC()))))
            .write(folder);
    PrintWriter out = out();
    if (json) {
      ObjectNode object =
          JsonLines.object()
              .put("site", written.folder().toString())
              .put("asOf", asOf.toString())
              .put("markers", written.markers())
              .put("persons", written.persons())
              .put("photographs", written.photographs())
              .put("files", written.files())
              .put("bytes", written.sizeBytes());
      ObjectNode leftOut = object.putObject("leftOut");
      written.leftOut().forEach(leftOut::put);
      JsonLines.print(out, object);
      return 0;
    }
    out.println(written.folder().resolve("index.html"));
    out.println(
        Counted.of(written.markers(), "marker")
            + ", "
            + Counted.of(written.persons(), "person")
            + ", "
            + Counted.of(written.photographs(), "photograph")
            + "; "
            + Counted.of(written.files(), "file")
            + ", "
            + (written.sizeBytes() + 999_999) / 1_000_000
            + " MB");
    written.leftOut().forEach((why, count) -> out.println("Left out, " + why + ": " + count));
    if (address.isEmpty()) {
      out.println(
          "No sitemap.xml and nothing for viewers of pictures (IIIF): --address says where the site"
              + " will lie.");
    }
    return 0;
  }

  private URI root(String written) {
    try {
      URI uri = new URI(written.endsWith("/") ? written : written + "/");
      if (("https".equals(uri.getScheme()) || "http".equals(uri.getScheme()))
          && uri.getHost() != null
          && uri.getQuery() == null
          && uri.getFragment() == null) {
        return uri;
      }
    } catch (URISyntaxException e) {
      // told below
    }
    throw wrong("--address " + written + " isn't an address such as https://example.org/ground/");
  }
}
