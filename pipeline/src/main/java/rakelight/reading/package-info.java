/**
 * Recognisers and the lattice: what the pictures say, as weighted alternatives per letter.
 *
 * <p>In: pictures and the lines found on them. Out: {@link rakelight.reading.Proposal proposals}.
 *
 * <p>A {@link rakelight.reading.MachineReader} needs no archive: {@link
 * rakelight.reading.MachineReader#read} takes an upright grey picture and finds and reads its
 * lines; {@link rakelight.reading.MachineReader#readLines} reads lines whose places are given.
 * {@link rakelight.reading.MachineReader#standard} is what proposals are made with; any {@link
 * rakelight.finding.LineFinder} and any {@link rakelight.reading.Recogniser recognisers} with
 * weights make another. Each recogniser gives a {@link rakelight.reading.LineLattice} per strip:
 * its {@link rakelight.reading.Slot slots} from left to right, each with {@link
 * rakelight.reading.Alternative alternatives} that sum to one.
 *
 * <p>A proposal's lattices are merged over the photographs of a face, corrected by {@link
 * rakelight.reading.Odds} so that what is given 0.9 is right nine times in ten, and leant on by
 * language, which is kept apart from what was seen. {@link rakelight.reading.Doubt} says which
 * letters to ask people about, {@link rakelight.reading.Visit} which faces to record first.
 * docs/reading.md tells the whole way.
 *
 * <p>Places within a line are parts of its strip, 0 at the left end, 1 at the right.
 *
 * <p>Never confirm anything here, nor let language change what was seen. "Reader" is a person
 * everywhere else; what reads here is a {@link rakelight.reading.MachineReader}.
 */
@NullMarked
package rakelight.reading;

import org.jspecify.annotations.NullMarked;
