package rakelight.samples.burials;

/**
 * What somebody types who looks for one person.
 *
 * @param wanted number of the marker
 * @param from first year of death that he holds possible
 * @param to last year
 */
public record Asking(int wanted, String given, String surname, int from, int to) {}
