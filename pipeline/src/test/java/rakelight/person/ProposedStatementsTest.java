package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import rakelight.archive.Archive;
import rakelight.ground.LinkStore;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.ProposalStore;
import rakelight.samples.SampleStatement;
import rakelight.samples.Samples;

/**
 * What proposals that nobody has confirmed would assert, against the invented ground's truth, in an
 * archive of its photographs: {@code -Drakelight.proposed.archive=FOLDER}. What isn't right is
 * printed. With {@code -Drakelight.proposed.by-line=true} it must also stand on the line it was cut
 * on, which a line too many above it makes wrong.
 */
class ProposedStatementsTest {

  @Test
  @EnabledIfSystemProperty(named = "rakelight.proposed.archive", matches = ".+")
  void statementsOfProposalsAreCountedByKind() {
    Path folder = Path.of(System.getProperty("rakelight.proposed.archive"));
    Map<String, int[]> counts = new TreeMap<>();
    SampleGroundTest scorer =
        Boolean.getBoolean("rakelight.proposed.by-line")
            ? new SampleGroundTest()
            : SampleGroundTest.onAnyLine();
    int faces = 0;
    try (Archive archive =
        Archive.open(
            folder,
            List.of(
                MarkerStore.projection(),
                PhotoStore.projection(),
                ProposalStore.projection(),
                ReadingStore.projection(),
                PersonStore.projection(),
                CorrectionStore.projection(),
                QuestionStore.projection(),
                SourceStore.projection(),
                LinkStore.projection()))) {
      for (Evidence.FaceStatements face : new Evidence(archive).proposed()) {
        faces++;
        List<SampleStatement> truth =
            Samples.ground().statements().stream()
                .filter(s -> s.marker().equals(face.marker().number()))
                .filter(s -> s.face().equals(face.face().name()))
                .toList();
        StringBuilder differences = new StringBuilder();
        scorer.score(truth, new ArrayList<>(face.statements()), counts, differences);
        System.out.print(differences);
      }
    }
    assertThat(faces).isPositive();
    int[] all = new int[3];
    counts.forEach(
        (kind, c) -> {
          System.out.printf(
              Locale.ROOT, "%s: known %d, found %d, right %d%n", kind, c[2], c[1], c[0]);
          for (int i = 0; i < 3; i++) {
            all[i] += c[i];
          }
        });
    System.out.printf(
        Locale.ROOT,
        "%d faces: precision %.3f, recall %.3f%n",
        faces,
        all[0] / (double) all[1],
        all[0] / (double) all[2]);
  }
}
