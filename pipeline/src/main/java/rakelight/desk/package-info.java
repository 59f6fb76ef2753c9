/**
 * The desk: web pages and the JSON behind them, where people settle doubtful letters.
 *
 * <p>The interface is written down in docs/desk.md. Pages are jte templates under {@code
 * src/main/jte}; scripts and styles lie in {@code assets} beside this package's resources. Nothing
 * here decides what a reading is: that is {@code inscription}'s.
 */
@NullMarked
package rakelight.desk;

import org.jspecify.annotations.NullMarked;
