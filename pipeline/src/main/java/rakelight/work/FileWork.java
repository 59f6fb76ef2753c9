package rakelight.work;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.FaceId;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;
import rakelight.inscription.Basis;
import rakelight.inscription.Draft;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingFile;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.publish.epidoc.EpidocImport;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

/**
 * Readings that come in by files: text that a person puts his name to, readings made elsewhere, and
 * what faces are known to say. Who writes a text down says what stands there, so no letter of it is
 * asked about; everything else is as at the desk.
 */
public final class FileWork {
  private final Archive archive;
  private final PhotoStore photographs;
  private final MarkerStore markers;
  private final ReadingStore readings;
  private final ProposalStore proposals;

  public FileWork(Archive archive) {
    this.archive = archive;
    this.photographs = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
    this.readings = new ReadingStore(archive);
    this.proposals = new ProposalStore(archive);
  }

  /**
   * What signing a file did.
   *
   * @param signed readings signed
   * @param unchanged faces of which this reader's last reading says the same on the same basis
   */
  public record Confirmed(int signed, int unchanged) {}

  /**
   * A reading to be signed.
   *
   * @param before what was signed of the face when it was looked at; empty where each reads for
   *     himself and that is nothing to him
   * @param proposal the one whose lines it counts
   * @param settles the two readings it settles
   */
  private record Planned(
      ReadingFile.Entry entry,
      Optional<List<ReadingId>> before,
      Optional<Proposal> proposal,
      List<ReadingId> settles) {}

  /**
   * Signs every reading of a file, or none. Markers and faces not yet known are made. Where two
   * readings of a face differ, that of a third reader settles them.
   *
   * @throws RefusedException if a face has no such proposal as its entry names, or somebody has
   *     signed a reading of it meanwhile
   */
  public Confirmed confirm(ReadingFile file, Basis basis, NamedReader by) {
    by.requireDeciding();
    List<Planned> planned = new ArrayList<>();
    for (ReadingFile.Entry entry : file.entries()) {
      planned(entry, basis, by.name()).ifPresent(planned::add);
    }
    archive
        .ledger()
        .write(
            handle -> {
              planned.forEach(one -> sign(one, basis, by.name()));
              return planned;
            });
    return new Confirmed(planned.size(), file.entries().size() - planned.size());
  }

  /** What is to be signed of an entry; empty if the reader's last reading says the same. */
  private Optional<Planned> planned(ReadingFile.Entry entry, Basis basis, String reader) {
    Optional<FaceReadings> signed =
        face(entry.marker(), entry.face()).map(face -> readings.ofFace(face.id()));
    boolean same =
        signed
            .flatMap(of -> of.required() < 2 ? of.current() : of.by(reader))
            .filter(last -> last.reader().equals(reader) && last.basis().equals(basis))
            .filter(last -> last.proposal().equals(entry.proposal()))
            .filter(
                last ->
                    Leiden.printLines(last.inscription())
                        .equals(Leiden.printLines(entry.inscription())))
            .isPresent();
    if (same) {
      return Optional.empty();
    }
    List<ReadingId> settles =
        signed
            .filter(of -> of.state() == FaceReadings.State.TO_SETTLE)
            .flatMap(of -> of.toSettle(reader))
            .map(two -> List.of(two.first().id(), two.second().id()))
            .orElse(List.of());
    boolean alone =
        settles.isEmpty() && signed.filter(of -> of.required() > 1 || of.test()).isPresent();
    List<ReadingId> before =
        signed.map(FaceReadings::versions).orElse(List.of()).stream().map(Reading::id).toList();
    return Optional.of(
        new Planned(
            entry,
            Optional.of(before).filter(seen -> !alone),
            entry.proposal().map(id -> counted(entry, id)),
            settles));
  }

  private Optional<Face> face(String marker, String name) {
    return markers.byNumber(marker).flatMap(known -> photographs.face(known.id(), name));
  }

  /** The proposal whose lines an entry counts: the newest of its face, or one used before. */
  private Proposal counted(ReadingFile.Entry entry, ProposalId id) {
    Optional<FaceId> face = face(entry.marker(), entry.face()).map(Face::id);
    return proposals
        .kept(id)
        .or(() -> face.flatMap(proposals::latest).filter(newest -> newest.id().equals(id)))
        .filter(proposal -> face.isPresent() && proposal.face().equals(face))
        .orElseThrow(
            () ->
                new RefusedException(new Refused.NoSuchProposal(entry.marker(), entry.face(), id)));
  }

  private void sign(Planned planned, Basis basis, String reader) {
    ReadingFile.Entry entry = planned.entry();
    FaceId face = photographs.faceOf(entry.marker(), entry.face(), reader).id();
    if (planned.before().filter(seen -> !readings.signedIds(face).equals(seen)).isPresent()) {
      throw new RefusedException(
          new Refused.Superseded(readings.current(face).map(Reading::reader)));
    }
    planned.proposal().ifPresent(proposal -> proposals.keep(proposal, reader));
    readings.sign(face, entry.inscription(), basis, entry.proposal(), planned.settles(), reader);
  }

  /** What became of a reading made elsewhere. */
  public enum Taken {
    /** It is the reader's draft now, nothing of it settled. */
    DRAFTED,
    /** The reader signed it as what an earlier witness has. */
    SIGNED,
    /** It is a reading that this archive already has. */
    KNOWN
  }

  /**
   * Takes the readings of a file made elsewhere, all of them or none. They are never facts here by
   * themselves: each becomes the draft of the person who brings it, or that person signs it as what
   * an earlier witness has. The whole file is kept in the journal, with the first that is taken.
   *
   * @param signing whether to sign them, which needs a file that says who read it
   * @return what became of each
   * @throws RefusedException if it says nowhere who read it, or the reader has another draft
   */
  public List<Taken> take(List<EpidocImport> file, boolean signing, NamedReader by) {
    by.requireDeciding();
    return archive
        .ledger()
        .write(
            handle -> {
              List<Taken> taken = new ArrayList<>();
              boolean kept = false;
              for (EpidocImport text : file) {
                taken.add(isKnown(text) ? Taken.KNOWN : take(text, signing, !kept, by));
                kept = kept || taken.get(taken.size() - 1) != Taken.KNOWN;
              }
              return taken;
            });
  }

  private Taken take(EpidocImport text, boolean signing, boolean isFirst, NamedReader by) {
    if (signing && text.readers().isEmpty()) {
      throw new RefusedException(new Refused.NobodyReadIt());
    }
    Draft draft =
        new Draft(
            Leiden.printLines(text.inscription()).stream()
                .map(line -> Draft.Line.of(line, false))
                .toList(),
            Optional.empty());
    FaceId face = photographs.faceOf(text.marker(), text.face(), by.name()).id();
    Optional<Draft> unsigned = readings.draft(face, by.name());
    if (!signing && unsigned.filter(own -> !own.equals(draft)).isPresent()) {
      throw new RefusedException(new Refused.DraftInTheWay(text.marker(), text.face()));
    }
    readings.keepImported(
        face, text.file(), text.digest(), isFirst ? text.content() : "", text.notes(), by.name());
    if (signing) {
      readings.sign(face, text.inscription(), text.basis(), Optional.empty(), List.of(), by.name());
      return Taken.SIGNED;
    }
    readings.keepDraft(face, draft, by.name());
    return Taken.DRAFTED;
  }

  /** Whether it is a reading of that face in this archive and nothing of it was changed. */
  private boolean isKnown(EpidocImport file) {
    Optional<FaceId> known = face(file.marker(), file.face()).map(Face::id);
    return file.readingId()
        .flatMap(readings::reading)
        .filter(reading -> known.filter(reading.face()::equals).isPresent())
        .map(Reading::inscription)
        .filter(file.inscription()::equals)
        .isPresent();
  }

  /**
   * Notes what faces are known to say beforehand, so that they measure whoever reads them.
   *
   * @param letters whether only the letters given are known and the rest is read in earnest
   * @throws ArchiveException if a face gives no letter then; nothing is noted
   */
  public void know(ReadingFile truths, boolean letters, NamedReader by) {
    by.requireDeciding();
    archive
        .ledger()
        .write(
            handle -> {
              for (ReadingFile.Entry entry : truths.entries()) {
                FaceId face = photographs.faceOf(entry.marker(), entry.face(), by.name()).id();
                if (letters) {
                  readings.knowLetters(face, entry.inscription(), by.name());
                } else {
                  readings.know(face, entry.inscription(), by.name());
                }
              }
              return truths;
            });
  }
}
