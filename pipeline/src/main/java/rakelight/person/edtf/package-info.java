/**
 * Dates that keep their doubt: the Extended Date/Time Format (ISO 8601-2 as profiled by the Library
 * of Congress, 4 February 2019), levels 0, 1 and 2, extended form only. Always proleptic Gregorian;
 * a date carved in another calendar is converted first and its carved form kept beside it.
 *
 * <p>Where published implementations disagree, this is what holds here:
 *
 * <ul>
 *   <li>Seasons (21 to 32) are three whole months: spring March to May, winter December to the end
 *       of the February that follows. 21 to 24 are northern, as are 25 to 28; 29 to 32 are
 *       southern, spring September to November. Quarters, quadrimesters and semesters follow the
 *       calendar.
 *   <li>Significant digits count from the first figure of the year: {@code Y171010000S3} is any
 *       year from 171000000 to 171999999.
 *   <li>A day that never was ({@code 1900-02-29}) is refused, as are {@code {2002..2001}} and any
 *       interval that ends before it begins.
 *   <li>No spaces anywhere, also not after the comma of a set.
 *   <li>An unknown end ({@code /1985}) bounds nothing, just as an open one ({@code ../1985}); the
 *       two stay apart when printed.
 *   <li>Times go with years 0000 to 9999 only and never into intervals or sets; offsets reach
 *       23:59.
 * </ul>
 */
@NullMarked
package rakelight.person.edtf;

import org.jspecify.annotations.NullMarked;
