/**
 * Names, dates, ages, kinship and service: what a reading asserts, parsed and reckoned; the persons
 * concluded from it; sources besides the stones, persons sought and questions.
 *
 * <p>Its nouns: a {@link rakelight.person.Statement} rests on the signs it was read from; a {@link
 * rakelight.person.Mention} is one person as one face speaks of him; a {@link
 * rakelight.person.Person} is the mentions that people have said are of one. What people decide is
 * in the journal; what follows is concluded and can be again: statements are kept for each version
 * of a reading, persons are brought together from them when they are asked for. Ask for one marker
 * ({@link rakelight.person.People#on}) where one is meant: {@link rakelight.person.People#of} looks
 * at the whole ground. Dates are EDTF, ages ISO 8601 durations. It knows nothing of emblems or the
 * form of a marker, so that neither can make a statement.
 */
@NullMarked
package rakelight.person;

import org.jspecify.annotations.NullMarked;
