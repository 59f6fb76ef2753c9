package rakelight.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.photo.CardSearch;
import rakelight.photo.Credits;
import rakelight.photo.Grouping;
import rakelight.photo.Ingest;
import rakelight.photo.IngestReport;
import rakelight.photo.Manifest;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;

@Command(name = "ingest", description = "Takes folders of photographs into the archive.")
final class IngestCommand extends ArchiveCommand {
  @Parameters(
      index = "1..*",
      arity = "1..*",
      paramLabel = "FOLDER",
      description = "Folders of photographs, with all folders in them.")
  private List<Path> folders;

  @Option(
      names = "--manifest",
      paramLabel = "FILE.csv",
      description = "Which file shows which face of which marker; see docs/photographs.md.")
  private Optional<Path> manifest;

  @Option(names = "--photographer", description = "Who took the photographs.")
  private Optional<String> photographer;

  @Option(names = "--credit", description = "The credit line to print with them.")
  private Optional<String> credit;

  @Option(names = "--rights", description = "What may be done with them, such as CC BY 4.0.")
  private Optional<String> rights;

  @Option(
      names = "--reader",
      defaultValue = Decision.PROGRAM,
      description = "Under whose name the journal notes it (default: ${DEFAULT-VALUE}).")
  private String reader;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    PrintWriter err = err();
    Optional<Manifest> table = manifest.map(Manifest::read);
    table.ifPresent(read -> sayUnknownColumns(read, err));
    Progress progress = Progress.on(err, "files");
    Ingest ingest =
        new Ingest(
            archive,
            new Credits(photographer, credit, rights),
            reader,
            Picture::isRead,
            new Ingesting(err, progress));
    IngestReport report =
        ingest.run(folders, table.map(read -> Set.of(read.file())).orElse(Set.of()));
    progress.clear();
    out.println(summary(report));
    Grouping grouping = new Grouping(archive, reader, err::println);
    int faults = 0;
    if (table.isPresent()) {
      Grouping.Result result = grouping.byManifest(table.get());
      out.println(result.assigned() + " put on faces by the manifest.");
      if (result.elsewhere() > 0) {
        out.println(
            Counted.of(result.elsewhere(), "row")
                + " of the manifest would put photographs elsewhere than they are. `assign --from "
                + table.get().file()
                + " --dry-run` shows what would move.");
      }
      faults = result.faults() + result.elsewhere();
    }
    findCards(archive, out, err);
    say(out, grouping.byCards(), "by field cards.");
    say(out, grouping.byFolders(folders), "by the names of their folders.");
    sayUnassigned(archive, out);
    return report.refused() + faults == 0 ? 0 : 1;
  }

  private void findCards(Archive archive, PrintWriter out, PrintWriter err) {
    CardSearch search =
        new CardSearch(archive, Picture::reduced, shot -> shot.isShown(Picture::isRead), reader);
    List<Photograph> candidates = search.candidates();
    Progress progress = Progress.on(err, "photographs searched for field cards");
    progress.start(candidates.size(), 0);
    int cards = search.run(candidates, photograph -> progress.step(0));
    progress.clear();
    if (cards > 0) {
      out.println(Counted.of(cards, "field card") + " found.");
    }
  }

  private static void sayUnknownColumns(Manifest manifest, PrintWriter err) {
    manifest
        .unknownColumns()
        .forEach(
            name ->
                err.println(
                    manifest.file() + ":1: the column \"" + name + "\" means nothing here."));
  }

  private static void say(PrintWriter out, Grouping.Result result, String how) {
    if (result.assigned() > 0) {
      out.println(result.assigned() + " put on faces " + how);
    }
  }

  private static void sayUnassigned(Archive archive, PrintWriter out) {
    long open =
        new PhotoStore(archive).photographs().stream().filter(Photograph::isWaiting).count();
    if (open > 0) {
      String are = open == 1 ? "is" : "are";
      out.println(
          "%s %s on no face yet: `groups` proposes, `assign` decides."
              .formatted(Counted.of(open, "photograph"), are));
    }
  }

  private static String summary(IngestReport report) {
    return Counted.of(report.taken(), "photograph")
        + " taken"
        + part(report.withoutPicture(), " of them without a picture to read")
        + part(report.alreadyThere(), " there already")
        + part(report.duplicates(), report.duplicates() == 1 ? " duplicate" : " duplicates")
        + part(report.mended(), report.mended() == 1 ? " original mended" : " originals mended")
        + part(report.withdrawn(), " withdrawn before and not taken")
        + part(report.refused(), " refused")
        + part(
            report.passedOver(),
            report.passedOver() == 1 ? " other file passed over" : " other files passed over")
        + ".";
  }

  private static String part(int count, String what) {
    return count == 0 ? "" : ", " + count + what;
  }
}
