package rakelight.samples.burials;

import java.util.List;

/**
 * A marker with who lies there.
 *
 * @param words what is left of each word, in order
 * @param persons who is named
 */
public record Burial(List<List<CutSign>> words, List<Person> persons) {
  public Burial {
    words = words.stream().map(List::copyOf).toList();
    persons = List.copyOf(persons);
  }

  /**
   * Somebody named on the marker.
   *
   * @param first number of the first word of the name, from 0
   * @param last number of the last one
   * @param surnameWord number of the word that is the surname; beyond the name where it is only cut
   *     for another person
   * @param given the first given name in truth
   * @param surname the surname in truth
   * @param died year of death in truth
   */
  public record Person(
      int first, int last, int surnameWord, String given, String surname, int died) {}
}
