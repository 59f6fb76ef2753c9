/**
 * Dates and ages as carved: calendars and their changes, double years, numbered, Quaker and Roman
 * months, numerals, and the conventions by which an age was reckoned. Hands on proleptic Gregorian
 * days; knows nothing of letters or readings.
 *
 * <p>Sources: Calendar (New Style) Act 1750, 24 Geo. II c. 23; C. R. Cheney, Handbook of Dates (RHS
 * 1945); Library of the Society of Friends, The Quaker calendar; the "8870" rule as printed by the
 * Denver Public Library.
 */
@NullMarked
package rakelight.person.calendar;

import org.jspecify.annotations.NullMarked;
