package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import rakelight.samples.plots.InventedLots;
import rakelight.samples.plots.InventedPlot;

/** A ground of invented family lots in rows, 25 m apart: each a monument with footstones about. */
final class FamilyGround {
  private static final double APART_METRES = 25;
  private static final int IN_A_ROW = 40;
  private static final double METRES_OF_DEGREE = 111_320;

  private FamilyGround() {}

  /** The archive, in a new folder. Of lot 7 the monument is marker 7, its footstones 7.1, 7.2. */
  static Path in(Path folder, long seed, int lots, double worn) throws IOException {
    Path archive = folder.resolve("archive");
    done("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    List<String> readings = new ArrayList<>(List.of("marker\tface\tline\ttext"));
    List<String> places = new ArrayList<>(List.of("marker,latitude,longitude,error,row,place"));
    int lot = 0;
    for (InventedPlot plot : InventedLots.of(seed, lots, worn)) {
      double east = lot % IN_A_ROW * APART_METRES;
      double north = -(lot / IN_A_ROW) * APART_METRES;
      String number = String.valueOf(++lot);
      monument(readings, number, plot);
      place(places, number, plot.monument(), east, north, (lot - 1) / IN_A_ROW, lot);
      for (int s = 0; s < plot.stones().size(); s++) {
        InventedPlot.Stone stone = plot.stones().get(s);
        String own = number + "." + (s + 1);
        face(readings, own, letters(stone.letters()), stone.year().orElse("").replace("?", "[.]"));
        place(places, own, stone.at(), east, north, -1, 0);
      }
    }
    Path texts = folder.resolve("readings.tsv");
    Files.write(texts, readings);
    done("confirm", archive, "--from", texts, "--new-markers", "--reader", "Ada Penrose");
    Path at = folder.resolve("places.csv");
    Files.write(at, places);
    done("position", archive, "--from", at, "--reader", "Ada Penrose");
    return archive;
  }

  private static void done(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err()).isZero();
  }

  private static void monument(List<String> rows, String number, InventedPlot plot) {
    List<String> lines = new ArrayList<>();
    boolean husband = false;
    for (int i = 0; i < plot.persons().size(); i++) {
      InventedPlot.Named named = plot.persons().get(i);
      boolean wife = husband && named.roles().contains(InventedPlot.Role.WIFE);
      boolean child = i > 1 && named.surname().equals(plot.persons().get(0).surname()) && !wife;
      lines.add((i == 0 ? "" : "also ") + named.given() + (wife ? "" : " " + named.surname()));
      if (wife || child) {
        lines.add(wife ? "his wife" : named.woman() ? "their daughter" : "their son");
      }
      String died = named.deathYear().map(year -> "died " + year).orElse("");
      lines.add((died + named.ageYears().map(age -> " aged " + age + " years").orElse("")).strip());
      if (named.lostElsewhere()) {
        lines.add("lost at sea");
      }
      husband = named.roles().contains(InventedPlot.Role.HUSBAND);
    }
    lines.removeIf(String::isBlank);
    face(rows, number, lines.toArray(String[]::new));
  }

  /** As a reader writes them: doubtful ones with a dot below, those that are gone in brackets. */
  private static String letters(List<Map<Character, Double>> letters) {
    StringBuilder text = new StringBuilder();
    for (Map<Character, Double> place : letters) {
      text.append(
          place.entrySet().stream()
              .max(
                  Map.Entry.<Character, Double>comparingByValue()
                      .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
              .map(best -> best.getKey() + (best.getValue() < 0.95 ? "\u0323" : ""))
              .orElse("[.]"));
      text.append(letters.size() > 3 ? "" : " ");
    }
    return text.toString().strip();
  }

  private static void face(List<String> rows, String marker, String... lines) {
    int line = 1;
    for (String text : lines) {
      if (!text.isBlank()) {
        rows.add(marker + "\tfront\t" + line++ + "\t" + text);
      }
    }
  }

  private static void place(
      List<String> places,
      String marker,
      InventedPlot.Measured at,
      double east,
      double north,
      int row,
      int place) {
    double latitude = 54.1 + (north + at.northMetres()) / METRES_OF_DEGREE;
    double longitude =
        -3.2 + (east + at.eastMetres()) / METRES_OF_DEGREE / Math.cos(Math.toRadians(54.1));
    places.add(
        String.format(
            Locale.ROOT,
            "%s,%.7f,%.7f,%.2f,%s,%s",
            marker,
            latitude,
            longitude,
            at.errorMetres(),
            row < 0 ? "" : (char) ('A' + row),
            row < 0 ? "" : place - row * IN_A_ROW));
  }
}
