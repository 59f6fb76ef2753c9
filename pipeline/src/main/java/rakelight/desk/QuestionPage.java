package rakelight.desk;

import java.util.List;

/**
 * A question, in words for a page.
 *
 * @param marker id of the marker it is about; empty where it is about none
 * @param answer that stands; empty while it is open
 */
public record QuestionPage(
    long number,
    String text,
    boolean open,
    String marker,
    String markerNumber,
    String answer,
    String citation,
    List<Act> steps,
    boolean mayDecide) {}
