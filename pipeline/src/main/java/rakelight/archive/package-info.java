/**
 * The folder on disk: originals by digest, the ledger and its migrations, the journal of decisions,
 * ids, the ground's settings, backup and fixity.
 *
 * <p>In: bytes to keep, and decisions as records, each under a reader's name. Out: an open {@link
 * rakelight.archive.Archive}, whose {@link rakelight.archive.Journal} says what was decided, and
 * whose state tables a {@link rakelight.archive.Projection} of each room keeps in step with it.
 *
 * <p>Never change or remove a decision, or a payload's form: what a kind and version hold is read
 * for ever. What is on disk is written in docs/archive-format.md.
 */
@NullMarked
package rakelight.archive;

import org.jspecify.annotations.NullMarked;
