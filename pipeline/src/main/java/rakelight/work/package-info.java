/**
 * What it means to work on a face, whoever asks: the queue, leases, drafts and their versions, what
 * of a line may be taken how, skipping and leaving, two who read blind, settling, letters known
 * beforehand, roles and readers.
 *
 * <p>In come faces with their proposals, and what somebody under a name wants done. Out go {@link
 * rakelight.work.Work} as that reader may see it, and decisions in the journal; or a {@link
 * rakelight.work.Refused}, which the desk shows as a reply and the command line as words and an
 * exit code. Only here is a reading signed, a draft kept, or a face marked as known.
 *
 * <p>Don't work inside a write transaction: look first, reckon, then within the transaction see
 * that nothing has moved, and write.
 */
@NullMarked
package rakelight.work;

import org.jspecify.annotations.NullMarked;
