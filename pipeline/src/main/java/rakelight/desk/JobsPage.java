package rakelight.desk;

import java.util.List;

/**
 * What can be done with the archive, and what is being done.
 *
 * @param jobs the last first
 * @param folder one that was chosen on this machine; empty if none was
 * @param of for which form it was chosen
 * @param entrance the address of the start page, where folders are chosen
 * @param drop a name for what is dropped on the page
 * @param day today's, as forms ask for it
 * @param message what can't be done, and why; empty if nothing
 */
public record JobsPage(
    List<Row> jobs,
    String folder,
    String of,
    String entrance,
    String drop,
    String day,
    String message) {
  public JobsPage {
    jobs = List.copyOf(jobs);
  }

  /** A job in the list. */
  public record Row(String id, String title, String state, boolean over) {}

  /** The folder chosen for a form; empty if another's was. */
  public String chosen(String form) {
    return of.equals(form) ? folder : "";
  }

  /** Where a folder is chosen for a form. */
  public String chooser(String form) {
    return entrance + "folders?for=" + form;
  }

  /**
   * One job.
   *
   * @param done pieces of {@code all}; both 0 if nobody knows
   * @param toRead whether photographs came in that wait to be read
   * @param toConfirm whether proposals were made that wait for people
   * @param bring what brings in what was only looked at; empty if nothing was looked at
   * @param from the folder that was looked at
   * @param apart how much was decided differently on two laptops
   * @param lending whether it belongs to the page of lending
   * @param record whether there is more than the lines
   */
  public record One(
      String id,
      String title,
      String state,
      boolean over,
      boolean good,
      String howFar,
      int done,
      int all,
      List<String> lines,
      boolean toRead,
      boolean toConfirm,
      String bring,
      String from,
      int apart,
      boolean lending,
      boolean record) {
    public One {
      lines = List.copyOf(lines);
    }
  }
}
