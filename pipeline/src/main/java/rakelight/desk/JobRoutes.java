package rakelight.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import rakelight.archive.ApartStore;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Uuid7;
import rakelight.work.Queue;

/**
 * Work on the whole archive, for an archivist who doesn't type commands: the same commands, with
 * what they say on a page. Only where the program was started from its own {@link Entrance}.
 */
final class JobRoutes {
  private static final String JOBS = "/jobs";
  private static final String DROPPED = "dropped-";

  /** One photograph, of whatever camera. A choice. */
  private static final long MOST_SENT_BYTES = 1L << 30;

  /** Options of the command that a form may tick. */
  private static final List<String> OPEN_FORMATS =
      List.of("tables", "gedcom", "corpus", "sidecars", "photographs");

  /** What is done from the page of lending. */
  private static final List<String> LENDING = List.of("lend", "return", "merge");

  private static final Pattern DROP = Pattern.compile("[0-9a-f-]{36}");

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Application application;
  private final Lending lending;
  private final Clock clock;

  JobRoutes(
      Archive archive,
      Requests requests,
      Pages pages,
      Application application,
      Queue queue,
      Clock clock) {
    this.archive = archive;
    this.lending = new Lending(archive, queue);
    this.requests = requests;
    this.pages = pages;
    this.application = application;
    this.clock = clock;
  }

  void addTo(Javalin server) {
    server.get(JOBS, this::list);
    server.post(JOBS, this::start);
    server.get("/lending", this::lending);
    server.get(JOBS + "/{job}", this::job);
    server.get(JOBS + "/{job}/record", this::record);
    server.post(JOBS + "/{job}/stop", this::stop);
    server.get("/api/jobs/{job}", this::jobForScript);
    server.put("/api/jobs/drop/{drop}/<path>", this::take);
  }

  private void requireStarter(Context context) {
    application.key().require(context);
    requests.archivist(context);
  }

  private void list(Context context) {
    requireStarter(context);
    show(context, "");
  }

  private void show(Context context, String message) {
    List<JobsPage.Row> rows =
        application.jobs().all().stream()
            .map(
                job -> {
                  Job.State state = job.look().state();
                  return new JobsPage.Row(job.id(), job.title(), state.words(), state.isOver());
                })
            .toList();
    String day = LocalDate.now(clock.withZone(archive.ground().zone())).toString();
    pages.show(
        context,
        "jobs",
        Map.of(
            "jobs",
            new JobsPage(
                rows,
                Requests.asked(context, "folder"),
                Requests.asked(context, "for"),
                application.entrance(),
                Uuid7.next().toString(),
                day,
                message)));
  }

  private void lending(Context context) {
    requireStarter(context);
    showLending(
        context,
        Map.of("folder", Requests.asked(context, "folder")),
        Requests.asked(context, "for"),
        "");
  }

  private void showLending(Context context, Map<String, String> given, String of, String message) {
    pages.show(
        context,
        "lending",
        Map.of(
            "lending",
            lending.page(requests.by(context), given, of, application.entrance(), message)));
  }

  private void start(Context context) {
    Map<String, String> form = requests.archivistsForm(context);
    application.key().require(context);
    try {
      Job job = start(form, requests.by(context).name());
      context.redirect(JOBS + "/" + job.id());
    } catch (ArchiveException e) {
      context.status(422);
      String doing = form.getOrDefault("do", "");
      if (LENDING.contains(doing)) {
        showLending(context, form, doing, String.valueOf(e.getMessage()));
      } else {
        show(context, String.valueOf(e.getMessage()));
      }
    }
  }

  private Job start(Map<String, String> form, String by) {
    String root = archive.root().toString();
    return switch (form.getOrDefault("do", "")) {
      case "ingest" -> ingest(form, root, by);
      case "propose" ->
          run(Job.Kind.PROPOSE, "Reading what hasn’t been read", List.of("propose", root));
      case "index" ->
          run(Job.Kind.INDEX, "Making the search anew", List.of("index", root, "--anew"));
      case "check" -> run(Job.Kind.CHECK, "Looking everything over", List.of("check", root));
      case "backup" -> {
        Path to = folder(form, "Say where the backup goes.");
        yield run(Job.Kind.BACKUP, "Backup to " + to, List.of("backup", root, to.toString()));
      }
      case "check-backup" -> {
        Path there = folder(form, "Say which backup to check.");
        yield run(
            Job.Kind.CHECK, "Checking the backup in " + there, List.of("check", there.toString()));
      }
      case "site", "book", "export" -> handOn(form, root);
      case "lend" -> lend(form, root, by);
      case "return" -> {
        Path from = folder(form, "Say which folder came back.");
        yield bring(
            form,
            List.of("return", root, from.toString(), "--reader=" + by),
            from,
            Job.Kind.LOOK_AT_RETURN,
            Job.Kind.RETURN);
      }
      case "merge" -> {
        Path from = folder(form, "Say which folder the copy is in.");
        yield bring(
            form,
            List.of("merge", root, from.toString()),
            from,
            Job.Kind.LOOK_AT_COPY,
            Job.Kind.MERGE);
      }
      default -> throw Refusal.malformed("This form can't be read.");
    };
  }

  private Job lend(Map<String, String> form, String root, String by) {
    String borrower = Requests.words(form, "borrower");
    if (borrower.isEmpty()) {
      throw new ArchiveException("Say who borrows them.");
    }
    List<String> numbers = lending.chosen(form);
    Path in = folder(form, "Say which folder or stick they go to.");
    String day = LocalDate.now(clock.withZone(archive.ground().zone())).toString();
    String name = Folders.named(archive.ground().name() + " lent to " + borrower + " " + day);
    Path to = in.resolve(name);
    for (int i = 2; Files.exists(to); i++) {
      to = in.resolve(name + " " + i);
    }
    return run(
        Job.Kind.LEND,
        "Lending "
            + (numbers.size() == 1 ? "1 marker" : numbers.size() + " markers")
            + " to "
            + borrower,
        List.of(
            "lend",
            root,
            "--markers=" + String.join(",", numbers),
            "--for=" + borrower,
            "--to=" + to,
            "--reader=" + by));
  }

  /** Says first what would come, and does it once somebody has seen that. */
  private Job bring(
      Map<String, String> form, List<String> words, Path from, Job.Kind look, Job.Kind bring) {
    if (form.containsKey("seen")) {
      return run(bring, "Bringing in “" + from.getFileName() + "”", words);
    }
    List<String> looking = new ArrayList<>(words);
    looking.add("--dry-run");
    return run(look, "What would come from “" + from.getFileName() + "”", looking);
  }

  private Job handOn(Map<String, String> form, String root) {
    Path folder = folder(form, "Say which folder it goes to.");
    String day = day(form);
    String ground = Folders.named(archive.ground().name());
    return switch (form.getOrDefault("do", "")) {
      case "site" -> {
        Path to = folder.resolve("Site of " + ground);
        List<String> words = new ArrayList<>(List.of("site", root, "--to", to.toString()));
        words.addAll(List.of("--as-of", day));
        for (String option : List.of("address", "mail")) {
          String given = Requests.words(form, option);
          if (!given.isEmpty()) {
            words.add("--" + option + "=" + given);
          }
        }
        yield run(Job.Kind.SITE, "Web site in " + to, words);
      }
      case "book" -> {
        Path to = folder.resolve("Register of " + ground + ".pdf");
        yield run(
            Job.Kind.BOOK,
            "Book " + to,
            List.of("book", root, "--as-of", day, "--to", to.toString()));
      }
      default -> {
        List<String> words = new ArrayList<>(List.of("export", root, "--to", folder.toString()));
        words.addAll(List.of("--as-of", day));
        for (String option : OPEN_FORMATS) {
          if (form.containsKey(option)) {
            words.add("--" + option);
          }
        }
        yield run(Job.Kind.EXPORT, "Files in " + folder, words);
      }
    };
  }

  private Job ingest(Map<String, String> form, String root, String by) {
    String drop = form.getOrDefault("drop", "");
    boolean dropped = !drop.isEmpty();
    Path from = dropped ? dropped(drop) : folder(form, "Say which folder the photographs are in.");
    if (!Files.isDirectory(from)) {
      throw new ArchiveException(from + ": there is no such folder on this machine.");
    }
    List<String> words = new ArrayList<>(List.of("ingest", root, from.toString()));
    for (String option : List.of("photographer", "credit", "rights")) {
      String given = Requests.words(form, option);
      if (!given.isEmpty()) {
        words.add("--" + option + "=" + given);
      }
    }
    words.add("--reader=" + by);
    return application
        .jobs()
        .start(
            Job.Kind.INGEST,
            dropped ? "Taking in dropped photographs" : "Taking in photographs from " + from,
            words,
            () -> {
              if (dropped) {
                Folders.delete(from);
              }
            });
  }

  private Job run(Job.Kind kind, String title, List<String> words) {
    return application.jobs().start(kind, title, words, () -> {});
  }

  private static Path folder(Map<String, String> form, String missing) {
    String given = Requests.words(form, "folder");
    if (given.isEmpty()) {
      throw new ArchiveException(missing);
    }
    return Folders.absolute(given);
  }

  private static String day(Map<String, String> form) {
    String given = Requests.words(form, "day");
    try {
      return LocalDate.parse(given).toString();
    } catch (DateTimeParseException e) {
      throw new ArchiveException("“" + given + "” isn't a day such as 2026-11-25.", e);
    }
  }

  private Job known(Context context) {
    return application
        .jobs()
        .find(context.pathParam("job"))
        .orElseThrow(() -> Refusal.notFound("job"));
  }

  private void job(Context context) {
    requireStarter(context);
    Job job = known(context);
    Job.Look look = job.look();
    pages.show(
        context,
        "job",
        Map.of(
            "job",
            new JobsPage.One(
                job.id(),
                job.title(),
                look.state().words(),
                look.state().isOver(),
                look.state() == Job.State.DONE,
                look.howFar(),
                look.done(),
                look.all(),
                look.lines(),
                job.kind() == Job.Kind.INGEST,
                job.kind() == Job.Kind.PROPOSE,
                job.kind().isLook() ? job.words().get(0) : "",
                job.kind().isLook() ? job.words().get(2) : "",
                job.kind().isMeeting() ? new ApartStore(archive).waiting().size() : 0,
                LENDING.contains(job.words().get(0)),
                job.record().isPresent())));
  }

  private void jobForScript(Context context) {
    requireStarter(context);
    Job.Look look = known(context).look();
    ObjectNode answer =
        Pages.object()
            .put("state", look.state().words())
            .put("over", look.state().isOver())
            .put("howFar", look.howFar())
            .put("done", look.done())
            .put("all", look.all());
    ArrayNode lines = answer.putArray("lines");
    look.lines().forEach(lines::add);
    Pages.json(context, answer);
  }

  private void record(Context context) throws IOException {
    requireStarter(context);
    Path record = known(context).record().orElseThrow(() -> Refusal.notFound("record"));
    context.contentType("text/plain; charset=utf-8").result(Files.newInputStream(record));
  }

  private void stop(Context context) {
    requests.archivistsForm(context);
    application.key().require(context);
    Job job = known(context);
    job.stop();
    context.redirect(JOBS + "/" + job.id());
  }

  /** One file of a folder that was dropped on the page; the command takes them all at once. */
  private void take(Context context) throws IOException {
    Session session = requests.session(context);
    Door.requireToken(session, Optional.ofNullable(context.header(Door.TOKEN)).orElse(""));
    requireStarter(context);
    Path folder = dropped(context.pathParam("drop"));
    Path file;
    try {
      file = folder.resolve(context.pathParam("path")).normalize();
    } catch (InvalidPathException e) {
      throw Refusal.malformed("This file's name can't be used. Rename it.");
    }
    if (!file.startsWith(folder) || file.equals(folder)) {
      throw Refusal.malformed("This file's name can't be used. Rename it.");
    }
    Files.createDirectories(file.getParent());
    try (InputStream in = context.req().getInputStream()) {
      if (Files.copy(new Bounded(in, MOST_SENT_BYTES), file) == 0) {
        Files.delete(file);
      }
    }
    Pages.json(context, Pages.object());
  }

  private Path dropped(String drop) {
    if (!DROP.matcher(drop).matches()) {
      throw Refusal.malformed("This form can't be read.");
    }
    return archive.workingFolder().resolve(DROPPED + drop);
  }

  /** Ends with a refusal where a file is longer than may be. */
  private static final class Bounded extends java.io.FilterInputStream {
    private long left;

    Bounded(InputStream in, long most) {
      super(in);
      this.left = most;
    }

    @Override
    public int read(byte[] into, int from, int length) throws IOException {
      int read = super.read(into, from, length);
      left -= Math.max(0, read);
      if (left < 0) {
        throw Refusal.of(413, "too-large", "A file may have 1 GiB at most.");
      }
      return read;
    }
  }
}
