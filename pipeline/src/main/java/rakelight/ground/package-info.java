/**
 * What markers on one burial ground have to do with each other and with persons.
 *
 * <p>In: links that people confirm, one by one or from a {@link rakelight.ground.LinkFile}; where
 * markers stand by receiver, tape, row or file. Out: {@link rakelight.ground.Link links}, each with
 * who confirmed it and what speaks for it; {@link rakelight.ground.MarkerPosition positions} on the
 * WGS 84 ellipsoid (degrees), each with its standard error in metres and what it rests on.
 *
 * <p>Never make a link by machine: initials that agree are a reason, not a link.
 */
@NullMarked
package rakelight.ground;

import org.jspecify.annotations.NullMarked;
