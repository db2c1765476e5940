/**
 * Water in the mix of a cup: retention, the cup's shape, what it holds when drained, how it dries.
 * Figures of physics only. What to do about them is decided in {@code watering}; what a scale says
 * is judged in {@code estimate}.
 */
package dev.cupwarden.core.substrate;
