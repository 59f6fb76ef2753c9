package rakelight.samples;

import java.util.List;

/**
 * One physical monument of the invented ground.
 *
 * @param id label, unique in the ground
 * @param kind word of the trade: headstone, footstone, family monument, ledger, ...
 * @param eastM metres east of the ground's datum point
 * @param northM metres north of it
 * @param earlierNumber number on an old list, empty if none
 * @param lights how many lights its faces are photographed under; more than one makes a raking set
 */
public record SampleMarker(
    String id,
    String kind,
    double eastM,
    double northM,
    String earlierNumber,
    int lights,
    String note,
    List<SampleFace> faces) {
  public SampleMarker {
    faces = List.copyOf(faces);
  }
}
