package rakelight.samples;

/**
 * What letters of a face assert of a person.
 *
 * @param kind name, death, birth, age, kin, service, origin
 * @param text the letters as cut, lines parted by {@code " / "}
 * @param value name as {@code given|surname}, dates as EDTF, ages as ISO 8601 durations, otherwise
 *     words
 */
public record SampleStatement(
    String marker,
    String face,
    int firstLine,
    int lastLine,
    String person,
    String kind,
    String text,
    String value) {}
