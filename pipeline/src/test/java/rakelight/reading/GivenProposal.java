package rakelight.reading;

import java.io.IOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.archive.ProposalId;
import rakelight.archive.Sha256;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;

/**
 * Proposals for tests, written down instead of read from a photograph: {@code W(R60K30) N} has a
 * slot that is R with 0.6 and K with 0.3, and nothing with the rest.
 */
public final class GivenProposal {
  private GivenProposal() {}

  /** Makes a proposal the newest one of a face. */
  public static Proposal of(Archive archive, FaceId face, String... lines) throws IOException {
    PhotographId photograph = PhotographId.next();
    List<ProposedLine> proposed = new ArrayList<>();
    for (int i = 0; i < lines.length; i++) {
      List<Slot> slots = slots(lines[i]);
      double top = 100 + 60.0 * i;
      proposed.add(
          new ProposedLine(
              i + 1,
              photograph,
              Polygon.rectangle(100, top, 100 + 30.0 * slots.size(), top + 40),
              40,
              0.9,
              new LineLattice(slots)));
    }
    DerivationKey key = new DerivationKey(Sha256.of(String.join("\n", lines) + face).hex());
    Proposal proposal =
        new Proposal(
            ProposalId.next(),
            key,
            Optional.of(face),
            List.of(
                new FaceView(
                    photograph,
                    Polygon.rectangle(0, 0, 1000, 1400),
                    Optional.of(Homography.identity()))),
            proposed,
            List.of(),
            Instant.parse("2026-04-18T12:00:00Z"));
    new ProposalStore(archive).write(proposal, face.value());
    return proposal;
  }

  private static List<Slot> slots(String line) {
    List<List<Alternative>> all = new ArrayList<>();
    for (int i = 0; i < line.length(); i++) {
      if (line.charAt(i) != '(') {
        all.add(List.of(new Alternative(line.substring(i, i + 1), 1)));
        continue;
      }
      int end = line.indexOf(')', i);
      List<Alternative> alternatives = new ArrayList<>();
      double rest = 1;
      for (int at = i + 1; at < end; at += 3) {
        double p = Integer.parseInt(line.substring(at + 1, at + 3)) / 100.0;
        alternatives.add(new Alternative(line.substring(at, at + 1), p));
        rest -= p;
      }
      if (rest > 1e-9) {
        alternatives.add(new Alternative("", rest));
      }
      all.add(alternatives);
      i = end;
    }
    List<Slot> slots = new ArrayList<>();
    for (int i = 0; i < all.size(); i++) {
      slots.add(new Slot(all.get(i), (double) i / all.size(), (double) (i + 1) / all.size()));
    }
    return slots;
  }
}
