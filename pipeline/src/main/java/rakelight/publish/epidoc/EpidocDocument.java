package rakelight.publish.epidoc;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.inscription.Basis;
import rakelight.inscription.Inscription;
import rakelight.inscription.SignId;
import rakelight.picture.Polygon;

/**
 * An EpiDoc document of one face: the reading, who read it and from what, the photographs with the
 * place of each line, and what people read there before. Of a document made elsewhere much may be
 * missing.
 *
 * @param title of the document, for people
 * @param stone what it is cut on
 * @param readingId the reading in the archive it comes from
 * @param versions who signed what, the current reading first
 * @param readers who read it, by what the file says; those of {@code versions} where it has them
 * @param dates that the reading asserts
 * @param surfaces the photographs
 * @param withheld why, in words, for gaps of it that stand for what may not be published
 * @param lineZones for each line of the inscription the id of its zone, if it has one
 * @param rejected what earlier versions have otherwise
 */
public record EpidocDocument(
    String title,
    Stone stone,
    Optional<String> readingId,
    List<Version> versions,
    List<String> readers,
    List<CarvedDate> dates,
    List<Surface> surfaces,
    Inscription inscription,
    Map<SignId, String> withheld,
    List<Optional<String>> lineZones,
    List<Rejected> rejected) {

  public EpidocDocument {
    versions = List.copyOf(versions);
    readers = List.copyOf(readers);
    dates = List.copyOf(dates);
    surfaces = List.copyOf(surfaces);
    withheld = Map.copyOf(withheld);
    lineZones = List.copyOf(lineZones);
    rejected = List.copyOf(rejected);
  }

  /**
   * What the inscription is cut on.
   *
   * @param bearingDegrees the compass direction the face looks to, clockwise from true north
   */
  public record Stone(
      Optional<String> ground,
      Optional<String> marker,
      List<String> earlierNumbers,
      Optional<String> face,
      Optional<Double> bearingDegrees) {
    public Stone {
      earlierNumbers = List.copyOf(earlierNumbers);
    }
  }

  /**
   * One signed reading.
   *
   * @param number from 1
   */
  public record Version(int number, String reader, Instant at, Basis basis) {}

  /**
   * A date on the stone.
   *
   * @param kind of statement, such as {@code death}
   * @param line from 1
   * @param carved as on the stone
   * @param edtf proleptic Gregorian
   * @param workedOut why it, or part of it, isn't carved; empty where all of it is
   */
  public record CarvedDate(
      String kind, int line, String carved, String edtf, Optional<String> workedOut) {}

  /**
   * A photograph.
   *
   * @param sha256 of the file
   * @param url relative to the document
   * @param widthPx upright
   * @param heightPx upright
   */
  public record Surface(
      String id,
      String sha256,
      String url,
      int widthPx,
      int heightPx,
      Optional<String> photographer,
      Optional<String> credit,
      Optional<String> rights,
      List<Zone> zones) {
    public Surface {
      zones = List.copyOf(zones);
    }
  }

  /** The place of a line, in upright full-size pixels of its photograph. */
  public record Zone(String id, Polygon outline) {}

  /**
   * What people read at a place before.
   *
   * @param line of the inscription, from 1
   * @param lemma what it has there now; empty for nothing
   * @param reading what they had; empty for nothing
   * @param versions by number
   */
  public record Rejected(
      int line,
      Optional<Inscription> lemma,
      Optional<Inscription> reading,
      List<Integer> versions) {
    public Rejected {
      versions = List.copyOf(versions);
    }
  }
}
