/**
 * What stands on the ground: markers with their numbers, present and earlier, dated notes of their
 * condition, and the cautions that go with them.
 *
 * <p>In: what people say of a marker. Out: a {@link rakelight.marker.Marker} by id or by any number
 * it had, and {@link rakelight.marker.ConditionNote condition notes}. Photographs and faces come to
 * a marker from the room to the right.
 *
 * <p>Never take a number for a marker: numbers change and are used again, the id stays.
 */
@NullMarked
package rakelight.marker;

import org.jspecify.annotations.NullMarked;
