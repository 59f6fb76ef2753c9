package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.MarkerId;
import rakelight.archive.Table;
import rakelight.ground.DatumPoint;
import rakelight.ground.MarkerPosition;
import rakelight.ground.PositionFile;
import rakelight.ground.PositionStore;
import rakelight.ground.PositionStore.ByTape;
import rakelight.ground.PositionStore.TapeWords;
import rakelight.ground.RowPlace;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

@Command(
    name = "position",
    description = {
      "Shows where markers stand, by what evidence and how far off it may be; or notes it under"
          + " your name: by a receiver, by tape from two points or more, by row and place, from a"
          + " file.",
      "What was known before is kept; the evidence with the least error is taken. `undo` takes a"
          + " note back."
    })
final class PositionCommand extends ArchiveCommand {
  @Parameters(index = "1", arity = "0..1", paramLabel = "MARKER", description = "Its number.")
  private Optional<String> number;

  @Option(names = "--at", paramLabel = "LAT,LON", description = "Where a receiver puts it, WGS 84.")
  private Optional<String> at = Optional.empty();

  @Option(
      names = "--error",
      paramLabel = "METRES",
      description = "The standard error of --at, or of the file's places that give none.")
  private Optional<Double> error = Optional.empty();

  @Option(
      names = "--tape",
      paramLabel = "POINT=METRES",
      description = "A distance from a point (or a marker, or the datum), such as gate=12.40.")
  private List<String> tapes = List.of();

  @Option(
      names = "--side",
      paramLabel = "SIDE",
      description =
          "left or right of the line from the first point to the second, where two places fit.")
  private String side = "";

  @Option(names = "--row", paramLabel = "NAME", description = "The row it stands in.")
  private Optional<String> row = Optional.empty();

  @Option(names = "--place", paramLabel = "N", description = "Its place in the row, from 1.")
  private int place;

  @Option(
      names = "--point",
      paramLabel = "NAME",
      description = "Notes a point that tapes are held to: with --at and --error.")
  private Optional<String> point = Optional.empty();

  @Option(
      names = "--from",
      paramLabel = "FILE",
      description = "Many at once, from comma-separated values or GeoJSON.")
  private Optional<Path> file = Optional.empty();

  @Option(names = "--note", paramLabel = "WORDS", description = "How it was measured.")
  private String note = "";

  @Option(names = "--dry-run", description = "Shows what would be noted and notes nothing.")
  private boolean dryRun;

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name.")
  private Optional<String> reader = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  /** What is to be noted of one marker. */
  private record Planned(
      Marker marker, List<MarkerPosition> at, List<ByTape> tapes, Optional<RowPlace> row) {}

  @Override
  int run(Archive archive) throws IOException {
    PositionStore store = new PositionStore(archive);
    MarkerStore markers = new MarkerStore(archive);
    try {
      if (point.isPresent()) {
        return point(store, point.get());
      }
      if (file.isPresent()) {
        return many(archive, store, markers, file.get());
      }
      if (at.isPresent() || !tapes.isEmpty() || row.isPresent()) {
        Marker marker = markers.named(number.orElseThrow(() -> wrong("Which MARKER?")));
        List<Double> place = at.isEmpty() ? List.of() : place();
        List<TapeWords> taped = tapes.stream().map(TapeWords::of).toList();
        Optional<RowPlace> inRow = row.map(name -> new RowPlace(name, this.place));
        Optional<Boolean> left = PositionFile.side(side);
        PositionFile.Entry entry =
            new PositionFile.Entry("", marker.number(), place, taped, left, inRow, false, note);
        write(archive, store, List.of(plan(store, markers, entry)));
        return 0;
      }
    } catch (IllegalArgumentException e) {
      throw wrong(String.valueOf(e.getMessage()));
    }
    show(store, markers);
    return 0;
  }

  private List<Double> place() {
    Datum where;
    try {
      where = Datum.of(at.orElse(""));
    } catch (IllegalArgumentException e) {
      throw wrong("--at must be LAT,LON in decimal degrees, such as 54.1234,-3.2345");
    }
    double metres = error.orElseThrow(() -> wrong("--at needs its standard error: --error METRES"));
    return List.of(where.latitudeDegrees(), where.longitudeDegrees(), metres);
  }

  private int point(PositionStore store, String name) {
    List<Double> where = place();
    DatumPoint noted = new DatumPoint(name, where.get(0), where.get(1), where.get(2));
    if (!dryRun) {
      store.note(noted, name());
    }
    if (json) {
      JsonLines.print(
          out(),
          JsonLines.object()
              .put("point", name)
              .put("latitude", noted.latitudeDegrees())
              .put("longitude", noted.longitudeDegrees())
              .put("errorMetres", noted.errorMetres()));
    } else {
      out().println((dryRun ? "Would note point " : "Point ") + name + ": " + at.orElse(""));
    }
    return 0;
  }

  private String name() {
    return reader.orElseThrow(() -> wrong("Under whose name? (--reader NAME)"));
  }

  private int many(Archive archive, PositionStore store, MarkerStore markers, Path from)
      throws IOException {
    List<String> problems = new ArrayList<>();
    try {
      PositionFile read = PositionFile.read(from, error);
      List<Planned> planned = new ArrayList<>();
      for (PositionFile.Entry entry : read.entries()) {
        try {
          planned.add(plan(store, markers, entry));
        } catch (ArchiveException | IllegalArgumentException e) {
          problems.add(entry.place() + ": " + e.getMessage());
        }
      }
      if (problems.isEmpty()) {
        write(archive, store, planned);
        for (var plot : read.plots()) {
          if (!dryRun) {
            store.note(plot, name());
          }
          if (!json) {
            out().println((dryRun ? "Would note plot " : "Plot ") + plot.name());
          }
        }
        return 0;
      }
    } catch (Table.RefusedException e) {
      problems.addAll(e.problems());
    } catch (NoSuchFileException e) {
      throw new ArchiveException(from + ": there is no such file.", e);
    }
    problems.forEach(err()::println);
    err().println(from + ": no position was noted.");
    return 1;
  }

  private Planned plan(PositionStore store, MarkerStore markers, PositionFile.Entry entry) {
    Marker marker = markers.named(entry.marker());
    List<MarkerPosition> at = new ArrayList<>();
    if (!entry.at().isEmpty()) {
      at.add(
          new MarkerPosition(
              marker.id(),
              entry.at().get(0),
              entry.at().get(1),
              entry.at().get(2),
              entry.fromPlan() ? MarkerPosition.Basis.GEOJSON : MarkerPosition.Basis.GPS,
              entry.note(),
              Optional.empty(),
              Optional.empty()));
    }
    List<ByTape> taped =
        entry.tapes().isEmpty()
            ? List.of()
            : List.of(store.byTape(marker.id(), entry.tapes(), entry.left(), entry.note()));
    return new Planned(marker, at, taped, entry.row());
  }

  private void write(Archive archive, PositionStore store, List<Planned> planned) {
    if (!dryRun) {
      String by = name();
      archive
          .ledger()
          .write(
              handle -> {
                for (Planned one : planned) {
                  one.at().forEach(position -> store.note(position, by));
                  one.tapes().forEach(tape -> store.note(tape, by));
                  one.row().ifPresent(inRow -> store.note(one.marker().id(), inRow, by));
                }
                return 0;
              });
    }
    if (json) {
      planned.forEach(one -> JsonLines.print(out(), object(one)));
      return;
    }
    String would = dryRun ? "would be noted: " : "";
    for (Planned one : planned) {
      String lead = "marker " + one.marker().number() + ": " + would;
      one.at().forEach(position -> out().println(lead + position.told()));
      for (ByTape tape : one.tapes()) {
        out().println(lead + tape.position().told());
        tape.tapes()
            .forEach(
                t ->
                    out()
                        .println(
                            String.format(
                                Locale.ROOT,
                                "  from %s: measured %.2f m, %+.2f m left over",
                                t.point(),
                                t.metres(),
                                t.residualMetres())));
        tape.mirrored().ifPresent(other -> out().println("  mirrored: " + other));
      }
      one.row()
          .ifPresent(in -> out().println(lead + "place " + in.place() + " of row " + in.row()));
    }
  }

  private void show(PositionStore store, MarkerStore markers) {
    Map<MarkerId, RowPlace> rows = store.rowPlaces();
    List<Marker> shown =
        number.map(n -> List.of(markers.named(n))).orElseGet(() -> markers.markers());
    Map<MarkerId, List<MarkerPosition>> all = store.all();
    for (Marker marker : shown) {
      List<MarkerPosition> evidence = all.getOrDefault(marker.id(), List.of());
      Optional<RowPlace> inRow = Optional.ofNullable(rows.get(marker.id()));
      List<String> plots =
          evidence.isEmpty()
              ? List.of()
              : store.plots().stream()
                  .filter(
                      plot ->
                          plot.holds(
                              evidence.get(0).latitudeDegrees(),
                              evidence.get(0).longitudeDegrees()))
                  .map(plot -> plot.name())
                  .toList();
      if (json) {
        JsonLines.print(out(), object(marker, evidence, inRow, plots));
        continue;
      }
      out()
          .println(
              marker.number()
                  + "  "
                  + (evidence.isEmpty()
                      ? "nobody knows where it stands"
                      : evidence.get(0).told() + known(evidence.get(0)))
                  + inRow.map(in -> "  row " + in.row() + ", place " + in.place()).orElse("")
                  + (plots.isEmpty() ? "" : "  plot " + String.join(", ", plots)));
      if (number.isPresent()) {
        evidence.stream()
            .skip(1)
            .forEach(other -> out().println("  also  " + other.told() + known(other)));
      }
    }
  }

  /** What is noted, or would be. */
  private static ObjectNode object(Planned planned) {
    List<MarkerPosition> noted = new ArrayList<>(planned.at());
    planned.tapes().forEach(tape -> noted.add(tape.position()));
    ObjectNode object = object(planned.marker(), noted, planned.row(), List.of());
    for (ByTape tape : planned.tapes()) {
      for (PositionStore.Taped one : tape.tapes()) {
        object
            .withArray("tapes")
            .addObject()
            .put("point", one.point())
            .put("metres", one.metres())
            .put("residualMetres", one.residualMetres());
      }
      tape.mirrored().ifPresent(other -> object.put("mirrored", other));
    }
    return object;
  }

  private static String known(MarkerPosition position) {
    return position.decision().map(d -> "  " + position.reader().orElse("") + "  " + d).orElse("");
  }

  private static ObjectNode object(
      Marker marker, List<MarkerPosition> evidence, Optional<RowPlace> inRow, List<String> plots) {
    ObjectNode object = JsonLines.object().put("marker", marker.number());
    inRow.ifPresent(in -> object.put("row", in.row()).put("place", in.place()));
    plots.forEach(object.withArray("plots")::add);
    for (MarkerPosition one : evidence) {
      ObjectNode each =
          object
              .withArray("evidence")
              .addObject()
              .put("latitude", one.latitudeDegrees())
              .put("longitude", one.longitudeDegrees())
              .put("errorMetres", one.errorMetres())
              .put("basis", one.basis().label())
              .put("words", one.words());
      one.reader().ifPresent(name -> each.put("reader", name));
      one.decision().ifPresent(id -> each.put("decision", id.toString()));
    }
    return object;
  }
}
