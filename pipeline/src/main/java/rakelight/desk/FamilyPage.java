package rakelight.desk;

import java.util.List;

/**
 * Who is named on a marker, and where to look for their kin.
 *
 * @param back the address of the search one comes from; may be empty
 * @param persons named on it
 * @param links to other markers and persons
 */
public record FamilyPage(
    String id,
    String number,
    String back,
    List<MarkerPage.PersonLine> persons,
    List<KinLine> kin,
    List<MarkerPage.LinkLine> links) {
  /**
   * Somebody who is kin.
   *
   * @param of whose kin
   * @param search the address that looks for the kin on the whole ground; may be empty
   */
  public record KinLine(String of, String relation, String called, String search) {}
}
