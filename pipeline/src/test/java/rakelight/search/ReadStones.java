package rakelight.search;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.ground.LinkStore;
import rakelight.ground.PositionStore;
import rakelight.inscription.Basis;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.ConditionStore;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemStore;
import rakelight.marker.MarkerStore;
import rakelight.person.CorrectionStore;
import rakelight.person.PersonStore;
import rakelight.person.QuestionStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.ProposalStore;

/** An archive to which confirmed readings are added in Leiden signs. */
final class ReadStones implements AutoCloseable {
  private final Archive archive;

  ReadStones(Path folder) {
    archive =
        Archive.init(
            folder,
            new Ground("Thornbeck", 54.1, -3.2, ZoneId.of("Europe/London")),
            List.of(
                MarkerStore.projection(),
                PhotoStore.projection(),
                ProposalStore.projection(),
                ReadingStore.projection(),
                PersonStore.projection(),
                CorrectionStore.projection(),
                LinkStore.projection(),
                QuestionStore.projection(),
                ConditionStore.projection(),
                DescriptionStore.projection(),
                EmblemStore.projection(),
                PositionStore.projection()));
  }

  Archive archive() {
    return archive;
  }

  Reading add(String marker, String text) {
    return add(marker, "front", text);
  }

  Reading add(String marker, String face, String text) {
    return new ReadingStore(archive)
        .sign(
            new PhotoStore(archive).faceOf(marker, face, "Ada").id(),
            inscription(text),
            Basis.FROM_PHOTOGRAPHS,
            Optional.empty(),
            "Ada");
  }

  static Inscription inscription(String text) {
    try {
      return Leiden.parse(text);
    } catch (LeidenException e) {
      throw new IllegalArgumentException(text, e);
    }
  }

  @Override
  public void close() {
    archive.close();
  }
}
