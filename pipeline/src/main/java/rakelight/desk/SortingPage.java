package rakelight.desk;

import java.util.List;

/**
 * Photographs as they were taken, to be put on markers.
 *
 * @param waiting how many wait for a marker
 * @param all whether all photographs are shown, not only those that wait
 * @param shots how many stand on this page, of how many, and where the others are
 * @param page this page's number
 * @param streams what stands on this page
 * @param uncompared how many of this page's photographs haven't been compared with others yet
 * @param message what was done or couldn't be; may be empty
 * @param undo the decision by which the last act is taken back; empty where there is none
 */
public record SortingPage(
    int waiting,
    boolean all,
    Paged<?> shots,
    int page,
    List<Stream> streams,
    int uncompared,
    String message,
    String undo) {
  /**
   * @param title camera and day
   */
  public record Stream(String title, List<Run> runs) {}

  /**
   * @param title what the shots are on, or that they wait
   * @param card whether it is a field card, which parts the stream
   */
  public record Run(String title, boolean card, List<Shot> shots) {}

  /**
   * @param time when it was taken, by the ground's clocks; may be empty
   * @param offers faces it may show; none where it is on one
   */
  public record Shot(String id, String file, String time, List<Offered> offers) {
    /** Whether none of its offers is chosen beforehand. */
    public boolean noneSure() {
      return offers.stream().noneMatch(Offered::sure);
    }
  }

  /**
   * @param beside the photograph of that face to look at
   * @param where marker and face
   * @param why what speaks for it
   */
  public record Offered(String face, String beside, String where, String why, boolean sure) {}

  /** Whether anything is offered on this page. */
  public boolean isAnyOffered() {
    return streams.stream()
        .flatMap(stream -> stream.runs().stream())
        .flatMap(run -> run.shots().stream())
        .anyMatch(shot -> !shot.offers().isEmpty());
  }
}
