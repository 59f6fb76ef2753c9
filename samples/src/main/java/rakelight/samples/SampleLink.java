package rakelight.samples;

/**
 * A tie between a marker and another marker or a person.
 *
 * @param from a marker's id
 * @param to a marker's or a person's id
 * @param type footstone of, commemorated, buried here, reburied, removed from, said to be
 */
public record SampleLink(String from, String to, String type, String note) {}
