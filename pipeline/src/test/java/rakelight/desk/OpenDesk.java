package rakelight.desk;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.archive.Projection;
import rakelight.ground.FamilyStore;
import rakelight.ground.LinkStore;
import rakelight.ground.PositionStore;
import rakelight.ground.WalkStore;
import rakelight.inscription.ReadingStore;
import rakelight.marker.ConditionStore;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemStore;
import rakelight.marker.MarkerStore;
import rakelight.person.CorrectionStore;
import rakelight.person.PersonStore;
import rakelight.person.QuestionStore;
import rakelight.person.SourceStore;
import rakelight.photo.PhotoStore;
import rakelight.publish.WithholdingStore;
import rakelight.reading.GivenProposal;
import rakelight.reading.ProposalStore;
import rakelight.work.LeftFaceStore;
import rakelight.work.ReaderStore;

/** A small archive with its desk open on a free port, and a clock that a test can put forward. */
final class OpenDesk implements AutoCloseable {
  private static final String[] LINES = {"IN MEMORY OF", "HANNAH W(R60K30)EN", "died 18(350840)4"};

  private final Archive archive;
  private final Desk desk;
  private Instant now = Instant.parse("2026-11-25T09:00:00Z");
  private final Clock clock =
      new Clock() {
        @Override
        public Instant instant() {
          return now;
        }

        @Override
        public ZoneId getZone() {
          return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
          return this;
        }
      };

  OpenDesk(Path folder) {
    List<Projection> projections =
        List.of(
            MarkerStore.projection(),
            PhotoStore.projection(),
            ProposalStore.projection(),
            ReadingStore.projection(),
            PersonStore.projection(),
            CorrectionStore.projection(),
            QuestionStore.projection(),
            SourceStore.projection(),
            WithholdingStore.projection(),
            ConditionStore.projection(),
            DescriptionStore.projection(),
            EmblemStore.projection(),
            WalkStore.projection(),
            LinkStore.projection(),
            PositionStore.projection(),
            FamilyStore.projection(),
            ReaderStore.projection(),
            LeftFaceStore.projection());
    archive =
        Files.exists(folder)
            ? Archive.open(folder, projections)
            : Archive.init(
                folder,
                new Ground("Fenn Lane", 54.1, -3.2, ZoneId.of("Europe/London")),
                projections);
    desk = Desk.start(archive, InetAddress.getLoopbackAddress(), 0, clock);
  }

  /** A face of which a machine has proposed three lines, one letter of two of them in doubt. */
  String face(String marker) {
    return face(marker, LINES);
  }

  String face(String marker, String... lines) {
    FaceId face = new PhotoStore(archive).faceOf(marker, "front", "Ada Fenn").id();
    try {
      GivenProposal.of(archive, face, lines);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    return face.toString();
  }

  Visitor visitor(String name) {
    return Visitor.named(name, desk.port());
  }

  Visitor stranger() {
    return new Visitor(desk.port());
  }

  Archive archive() {
    return archive;
  }

  ReadingStore readings() {
    return new ReadingStore(archive);
  }

  int port() {
    return desk.port();
  }

  void later(Duration time) {
    now = now.plus(time);
  }

  @Override
  public void close() {
    desk.close();
    archive.close();
  }
}
