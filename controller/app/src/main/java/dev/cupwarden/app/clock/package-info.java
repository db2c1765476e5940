/**
 * Time as the loop and the board see it: monotonic for durations, a wall clock for what is written
 * down; real, or virtual at a chosen speed. The only package of the controller that asks the
 * operating system what time it is, or waits.
 */
package dev.cupwarden.app.clock;
