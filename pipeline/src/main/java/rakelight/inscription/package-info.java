/**
 * The structure of a reading, its Leiden view, and the decisions by which people confirm it.
 *
 * <p>In: Leiden text, drafts that people make of proposals, signatures with their basis. Out:
 * {@link rakelight.inscription.Reading readings}: versions that never change, each an {@link
 * rakelight.inscription.Inscription} of signs with {@link rakelight.inscription.Span spans} over
 * them; where two readers are asked for, {@link rakelight.inscription.FaceReadings what stands}.
 *
 * <p>Never fill in a letter that nobody saw without saying so: lost stays lost, and what is worked
 * out is marked as supplied. The signs are listed in docs/leiden.md.
 */
@NullMarked
package rakelight.inscription;

import org.jspecify.annotations.NullMarked;
