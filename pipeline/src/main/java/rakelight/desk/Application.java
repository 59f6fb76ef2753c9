package rakelight.desk;

/**
 * What a desk has when it was opened from the {@link Entrance}.
 *
 * @param entrance the address of the start page
 */
record Application(Jobs jobs, EntranceKey key, String entrance) {}
