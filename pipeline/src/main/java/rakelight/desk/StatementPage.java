package rakelight.desk;

import java.util.List;

/**
 * One thing that a face asserts, in words for a page.
 *
 * @param confirmed whether people read it, and not only a machine
 * @param facts what is known of it
 * @param lines those it is read from, as they are read
 * @param drawings the same on the photograph
 * @param reckoned what reckoning with the dates of the same person brought out
 * @param which counted from 0 on its face, where somebody can say something of it; -1 where not
 * @param reading the reading it is told by
 * @param persons named on the face, of whom it may be said
 */
public record StatementPage(
    String kind,
    String value,
    String marker,
    String number,
    String face,
    String faceName,
    boolean confirmed,
    List<String> facts,
    List<String> lines,
    List<Drawing> drawings,
    List<String> reckoned,
    List<PersonPage.Fact> about,
    int which,
    String reading,
    List<MarkerPage.Named> persons) {}
