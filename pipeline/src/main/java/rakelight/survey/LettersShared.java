package rakelight.survey;

import java.text.Normalizer;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import rakelight.archive.FaceId;
import rakelight.reading.Proposal;

/**
 * How far the letters that a machine reads on a photograph are those it read on a face: by runs of
 * three letters, those that few faces have counting most (cosine of tf-idf weights: Salton and
 * Buckley, Information Processing and Management 24, 1988).
 */
final class LettersShared {
  private static final int RUN = 3;

  private final Map<FaceId, Set<String>> faces = new HashMap<>();
  private final Map<String, Integer> facesWith = new HashMap<>();

  /**
   * @param runs what was read on the face
   */
  void add(FaceId face, Set<String> runs) {
    if (!runs.isEmpty()) {
      faces.put(face, runs);
      runs.forEach(run -> facesWith.merge(run, 1, Integer::sum));
    }
  }

  /** 0 to 1; empty where nothing was read on the face or the photograph. */
  Optional<Double> with(FaceId face, Set<String> runs) {
    Set<String> others = faces.getOrDefault(face, Set.of());
    if (others.isEmpty() || runs.isEmpty()) {
      return Optional.empty();
    }
    double both = runs.stream().filter(others::contains).mapToDouble(this::weight).sum();
    double one = runs.stream().mapToDouble(this::weight).sum();
    double other = others.stream().mapToDouble(this::weight).sum();
    return Optional.of(both / Math.sqrt(one * other));
  }

  Set<FaceId> faces() {
    return faces.keySet();
  }

  private double weight(String run) {
    double rare = Math.log((1.0 + faces.size()) / facesWith.getOrDefault(run, 1)) + 0.1;
    return rare * rare;
  }

  /** The runs of letters and figures of a proposal's lines, without accents, in capitals. */
  static Set<String> runs(Proposal proposal) {
    Set<String> runs = new HashSet<>();
    List<String> lines = proposal.lines().stream().map(line -> line.lattice().best()).toList();
    for (String line : lines) {
      String letters =
          Normalizer.normalize(line, Normalizer.Form.NFD)
              .replaceAll("[^\\p{L}\\p{Nd}]", "")
              .toUpperCase(Locale.ROOT);
      for (int i = 0; i + RUN <= letters.length(); i++) {
        runs.add(letters.substring(i, i + RUN));
      }
    }
    return runs;
  }
}
