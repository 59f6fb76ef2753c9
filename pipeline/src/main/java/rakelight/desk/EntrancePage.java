package rakelight.desk;

import java.util.List;
import java.util.Map;

/**
 * The start page.
 *
 * @param open where the desk of the archive is that is open; empty if none is
 * @param openName its ground
 * @param working jobs that run or wait in it
 * @param known archives that were open here before
 * @param given what stood in the form, to be put right
 */
public record EntrancePage(
    String open,
    String openName,
    long working,
    List<Known> known,
    Map<String, String> given,
    List<String> zones,
    String message) {
  public EntrancePage {
    known = List.copyOf(known);
    given = Map.copyOf(given);
    zones = List.copyOf(zones);
  }

  /** An archive on this machine. */
  public record Known(String path, String ground) {}

  /** What stood in a field. */
  public String given(String field) {
    return given.getOrDefault(field, "");
  }

  /**
   * A folder of this machine, to choose it or one in it.
   *
   * @param to for which form
   * @param take the address that takes this one
   * @param up the folder it lies in; empty at the top
   */
  public record Chooser(
      String to,
      String at,
      String take,
      String up,
      boolean archive,
      long pictures,
      List<Child> in) {
    public Chooser {
      in = List.copyOf(in);
    }

    /** What the folder is chosen for. */
    public String why() {
      return switch (to) {
        case "open" -> "Which folder is the archive?";
        case "new" -> "In which folder shall the archive be made?";
        case "ingest" -> "Which folder are the photographs in?";
        case "lend" -> "Which folder or stick do the lent markers go to?";
        case "return" -> "Which folder came back?";
        case "merge" -> "Which folder is the copy of the archive?";
        case "backup" -> "Which folder does the backup go to?";
        default -> "Which folder do the files go to?";
      };
    }
  }

  /** A folder in a folder. */
  public record Child(String name, String look, boolean archive) {}
}
