/**
 * What is worked out about markers from what is known of them: which photographs look like one
 * stone.
 *
 * <p>In: photographs, what was placed by people, what machines read. Out: {@link
 * rakelight.survey.Offer offers} with what speaks for each. Decides nothing: people place
 * photographs.
 */
@NullMarked
package rakelight.survey;

import org.jspecify.annotations.NullMarked;
