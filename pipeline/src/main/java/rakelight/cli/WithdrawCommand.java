package rakelight.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.work.NamedReader;
import rakelight.work.ReaderStore;
import rakelight.work.Withdrawing;

@Command(
    name = "withdraw",
    description = {
      "Takes a photograph, the reading of a face or a marker out of the archive: every page, list,",
      "search and export, with what was made of it. `undo` brings it back. To keep something from",
      "publication only, use `withhold`."
    })
final class WithdrawCommand extends ArchiveCommand {
  @ArgGroup(multiplicity = "1")
  private Thing thing;

  private static final class Thing {
    @Option(
        names = "--photograph",
        paramLabel = "PHOTO",
        description = "A photograph, by file name, path, id or digest.")
    private Optional<String> photograph = Optional.empty();

    @Option(
        names = "--reading",
        paramLabel = "MARKER[:FACE]",
        description = "All that people signed or drafted of a face.")
    private Optional<String> reading = Optional.empty();

    @Option(
        names = "--marker",
        paramLabel = "NUMBER",
        description = "A marker with its faces, photographs, readings and notes.")
    private Optional<String> marker = Optional.empty();
  }

  @Option(
      names = "--reason",
      required = true,
      paramLabel = "TEXT",
      description = "The reason in words.")
  private String reason;

  @Option(names = "--asked-by", paramLabel = "NAME", description = "Who asked for it.")
  private Optional<String> askedBy = Optional.empty();

  @ArgGroup(multiplicity = "1")
  private Bytes bytes;

  private static final class Bytes {
    @Option(
        names = "--seal",
        description =
            "Keep the bytes of photographs in originals/sealed, where nothing shows them.")
    private boolean seal;

    @Option(names = "--purge", description = "Delete the bytes of photographs for good.")
    private boolean purge;
  }

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    NamedReader by = new ReaderStore(archive).atTheTerminal(reader);
    Withdrawing withdrawing = new Withdrawing(archive);
    Withdrawing.Terms terms = new Withdrawing.Terms(reason, askedBy, bytes.seal);
    PrintWriter out = out();
    if (thing.photograph.isPresent()) {
      Photograph photograph =
          Chosen.of(new PhotoStore(archive), List.of(thing.photograph.get())).get(0);
      Withdrawing.Done done = withdrawing.photograph(photograph, terms, by);
      tell(out, "photograph " + photograph.originalName(), done);
      out.println(journal(done) + "its name, path, place, time and other tags of the file.");
    } else if (thing.marker.isPresent()) {
      Marker marker = new MarkerStore(archive).named(thing.marker.get());
      Withdrawing.Done done = withdrawing.marker(marker, terms, by);
      tell(out, "marker " + marker.number(), done);
      out.println(
          journal(done)
              + "the letters of its readings and drafts, with all names, notes, links and the tags"
              + " of its photographs.");
    } else {
      if (bytes.purge) {
        throw wrong(
            "A reading has no bytes to delete: its letters stay in the journal, which is never"
                + " changed. Give --seal");
      }
      String named = thing.reading.orElseThrow();
      Withdrawing.Done done = withdrawing.reading(face(archive, named), terms, by);
      tell(out, "reading of " + named, done);
      out.println(journal(done) + "the letters of its readings and drafts, with all names.");
    }
    out.println("Backups, exports and copies made before still have it.");
    return 0;
  }

  private void tell(PrintWriter out, String what, Withdrawing.Done done) {
    out.println("Withdrawn: " + what + "  (" + done.decision() + ")");
    if (done.photographs() > 0) {
      out.println(
          Counted.of(done.photographs(), "original")
              + (bytes.seal ? " sealed" : " deleted")
              + "; what a machine made of "
              + (done.photographs() == 1 ? "it" : "them")
              + " is deleted.");
    }
  }

  /** The journal is never changed; what it goes on saying must be known to who asked. */
  private static String journal(Withdrawing.Done done) {
    return "The journal still says of it, in " + Counted.of(done.journal(), "decision") + ": ";
  }

  private static Face face(Archive archive, String named) {
    int colon = named.lastIndexOf(':');
    String number = colon < 0 ? named : named.substring(0, colon);
    String name = colon < 0 ? Face.FRONT : named.substring(colon + 1);
    Marker marker = new MarkerStore(archive).named(number);
    return new PhotoStore(archive)
        .face(marker.id(), name)
        .orElseThrow(
            () -> new ArchiveException("Marker " + marker.number() + " has no face " + name + "."));
  }
}
