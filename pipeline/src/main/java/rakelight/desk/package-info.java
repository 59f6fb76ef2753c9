/**
 * The desk: web pages and the JSON behind them, where people settle doubtful letters. Here live the
 * server and its door, sessions, the routes of each page with what it shows, and sheets for the
 * stone.
 *
 * <p>In come requests; out go pages, JSON and pictures. What is asked is translated for {@code
 * work} and its refusals into replies ({@code Refusal}). The interface is written down in
 * docs/desk.md. Pages are jte templates under {@code src/main/jte}; scripts and styles lie in
 * {@code assets} beside this package's resources.
 *
 * <p>Don't decide anything here: no rule about letters, readers or turns belongs in a route.
 */
@NullMarked
package rakelight.desk;

import org.jspecify.annotations.NullMarked;
