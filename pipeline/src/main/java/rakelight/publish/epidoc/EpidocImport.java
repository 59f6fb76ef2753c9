package rakelight.publish.epidoc;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.ReadingId;
import rakelight.archive.Sha256;
import rakelight.inscription.Basis;
import rakelight.inscription.Draft;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;

/**
 * Takes readings made elsewhere from EpiDoc documents. Such a reading is never a fact here by
 * itself: it becomes the draft of the person who brings it, or that person signs it as what an
 * earlier witness has. The whole file is kept in the journal.
 */
public final class EpidocImport {
  private static final int SHORT_DIGEST = 12;

  private final MarkerStore markers;
  private final PhotoStore photographs;
  private final ReadingStore readings;
  private final String reader;

  /** What became of a file. */
  public enum Result {
    /** It is the reader's draft now, nothing of it settled. */
    DRAFTED,
    /** The reader signed it as what an earlier witness has. */
    SIGNED,
    /** It is a reading that this archive already has. */
    KNOWN
  }

  /**
   * A file taken.
   *
   * @param notes what isn't carried and what breaks a rule, by line
   */
  public record Taken(Result result, String marker, String face, List<String> notes) {
    public Taken {
      notes = List.copyOf(notes);
    }
  }

  /** A file of which nothing is taken; the message says why and what to do. */
  public static final class RefusedException extends Exception {
    RefusedException(String message) {
      super(message);
    }
  }

  /**
   * @param reader who brings them
   */
  public EpidocImport(Archive archive, String reader) {
    markers = new MarkerStore(archive);
    photographs = new PhotoStore(archive);
    readings = new ReadingStore(archive);
    this.reader = reader;
  }

  /**
   * Takes one file.
   *
   * @param marker the marker it is of, in place of what the file says
   * @param faceName likewise the face
   * @param signing whether to sign it as an earlier witness, which needs a file that says who read
   *     it
   */
  public Taken take(Path file, Optional<String> marker, Optional<String> faceName, boolean signing)
      throws IOException, RefusedException, EpidocException {
    if (Files.size(file) > Xml.MOST_BYTES) {
      throw new RefusedException(
          "larger than " + (Xml.MOST_BYTES >> 20) + " MB; an edition is far smaller.");
    }
    byte[] content = Files.readAllBytes(file);
    XmlElement root = Xml.parse(content);
    EpidocReader.Read read = EpidocReader.read(root);
    EpidocDocument document = read.document();
    String number =
        marker
            .filter(named -> !named.isBlank())
            .or(() -> document.stone().marker())
            .orElseThrow(
                () ->
                    new RefusedException(
                        "doesn't say which marker of this ground it is of. Give --marker."));
    String face = faceName.or(() -> document.stone().face()).orElse(Face.FRONT);
    if (isKnown(document, number, face)) {
      return new Taken(Result.KNOWN, number, face, List.of());
    }
    List<String> notes = new ArrayList<>();
    read.remarks().forEach(remark -> notes.add(note(remark)));
    EpidocRules.broken(root).forEach(remark -> notes.add(note(remark)));
    if (signing && document.readers().isEmpty()) {
      throw new RefusedException(
          "says nowhere who read it. Leave out --sign, compare the draft with the stone and sign"
              + " what you see.");
    }
    FaceId id = photographs.faceOf(number, face, reader).id();
    Draft draft =
        new Draft(
            Leiden.printLines(document.inscription()).stream()
                .map(line -> Draft.Line.of(line, false))
                .toList(),
            Optional.empty());
    Optional<Draft> unsigned = readings.draft(id, reader);
    if (!signing && unsigned.filter(own -> !own.equals(draft)).isPresent()) {
      throw new RefusedException(
          "you have an unsigned draft of marker "
              + number
              + ", "
              + face
              + ". Sign it first with"
              + " `read`.");
    }
    Sha256 digest = Sha256.of(content);
    String name = String.valueOf(file.getFileName());
    readings.keepImported(id, name, digest, text(content), notes, reader);
    if (!signing) {
      readings.keepDraft(id, draft, reader);
      return new Taken(Result.DRAFTED, number, face, notes);
    }
    readings.sign(
        id, document.inscription(), basis(document, name, digest), Optional.empty(), reader);
    return new Taken(Result.SIGNED, number, face, notes);
  }

  /** The file as text; of one that isn't UTF-8, each byte is one character. */
  private static String text(byte[] content) {
    try {
      return StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(content)).toString();
    } catch (CharacterCodingException e) {
      return new String(content, StandardCharsets.ISO_8859_1);
    }
  }

  private static String note(Epidoc.Remark remark) {
    return "line " + remark.line() + ": " + remark.text();
  }

  /** Whether it is a reading of that face in this archive and nothing of it was changed. */
  private boolean isKnown(EpidocDocument document, String number, String face) {
    Optional<FaceId> known =
        markers
            .byNumber(number)
            .flatMap(marker -> photographs.face(marker.id(), face))
            .map(Face::id);
    return document
        .readingId()
        .flatMap(EpidocImport::readingId)
        .flatMap(readings::reading)
        .filter(reading -> known.filter(reading.face()::equals).isPresent())
        .map(Reading::inscription)
        .filter(document.inscription()::equals)
        .isPresent();
  }

  private static Optional<ReadingId> readingId(String text) {
    try {
      return Optional.of(ReadingId.of(text));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private static Basis basis(EpidocDocument document, String file, Sha256 digest) {
    Optional<LocalDate> when =
        document.versions().stream()
            .findFirst()
            .map(version -> version.at().atOffset(ZoneOffset.UTC).toLocalDate());
    String witness =
        (document.title().isEmpty() ? "" : document.title() + ", ")
            + "read by "
            + String.join(", ", document.readers())
            + " ("
            + file
            + ", SHA-256 "
            + digest.hex().substring(0, SHORT_DIGEST)
            + ")";
    return new Basis(Basis.Kind.EARLIER, when, Optional.empty(), Optional.of(witness));
  }
}
