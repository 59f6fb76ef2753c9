package rakelight.cli;

import java.util.ArrayList;
import java.util.List;
import rakelight.archive.Joining;
import rakelight.archive.Projection;
import rakelight.ground.FamilyStore;
import rakelight.ground.LinkStore;
import rakelight.ground.PositionStore;
import rakelight.ground.WalkStore;
import rakelight.ground.removal.RemovalStore;
import rakelight.ground.witness.WitnessStore;
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
import rakelight.reading.ProposalStore;
import rakelight.survey.AlikeStore;
import rakelight.survey.HandStore;
import rakelight.work.LeftFaceStore;
import rakelight.work.LendingStore;
import rakelight.work.ReaderStore;
import rakelight.work.Withdrawing;

/** Every store's projection: an archive is always opened with all of them. */
final class Projections {
  private Projections() {}

  static List<Projection> all() {
    return List.of(
        MarkerStore.projection(),
        PhotoStore.projection(),
        ProposalStore.projection(),
        ReadingStore.projection(),
        PersonStore.projection(),
        CorrectionStore.projection(),
        QuestionStore.projection(),
        SourceStore.projection(),
        ConditionStore.projection(),
        DescriptionStore.projection(),
        EmblemStore.projection(),
        AlikeStore.projection(),
        HandStore.projection(),
        LinkStore.projection(),
        PositionStore.projection(),
        WalkStore.projection(),
        FamilyStore.projection(),
        RemovalStore.projection(),
        WitnessStore.projection(),
        ReaderStore.projection(),
        LeftFaceStore.projection(),
        LendingStore.projection(),
        WithholdingStore.projection());
  }

  /** What stores see to when two histories of an archive come together, in this order. */
  static List<Joining> joinings() {
    List<Joining> joinings = new ArrayList<>(MarkerStore.joinings());
    joinings.add(PhotoStore.joining());
    joinings.add(ReadingStore.joining());
    joinings.add(QuestionStore.joining());
    joinings.add(Withdrawing.joining());
    return List.copyOf(joinings);
  }
}
