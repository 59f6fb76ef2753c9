package rakelight.cli;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.PhotographId;
import rakelight.photo.Copies;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

@Command(
    name = "copies",
    description = {
      "Ties copies that any program can read to their originals, such as the JPEG made of a HEIC.",
      "Lists what is tied and what may be; --confirm ties what may be, or only the copies named."
    })
final class CopiesCommand extends ArchiveCommand {
  @Parameters(
      index = "1..*",
      paramLabel = "PHOTO",
      description = "With --confirm: copies, by id, digest, path or file name.")
  private List<String> photographs = List.of();

  @Option(names = "--confirm", description = "Ties them; one `undo` takes it back.")
  private boolean confirm;

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name, to confirm.")
  private Optional<String> reader = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    if (confirm != reader.isPresent() || (!confirm && !photographs.isEmpty())) {
      throw wrong("To tie copies give --confirm and your name (--reader)");
    }
    PhotoStore store = new PhotoStore(archive);
    List<Photograph> all = store.photographs();
    List<Copies.Pair> proposed = Copies.proposed(all);
    if (confirm) {
      store.tieCopies(named(store, proposed), reader.orElseThrow());
      proposed = Copies.proposed(store.photographs());
    }
    Map<PhotographId, Photograph> byId = new HashMap<>();
    all.forEach(photograph -> byId.put(photograph.id(), photograph));
    for (Photograph copy : store.photographs()) {
      copy.copyOf()
          .map(byId::get)
          .ifPresent(original -> print(new Copies.Pair(copy, original), true));
    }
    proposed.forEach(pair -> print(pair, false));
    return 0;
  }

  private List<Copies.Pair> named(PhotoStore store, List<Copies.Pair> proposed) {
    if (photographs.isEmpty()) {
      return proposed;
    }
    List<Copies.Pair> chosen = new ArrayList<>();
    for (Photograph copy : Chosen.of(store, photographs)) {
      chosen.add(
          proposed.stream()
              .filter(pair -> pair.copy().id().equals(copy.id()))
              .findFirst()
              .orElseThrow(
                  () ->
                      new ArchiveException(
                          copy.originalName()
                              + ": no original here has its time, camera and shape, or several do."
                              + " `copies` lists what may be tied.")));
    }
    return chosen;
  }

  private void print(Copies.Pair pair, boolean confirmed) {
    if (json) {
      JsonLines.print(
          out(),
          JsonLines.object()
              .put("copy", pair.copy().id().toString())
              .put("original", pair.original().id().toString())
              .put("confirmed", confirmed));
      return;
    }
    out()
        .println(
            pair.copy().originalPath()
                + (confirmed ? "  is a copy of  " : "  may be a copy of  ")
                + pair.original().originalPath());
  }
}
