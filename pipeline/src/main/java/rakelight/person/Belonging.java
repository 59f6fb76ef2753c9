package rakelight.person;

import java.util.Optional;
import rakelight.archive.MarkerId;

/**
 * What people confirmed of a stone: that it belongs to another marker, as a footstone does, or that
 * it is of a person named on some stone.
 */
public record Belonging(MarkerId stone, Optional<MarkerId> marker, Optional<MentionId> person) {}
