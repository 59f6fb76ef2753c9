package rakelight.desk;

import java.util.List;
import java.util.Optional;
import rakelight.ground.FamilyTree;

/**
 * Who is named on a marker, where to look for their kin, and the family that it is one stone of.
 *
 * @param back the address of the search one comes from; may be empty
 * @param persons named on it
 * @param links to other markers and persons
 * @param whole the family as its stones tell it; empty where it is of none, or for who only looks
 * @param message what went wrong; may be empty
 * @param acts what people said of this marker's family, the newest first
 */
public record FamilyPage(
    String id,
    String number,
    String back,
    List<MarkerPage.PersonLine> persons,
    List<KinLine> kin,
    List<MarkerPage.LinkLine> links,
    Optional<Whole> whole,
    String message,
    List<Act> acts,
    boolean mayDecide) {
  /**
   * Somebody who is kin.
   *
   * @param of whose kin
   * @param search the address that looks for the kin on the whole ground; may be empty
   */
  public record KinLine(String of, String relation, String called, String search) {}

  /** A page by what leads to it. */
  public record To(String words, String address) {}

  /**
   * The family.
   *
   * @param reasons why these stones are taken for one family's
   * @param open what nobody has settled yet
   */
  public record Whole(
      String name,
      boolean isNamed,
      List<To> stones,
      List<To> footstones,
      List<Member> members,
      FamilyTree tree,
      List<Edge> edges,
      List<Edge> otherTies,
      Optional<SmallPlan> plan,
      List<String> reasons,
      List<To> open) {
    /** Whether any stone tells who is whose. */
    public boolean hasTree() {
      return !tree.nodes().isEmpty();
    }
  }

  /**
   * Somebody of it.
   *
   * @param life birth and death in words
   * @param years for the tree; may be empty
   * @param lies where the body lies and which stone is there, as far as is known
   * @param mark the same in two or three words, for the tree; may be empty
   * @param elsewhere whether a stone says that the body lies elsewhere
   * @param footstone the address where it is settled; empty where there is none
   */
  public record Member(
      String called,
      String address,
      String life,
      String years,
      String lies,
      String mark,
      boolean elsewhere,
      String footstone) {}

  /**
   * A tie with the address of the letters that tell it.
   *
   * @param d as the tree draws it; empty where it doesn't
   */
  public record Edge(String d, double x, double y, String word, String told, String address) {}

  /**
   * Where its stones stand, north up, a metre being so many units.
   *
   * @param bar length of the bar, of so many metres
   */
  public record SmallPlan(
      int wide, int high, List<Spot> spots, List<Line> lines, double bar, String barWords) {
    /**
     * @param footstone else it names persons
     */
    public record Spot(double x, double y, boolean footstone, String number, String address) {}

    /** From a footstone to the stone that names whose it is. */
    public record Line(double x1, double y1, double x2, double y2, boolean confirmed) {}
  }
}
