package rakelight.reading;

import rakelight.finding.FoundLine;

/** One line found on a picture, and what it may say. */
public record ReadLine(FoundLine line, LineLattice lattice) {}
