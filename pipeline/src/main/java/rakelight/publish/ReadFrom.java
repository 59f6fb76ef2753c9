package rakelight.publish;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import rakelight.archive.PhotographId;
import rakelight.archive.Sha256;
import rakelight.inscription.Basis;
import rakelight.inscription.Inscription;
import rakelight.photo.CaptureTime;
import rakelight.photo.FileFormat;
import rakelight.picture.Polygon;

/**
 * What a told face was read from, as far as that is told.
 *
 * @param versions who signed what, the current reading first
 * @param shots its photographs; none where something on the face is withheld
 * @param lines where a machine found its lines on these photographs
 * @param lineByLine how many lines of the current reading are the found ones, number by number: all
 *     or none
 */
public record ReadFrom(
    List<Version> versions, List<Shot> shots, List<FoundAt> lines, int lineByLine) {
  public ReadFrom {
    versions = List.copyOf(versions);
    shots = List.copyOf(shots);
    lines = List.copyOf(lines);
  }

  /**
   * One signed reading.
   *
   * @param number from 1
   * @param inscription what it says; empty where that isn't told
   */
  public record Version(
      int number, String reader, Instant at, Basis basis, Optional<Inscription> inscription) {}

  /**
   * A photograph.
   *
   * @param original the file in the archive
   * @param originalName as the file was called when it came
   * @param widthPx upright
   * @param heightPx upright
   */
  public record Shot(
      PhotographId id,
      Sha256 sha256,
      Path original,
      FileFormat format,
      String originalName,
      Optional<CaptureTime> taken,
      int widthPx,
      int heightPx,
      Optional<String> photographer,
      Optional<String> credit,
      Optional<String> rights) {}

  /**
   * The place of a line.
   *
   * @param number of the line, from 1
   * @param outline in upright full-size pixels of the photograph; may reach a little beyond it
   */
  public record FoundAt(PhotographId photograph, int number, Polygon outline) {}
}
