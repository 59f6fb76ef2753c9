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
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
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
   * Reads one file, every text in it: see {@link EpidocParts}.
   *
   * @param marker the marker it is of, in place of what the file says
   * @param face likewise the face, for a file of one text
   * @throws EpidocException if none of its texts holds a letter or a gap
   */
  public static List<EpidocImport> read(Path file, Optional<String> marker, Optional<String> face)
      throws IOException, RefusedException, EpidocException {
    if (Files.size(file) > Xml.MOST_BYTES) {
      throw new RefusedException(
          "larger than " + (Xml.MOST_BYTES >> 20) + " MB; an edition is far smaller.");
    }
    byte[] content = Files.readAllBytes(file);
    XmlElement root = Xml.parse(content);
    List<EpidocParts.Part> parts = EpidocParts.of(root);
    boolean isCorpus = root.name().equals("teiCorpus");
    if (parts.isEmpty()) {
      throw EpidocException.at(root, "a <teiCorpus> with no <TEI> in it.");
    }
    if (isCorpus && marker.isPresent()) {
      throw new RefusedException("a corpus of several markers; --marker can't be given for it.");
    }
    if (parts.size() > 1 && face.isPresent()) {
      throw new RefusedException(
          "has " + parts.size() + " texts, each a face of its own; --face can't be given for it.");
    }
    Set<String> told = new HashSet<>();
    List<String> first = new ArrayList<>();
    List<EpidocImport> texts = new ArrayList<>();
    List<EpidocException> empty = new ArrayList<>();
    for (EpidocParts.Part part : parts) {
      try {
        EpidocReader.Read read = EpidocReader.read(part.tei());
        List<String> notes =
            new ArrayList<>(read.remarks().stream().map(EpidocImport::note).toList());
        notes.removeIf(note -> !told.add(note));
        texts.add(
            one(
                read.document(),
                marker,
                face.or(part::face),
                String.valueOf(file.getFileName()),
                content,
                notes));
      } catch (EpidocException e) {
        empty.add(e);
        first.add(part.face().orElse("a text") + " isn't taken: " + e.getMessage());
      }
    }
    if (texts.isEmpty()) {
      throw empty.get(0);
    }
    for (XmlElement tei : isCorpus ? root.elements("TEI") : List.of(root)) {
      EpidocRules.broken(tei).forEach(remark -> first.add(note(remark)));
    }
    texts.set(0, texts.get(0).withNotes(first));
    return texts;
  }

  private EpidocImport withNotes(List<String> more) {
    List<String> all = new ArrayList<>(notes);
    all.addAll(more);
    return new EpidocImport(
        marker, face, inscription, readingId, readers, basis, file, digest, content, all);
  }

  private static EpidocImport one(
      EpidocDocument document,
      Optional<String> marker,
      Optional<String> face,
      String file,
      byte[] content,
      List<String> notes)
      throws RefusedException {
    String number =
        marker
            .filter(named -> !named.isBlank())
            .or(() -> document.stone().marker())
            .orElseThrow(
                () ->
                    new RefusedException(
                        "doesn't say which marker of this ground it is of. Give --marker."));
    Sha256 digest = Sha256.of(content);
    return new EpidocImport(
        number,
        face.or(() -> document.stone().face()).orElse(Face.FRONT),
        document.inscription(),
        document.readingId().flatMap(EpidocImport::readingId),
        document.readers(),
        basis(document, file, digest),
        file,
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
