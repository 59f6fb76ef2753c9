/** Names, dates and ages: what a confirmed reading asserts, parsed and reckoned. */
@NullMarked
package rakelight.person;

import org.jspecify.annotations.NullMarked;
