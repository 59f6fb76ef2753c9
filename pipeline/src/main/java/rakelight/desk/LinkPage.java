package rakelight.desk;

import java.util.List;
import java.util.Optional;

/**
 * Whose a footstone is: what is proposed, with the evidence between the pictures of both stones,
 * and what became of the others by the last decision.
 *
 * @param family where it is one of, with its page
 * @param footstone with its picture
 * @param bears its letters, as people write them
 * @param person the one it is taken to be of; empty where it is of nobody who is named
 * @param likely how likely that is
 * @param runnerUp who else, and how likely
 * @param wornAlone whether nothing but worn letters says so, so that a note is needed
 * @param look what would decide it; may be empty
 * @param done what was decided last, in words; may be empty
 * @param undo that decision; may be empty
 * @param changes how the family's other footstones moved by it
 * @param next the footstone that comes next; empty where this is the only one
 */
public record LinkPage(
    FamilyPage.To family,
    Side footstone,
    String bears,
    Optional<Side> person,
    String called,
    String mention,
    String likely,
    String runnerUp,
    List<Reason> reasons,
    boolean exact,
    boolean wornAlone,
    String look,
    List<Other> others,
    String message,
    String done,
    String undo,
    List<Change> changes,
    String next,
    int left,
    List<Act> acts) {
  /**
   * One of both stones.
   *
   * @param picture address of a photograph; empty where there is none
   */
  public record Side(String id, String number, String picture, List<String> lines, String about) {}

  /**
   * A piece of evidence.
   *
   * @param decibans with its sign
   */
  public record Reason(String words, String decibans) {}

  /** One of those whose it may be, with how likely. */
  public record Other(String mention, String called, String likely) {}

  /** A footstone of the same family that a decision moved. */
  public record Change(String number, String address, String before, String after) {}
}
