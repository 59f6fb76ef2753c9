package rakelight.ground;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Mention;
import rakelight.person.Person;

/** Links that are proposed: whose a footstone is, of the families of {@link Families}. */
public final class LinkProposals {
  private LinkProposals() {}

  /**
   * A footstone of which nobody has confirmed whose it is.
   *
   * @param person whose it is; empty where it is of nobody who is named
   * @param runnerUp the likeliest other; empty where that is nobody
   * @param exact whether probabilities are sums over all ways
   */
  public record Proposed(
      FamilyGroup family,
      Marker footstone,
      Optional<Person> person,
      double probability,
      Optional<Person> runnerUp,
      double runnerUpProbability,
      FootstoneFinding finding,
      boolean exact) {
    /** How people and commands name the person: the mention with the fullest name. */
    public Optional<String> to() {
      return person.flatMap(LinkProposals::label);
    }
  }

  /** Where somebody is named, such as {@code 15:E:1}. */
  public static Optional<String> label(Person person) {
    return person.fullest().map(Mention::label);
  }

  /** Every footstone whose owner nobody has confirmed, by family and number. */
  public static List<Proposed> of(List<FamilyGroup> families) {
    List<Proposed> all = new ArrayList<>();
    for (FamilyGroup family : families) {
      family
          .answer()
          .ifPresent(
              answer ->
                  answer.findings().stream()
                      .filter(
                          finding ->
                              family.plot().confirmed().stream()
                                  .noneMatch(tie -> tie.stone() == finding.stone()))
                      .map(finding -> proposed(family, finding, answer.isExact()))
                      .sorted((a, b) -> MarkerStore.BY_NUMBER.compare(a.footstone(), b.footstone()))
                      .forEach(all::add));
    }
    return all;
  }

  private static Proposed proposed(FamilyGroup family, FootstoneFinding finding, boolean exact) {
    return new Proposed(
        family,
        family.footstones().get(finding.stone()),
        finding.best().map(family.persons()::get),
        finding.probability(),
        finding.runnerUp().map(family.persons()::get),
        finding.runnerUpProbability(),
        finding,
        exact);
  }

  /**
   * Confirms what is proposed of a footstone, as a link from it to the person buried there.
   *
   * @param number of the footstone's marker
   * @param note what speaks for it besides
   * @throws ArchiveException if nothing is proposed, it is nobody's, or nothing but worn letters
   *     speaks for it and the note is empty
   */
  public static Link confirm(Archive archive, String number, String note, String reader) {
    Marker marker = new MarkerStore(archive).named(number);
    Proposed proposed =
        of(Families.of(archive)).stream()
            .filter(one -> one.footstone().equals(marker))
            .findFirst()
            .orElseThrow(
                () ->
                    new ArchiveException(
                        "Nothing is proposed of marker "
                            + number
                            + ": it is no footstone near a family, or its link is confirmed."));
    return confirm(archive, proposed, note, reader);
  }

  /**
   * The same of what has been looked up.
   *
   * @throws ArchiveException if it is nobody's, or nothing but worn letters speaks for it and the
   *     note is empty
   */
  public static Link confirm(Archive archive, Proposed proposed, String note, String reader) {
    String number = proposed.footstone().number();
    String to =
        proposed
            .to()
            .orElseThrow(
                () ->
                    new ArchiveException(
                        "Marker "
                            + number
                            + " is taken to be of nobody who is named; `link` confirms another."));
    if (proposed.finding().wornAlone() && note.isBlank()) {
      throw new ArchiveException(
          "Nothing but worn letters says that marker "
              + number
              + " is of "
              + to
              + ", and they alone confirm nothing. Say what else speaks for it (--note).");
    }
    return new LinkStore(archive).confirm(number, Link.Kind.BURIED_HERE, to, note, reader);
  }
}
