package rakelight.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CommittedPhotographsTest {
  @Test
  void theCarriedPhotographsAreThoseOfTheirMarkersAndSmallEnoughToCarry() {
    List<Map<String, String>> manifest =
        Tables.parse(text("manifest.csv").replace(',', '\t'), "manifest.csv");
    assertThat(manifest).extracting(r -> Tables.cell(r, "marker")).containsAll(Samples.COMMITTED);
    assertThat(Set.copyOf(manifest.stream().map(r -> Tables.cell(r, "marker")).toList()))
        .isEqualTo(Samples.COMMITTED);
    int bytes = Samples.committedFiles().stream().mapToInt(f -> Samples.bytes(f).length).sum();
    assertThat(bytes).isLessThan(8_000_000);
  }

  @Test
  void theTruthBesideThemIsWhatTheGroundSaysWasCut() {
    Map<String, String> cut =
        Samples.ground().markers().stream()
            .flatMap(m -> m.faces().stream())
            .flatMap(
                f ->
                    f.lines().stream()
                        .map(l -> Map.entry(f.marker() + f.face() + l.number(), l.asCut())))
            .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
    List<Map<String, String>> rows = Tables.parse(text("truth.tsv"), "truth.tsv");
    assertThat(rows).isNotEmpty();
    for (Map<String, String> r : rows) {
      String key = Tables.cell(r, "marker") + Tables.cell(r, "face") + Tables.cell(r, "line");
      assertThat(Tables.cell(r, "as_cut")).as(key).isEqualTo(cut.get(key));
    }
    assertThat(rows.stream().map(r -> Tables.cell(r, "file")).collect(Collectors.toSet()))
        .isEqualTo(Set.copyOf(Samples.committedFiles()));
  }

  @Test
  void everyBoxLiesInsideItsPicture() throws IOException {
    for (Map<String, String> r : Tables.parse(text("boxes.tsv"), "boxes.tsv")) {
      String file = Tables.cell(r, "file");
      double longest = 21.0 / 16 * Samples.COMMITTED_WIDTH_PX;
      for (String xy : Tables.cell(r, "polygon").split(" ")) {
        String[] c = xy.split(",");
        assertThat(Double.parseDouble(c[0]))
            .as(file)
            .isBetween(0.0, 1.0 * Samples.COMMITTED_WIDTH_PX);
        assertThat(Double.parseDouble(c[1])).as(file).isBetween(0.0, longest);
      }
    }
  }

  @Test
  void theyAreCopiedWholeAndDecode(@TempDir Path folder) throws IOException {
    Samples.copyCommitted(folder);
    for (String file : Samples.committedFiles()) {
      byte[] bytes = Files.readAllBytes(folder.resolve(file));
      assertThat(bytes).as(file).endsWith(0xff, 0xd9);
      var image = ImageIO.read(new ByteArrayInputStream(bytes));
      assertThat(Math.min(image.getWidth(), image.getHeight()))
          .as(file)
          .isEqualTo(Samples.COMMITTED_WIDTH_PX);
    }
    assertThat(folder.resolve("readings.tsv")).isRegularFile();
  }

  private static String text(String name) {
    return new String(Samples.bytes(name), StandardCharsets.UTF_8);
  }
}
