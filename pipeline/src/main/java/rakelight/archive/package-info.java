/**
 * The folder on disk: originals by digest, the ledger and its migrations, the journal of decisions,
 * ids, the ground's settings and fixity. Knows nothing of pictures or inscriptions.
 */
@NullMarked
package rakelight.archive;

import org.jspecify.annotations.NullMarked;
