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
import rakelight.archive.ReadingId;
import rakelight.archive.Sha256;
import rakelight.inscription.Basis;
import rakelight.inscription.Inscription;
import rakelight.photo.Face;

/**
 * A reading made elsewhere, as an EpiDoc document has it.
 *
 * @param marker the number of the marker it is of
 * @param face the name of the face
 * @param readingId the reading of an archive that it says it is
 * @param readers who read it; empty if the file doesn't say
 * @param basis what it is for whoever signs it here: the words of an earlier witness
 * @param file its name
 * @param content all of it as text; of a file that isn't UTF-8, each byte is one character
 * @param notes what a reading has no place for and what breaks a rule, by line
 */
public record EpidocImport(
    String marker,
    String face,
    Inscription inscription,
    Optional<ReadingId> readingId,
    List<String> readers,
    Basis basis,
    String file,
    Sha256 digest,
    String content,
    List<String> notes) {
  private static final int SHORT_DIGEST = 12;

  public EpidocImport {
    readers = List.copyOf(readers);
    notes = List.copyOf(notes);
  }

  /** A file of which nothing is taken; the message says why and what to do. */
  public static final class RefusedException extends Exception {
    RefusedException(String message) {
      super(message);
    }
  }

  /**
   * Reads one file.
   *
   * @param marker the marker it is of, in place of what the file says
   * @param face likewise the face
   */
  public static EpidocImport read(Path file, Optional<String> marker, Optional<String> face)
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
    List<String> notes = new ArrayList<>();
    read.remarks().forEach(remark -> notes.add(note(remark)));
    EpidocRules.broken(root).forEach(remark -> notes.add(note(remark)));
    String name = String.valueOf(file.getFileName());
    Sha256 digest = Sha256.of(content);
    return new EpidocImport(
        number,
        face.or(() -> document.stone().face()).orElse(Face.FRONT),
        document.inscription(),
        document.readingId().flatMap(EpidocImport::readingId),
        document.readers(),
        basis(document, name, digest),
        name,
        digest,
        text(content),
        notes);
  }

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
