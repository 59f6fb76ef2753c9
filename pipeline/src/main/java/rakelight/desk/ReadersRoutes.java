package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.util.Map;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.inscription.ReadingStore;
import rakelight.measure.ReaderError;
import rakelight.work.NamedReader;
import rakelight.work.ReaderStore;
import rakelight.work.Role;

/** Who may sign in, for the archivist. */
final class ReadersRoutes {
  private final Requests requests;
  private final Pages pages;
  private final ReaderStore readers;
  private final ReadingStore readings;
  private final Digesting digesting;

  ReadersRoutes(Archive archive, Requests requests, Pages pages, Digesting digesting) {
    this.requests = requests;
    this.pages = pages;
    this.readers = new ReaderStore(archive);
    this.readings = new ReadingStore(archive);
    this.digesting = digesting;
  }

  void addTo(Javalin server) {
    server.get("/readers", context -> readersPage(context, ""));
    server.post("/readers", this::changeReaders);
  }

  private void readersPage(Context context, String message) {
    requests.archivist(context);
    pages.show(
        context,
        "readers",
        Map.of(
            "readers",
            new ReadersPage(
                readers.all(), ReaderError.byReader(readings), readings.required(), message)));
  }

  private void changeReaders(Context context) {
    Map<String, String> form = requests.archivistsForm(context);
    NamedReader by = requests.by(context);
    String name = form.getOrDefault("name", "");
    String message;
    try {
      message =
          switch (form.getOrDefault("do", "")) {
            case "admit" -> admit(name, form, by.name());
            case "dismiss" -> {
              readers.dismiss(name, by.name());
              yield name + " can't sign in any more; what they decided stays.";
            }
            case "require" -> {
              readers.require(form.getOrDefault("readings", "1").equals("2") ? 2 : 1, by);
              yield "Kept.";
            }
            default -> throw Refusal.malformed("This form can't be read.");
          };
    } catch (ArchiveException e) {
      message = String.valueOf(e.getMessage());
    }
    if (requests.stands(context)) {
      readersPage(context, message);
    } else {
      context.redirect("/sign-in"); // One's own way in has changed.
    }
  }

  private String admit(String name, Map<String, String> form, String by) {
    Role role =
        Role.of(form.getOrDefault("role", ""))
            .orElseThrow(() -> Refusal.malformed("A role is archivist, reader or guest."));
    if (readers.all().isEmpty() && role != Role.ARCHIVIST) {
      throw new ArchiveException(
          "The first reader must be an archivist, or nobody could add more.");
    }
    return digesting.of(
        () -> {
          readers.admit(name, role, form.getOrDefault("passphrase", "").toCharArray(), by);
          return name.strip() + " can sign in.";
        });
  }
}
