/**
 * Markers as objects that stand in the weather: dated notes of their condition, and the cautions
 * that go with them.
 */
@NullMarked
package rakelight.marker;

import org.jspecify.annotations.NullMarked;
