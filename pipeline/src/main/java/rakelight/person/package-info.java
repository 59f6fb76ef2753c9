/**
 * Names, dates, ages, kinship and service: what a reading asserts, parsed and reckoned; the persons
 * concluded from it; sources besides the stones, persons sought and questions.
 *
 * <p>Its nouns: a {@link rakelight.person.Statement} rests on the signs it was read from; a {@link
 * rakelight.person.Mention} is one person as one face speaks of him; a {@link
 * rakelight.person.Person} is the mentions that people have said are of one. Statements and persons
 * are concluded anew each time and never kept; what people decide is in the journal. Dates are
 * EDTF, ages ISO 8601 durations. It knows nothing of emblems or the form of a marker, so that
 * neither can make a statement.
 */
@NullMarked
package rakelight.person;

import org.jspecify.annotations.NullMarked;
