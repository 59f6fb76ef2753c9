package rakelight.publish;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import rakelight.Chance;
import rakelight.archive.Archive;
import rakelight.archive.DecisionId;
import rakelight.archive.Ground;
import rakelight.ground.LinkStore;
import rakelight.ground.PositionStore;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemStore;
import rakelight.marker.MarkerStore;
import rakelight.person.CorrectionStore;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.PersonStore;
import rakelight.person.QuestionStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.publish.Withholding.Cause;
import rakelight.publish.Withholding.Subject;
import rakelight.publish.epidoc.EpidocExport;
import rakelight.publish.gedcom.GedcomExport;
import rakelight.publish.gedcom.GedcomFile;
import rakelight.publish.xmp.Sidecars;
import rakelight.reading.ProposalStore;

/** An archive of a few stones, and what is published of it. */
final class SmallGround implements AutoCloseable {
  static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
  private static final String ADA = "Ada Penrose";

  final Archive archive;
  final WithholdingStore withholdings;
  private final Path folder;

  SmallGround(Path folder) {
    this.folder = folder;
    archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Thornbeck", 54.1, -3.2, ZoneId.of("Europe/London")),
            List.of(
                MarkerStore.projection(),
                DescriptionStore.projection(),
                EmblemStore.projection(),
                PhotoStore.projection(),
                ProposalStore.projection(),
                ReadingStore.projection(),
                PersonStore.projection(),
                CorrectionStore.projection(),
                LinkStore.projection(),
                PositionStore.projection(),
                QuestionStore.projection(),
                WithholdingStore.projection()));
    withholdings = new WithholdingStore(archive);
  }

  /** Signs what a face says, in Leiden signs. */
  Reading stone(String marker, String face, String text) {
    PhotoStore photographs = new PhotoStore(archive);
    try {
      return new ReadingStore(archive)
          .sign(
              photographs.faceOf(marker, face, ADA).id(),
              Leiden.parse(text),
              Basis.FROM_PHOTOGRAPHS,
              Optional.empty(),
              ADA);
    } catch (LeidenException e) {
      throw new AssertionError(text, e);
    }
  }

  Face face(String marker, String name) {
    PhotoStore photographs = new PhotoStore(archive);
    return photographs.face(new MarkerStore(archive).named(marker).id(), name).orElseThrow();
  }

  Mention mention(String label) {
    return People.mention(archive, label);
  }

  /** The person as the archive, complete, concludes him. */
  Person person(String label) {
    return People.of(archive).persons().stream()
        .filter(p -> p.mentions().stream().anyMatch(m -> m.label().equals(label)))
        .findFirst()
        .orElseThrow();
  }

  DecisionId withhold(Subject subject, Cause cause) {
    return withholdings
        .withhold(subject, cause, "as they asked", Optional.of("a daughter"), TODAY, ADA)
        .decision();
  }

  DecisionId withholdPerson(String label) {
    return withhold(new Subject.OfPerson(mention(label).id()), Cause.FAMILY);
  }

  void undo(DecisionId decision) {
    archive.journal().undo(decision, ADA);
  }

  Edition edition() {
    return Edition.of(archive, TODAY);
  }

  /** What goes to programs that keep families. */
  GedcomFile gedcom() throws IOException {
    Path file =
        new GedcomExport(edition(), TODAY)
            .write(new ExportFolder(Files.createTempDirectory(folder, "gedcom")));
    return GedcomFile.read(Files.readString(file));
  }

  /** All that an export writes, file names and contents, but for what is there by chance. */
  String exported() throws IOException {
    Path out = Files.createTempDirectory(folder, "out");
    ExportFolder into = new ExportFolder(out);
    Edition edition = edition();
    EpidocExport export = new EpidocExport(edition, into, true);
    for (ToldFace face : edition.faces()) {
      export.write(face);
    }
    TableExport tables = new TableExport(into);
    tables.readings(edition.faces());
    tables.statements(edition.faces());
    new GedcomExport(edition, TODAY).write(into);
    export.corpus(edition.around(), edition.faces());
    new Sidecars(edition, edition.around().byId(), into).write(edition.faces());
    StringBuilder all = new StringBuilder();
    try (Stream<Path> files = Files.walk(out)) {
      for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
        all.append(file.getFileName())
            .append('\n')
            .append(new String(Files.readAllBytes(file), StandardCharsets.UTF_8))
            .append('\n');
      }
    }
    return Chance.leftOut(all.toString());
  }

  @Override
  public void close() {
    archive.close();
  }
}
