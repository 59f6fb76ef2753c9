package rakelight.desk;

/** Somebody who may sign in. */
public record NamedReader(String name, Role role) {}
