package rakelight.desk;

import java.util.List;

/**
 * Two persons side by side.
 *
 * @param odds that they are one; empty where nobody worked it out
 * @param decided what stands: {@code one}, {@code two} or nothing
 */
public record PairPage(
    String one,
    String other,
    List<PersonPage> both,
    String odds,
    List<String> reasons,
    String decided,
    List<Act> acts,
    boolean mayDecide) {}
