package rakelight.work;

/**
 * How a reader comes in at present. A new passphrase is another way in, even if the words are the
 * same; so is another role.
 */
public record WayIn(NamedReader reader, Passphrase passphrase) {}
