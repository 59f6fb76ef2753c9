package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.Table;
import rakelight.person.FoldedWords;
import rakelight.person.SoughtFile;
import rakelight.person.Source;
import rakelight.person.SourceStore;
import rakelight.person.calendar.CalendarChange;
import rakelight.work.NamedReader;

/** Registers, rolls, letters, old lists and rubbings, with their scans. */
final class SourceRoutes {
  private static final String SOURCES = "/sources";

  /** Pictures that browsers show and that carry no script. */
  private static final Map<String, String> SHOWN =
      Map.of(
          "jpg", "image/jpeg",
          "jpeg", "image/jpeg",
          "png", "image/png",
          "webp", "image/webp",
          "avif", "image/avif",
          "pdf", "application/pdf");

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;
  private final Concluding concluding;
  private final SourceStore sources;

  SourceRoutes(Archive archive, Requests requests, Pages pages, Concluding concluding) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
    this.concluding = concluding;
    this.sources = new SourceStore(archive);
  }

  void addTo(Javalin server) {
    server.get(SOURCES, context -> list(context, Map.of(), ""));
    server.post(SOURCES, this::record);
    server.get(SOURCES + "/{source}", context -> source(context, ""));
    server.post(SOURCES + "/{source}/scans", this::scan);
    server.get(SOURCES + "/{source}/scans/{scan}", this::showScan);
    server.post(SOURCES + "/{source}/roll", this::roll);
  }

  /**
   * @param written what somebody wrote in the form that was refused
   */
  private void list(Context context, Map<String, String> written, String refused) {
    boolean all = requests.by(context).role().mayDecide();
    String words = Requests.asked(context, "words");
    String kind = Requests.asked(context, "kind");
    String year = Requests.asked(context, "year");
    List<Listing.Choice> kinds = new ArrayList<>();
    kinds.add(new Listing.Choice("", "any"));
    for (Source.Kind each : Source.Kind.values()) {
      kinds.add(new Listing.Choice(each.label(), each.label()));
    }
    List<Listing.Field> fields =
        List.of(
            Listing.Field.written("words", "Words", words, "register"),
            Listing.Field.written("year", "Seen in", year, "2026"),
            Listing.Field.chosen("kind", "Kind", kind, kinds.toArray(Listing.Choice[]::new)));
    Optional<Years> years = Years.of(year);
    List<Source> whole = sources.sources().stream().filter(one -> all || isTold(one)).toList();
    List<Source> held =
        whole.stream()
            .filter(one -> kind.isEmpty() || one.kind().label().equals(kind))
            .filter(
                one ->
                    words.isEmpty()
                        || FoldedWords.begin(
                            String.join(
                                " ", one.title(), one.repository(), one.reference(), one.note()),
                            words))
            .filter(
                one ->
                    years.isEmpty()
                        || one.consulted()
                            .filter(day -> day.getYear() >= years.get().first())
                            .filter(day -> day.getYear() <= years.get().last())
                            .isPresent())
            .toList();
    pages.show(
        context,
        "sources",
        Map.of(
            "list",
            new Listing(
                "Sources",
                SOURCES,
                "Evidence that isn’t a photograph of a stone: registers, rolls, letters, old lists"
                    + " and rubbings.",
                year.isEmpty() || years.isPresent() ? refused : Years.refused(year),
                List.of(),
                fields,
                "source",
                "sources",
                whole.size(),
                Requests.paged(context, held, SOURCES, fields).map(one -> row(one, all))),
            "kinds",
            kinds.subList(1, kinds.size()),
            "written",
            written));
  }

  private static Listing.Row row(Source source, boolean all) {
    List<String> facts = new ArrayList<>(List.of(source.label()));
    facts.add(where(source));
    facts.add(all ? source.note() : "");
    facts.add(
        source.scans().isEmpty()
            ? ""
            : source.scans().size() + (source.scans().size() == 1 ? " scan" : " scans"));
    return new Listing.Row(address(source), source.title(), source.kind().label(), facts);
  }

  private static String where(Source source) {
    return Stream.of(
            source.repository(),
            source.reference(),
            source.consulted().map(day -> "seen on " + day).orElse(""))
        .filter(part -> !part.isEmpty())
        .reduce((one, other) -> one + ", " + other)
        .orElse("");
  }

  static String address(Source source) {
    return SOURCES + "/" + source.number();
  }

  private void record(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    NamedReader by = requests.by(context);
    try {
      Source source =
          sources.record(
              Source.Kind.of(form.getOrDefault("kind", ""))
                  .orElseThrow(() -> new ArchiveException("Say what kind of source it is.")),
              Requests.words(form, "title"),
              Requests.words(form, "repository"),
              Requests.words(form, "reference"),
              day(form.getOrDefault("consulted", "")),
              Requests.words(form, "note"),
              by.name());
      context.redirect(address(source));
    } catch (ArchiveException e) {
      context.status(422);
      list(context, form, String.valueOf(e.getMessage()));
    }
  }

  private static Optional<LocalDate> day(String written) {
    if (written.isBlank()) {
      return Optional.empty();
    }
    try {
      return Optional.of(LocalDate.parse(written.strip()));
    } catch (DateTimeParseException e) {
      throw new ArchiveException("“" + written + "” is no day; write 2026-11-25.", e);
    }
  }

  private boolean isTold(Source source) {
    return concluding
        .now()
        .mayTell(String.join(" ", source.title(), source.repository(), source.reference()));
  }

  private Source known(Context context) {
    boolean all = requests.by(context).role().mayDecide();
    String number = context.pathParam("source");
    return sources.sources().stream()
        .filter(source -> Long.toString(source.number()).equals(number))
        .filter(source -> all || isTold(source))
        .findFirst()
        .orElseThrow(() -> Refusal.notFound("source"));
  }

  private void source(Context context, String message) {
    NamedReader by = requests.by(context);
    boolean all = by.role().mayDecide();
    Source source = known(context);
    List<String> facts = new ArrayList<>();
    facts.add(where(source));
    if (all) {
      facts.add(source.note());
    }
    facts.removeIf(String::isEmpty);
    long sought = sources.sought().stream().filter(one -> one.source().equals(source.id())).count();
    pages.show(
        context,
        "source",
        Map.of(
            "source",
            new SourcePage(
                source.number(),
                source.title(),
                source.kind().label(),
                facts,
                all
                    ? source.scans().stream()
                        .filter(this::isHere)
                        .map(scan -> scan(source, scan))
                        .toList()
                    : List.of(),
                Math.toIntExact(sought),
                all ? acts(source, by) : List.of(),
                all),
            "message",
            message));
  }

  private boolean isHere(Source.Scan scan) {
    return archive.withdrawals().of(scan.sha256()).isEmpty();
  }

  private static SourcePage.Scan scan(Source source, Source.Scan scan) {
    String type = SHOWN.getOrDefault(scan.extension(), "");
    return new SourcePage.Scan(
        address(source) + "/scans/" + scan.sha256().hex(),
        scan.originalName(),
        String.format(Locale.ROOT, "%.1f MB", scan.sizeBytes() / 1e6),
        type.startsWith("image/"));
  }

  private List<Act> acts(Source source, NamedReader by) {
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    List<Act> acts = new ArrayList<>();
    for (Decision decision : archive.journal().bySubject(source.id().value())) {
      String words =
          switch (decision.kind()) {
            case "source.recorded" -> "recorded the source";
            case "source.scanned" ->
                "added the scan " + decision.payload().path("originalName").asText("");
            case "sought.listed" ->
                "took persons sought: " + decision.payload().path("rows").size();
            default -> "";
          };
      if (!words.isEmpty()) {
        boolean recorded = decision.kind().equals("source.recorded");
        acts.add(0, Act.of(decision, words, undone, by, recorded ? SOURCES : address(source)));
      }
    }
    return acts;
  }

  // Files

  private void scan(Context context) {
    Upload upload = upload(context);
    Source source = known(context);
    keep(context, upload, file -> sources.scan(source, file, upload.by().name()), source);
  }

  /** Takes a roll or register: a table of persons sought. */
  private void roll(Context context) {
    Upload upload = upload(context);
    Source source = known(context);
    keep(
        context,
        upload,
        file -> {
          try {
            SoughtFile rows = SoughtFile.read(file, CalendarChange.of(archive.ground()));
            sources.list(source, upload.name(), rows, upload.by().name());
          } catch (Table.RefusedException e) {
            throw new ArchiveException(
                String.join(" ", e.problems()).replace(file.toString(), upload.name())
                    + " Nobody was taken.",
                e);
          }
        },
        source);
  }

  /** A file that somebody sent. */
  private record Upload(NamedReader by, UploadedFile file, String name) {}

  /** What is done with a file. */
  @FunctionalInterface
  private interface Use {
    void of(Path file) throws IOException;
  }

  private Upload upload(Context context) {
    SentFile sent = SentFile.of(context, requests);
    return new Upload(requests.by(context), sent.file(), sent.name());
  }

  private void keep(Context context, Upload upload, Use use, Source source) {
    try {
      Path folder = Files.createTempDirectory(archive.workingFolder(), "sent-");
      Path file = folder.resolve(upload.name());
      try {
        try (InputStream in = upload.file().content()) {
          Files.copy(in, file);
        }
        use.of(file);
        context.redirect(address(source));
      } finally {
        Files.deleteIfExists(file);
        Files.deleteIfExists(folder);
      }
    } catch (IOException e) {
      context.status(422);
      source(context, upload.name() + " can't be kept: " + e.getMessage());
    } catch (ArchiveException e) {
      context.status(422);
      source(context, String.valueOf(e.getMessage()).replaceAll("\\S*sent-[0-9]+[/\\\\]", ""));
    }
  }

  private void showScan(Context context) throws IOException {
    requests.deciding(context);
    Source source = known(context);
    String digest = context.pathParam("scan");
    Source.Scan scan =
        source.scans().stream()
            .filter(one -> one.sha256().hex().equals(digest))
            .filter(this::isHere)
            .findFirst()
            .orElseThrow(() -> Refusal.notFound("scan"));
    Path file = archive.originals().find(scan.sha256()).orElseThrow(() -> Refusal.notFound("scan"));
    String type = SHOWN.getOrDefault(scan.extension(), "application/octet-stream");
    boolean shown = SHOWN.containsKey(scan.extension());
    context
        .header(
            "Content-Disposition",
            shown ? "inline" : "attachment; filename=\"scan." + scan.extension() + "\"")
        .contentType(type)
        .result(Files.newInputStream(file));
  }
}
