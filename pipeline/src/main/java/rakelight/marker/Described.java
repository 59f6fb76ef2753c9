package rakelight.marker;

import java.time.Instant;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;

/** What a reader said of a marker, and when. */
public record Described(
    MarkerId marker, Description description, String reader, Instant at, DecisionId decision) {}
