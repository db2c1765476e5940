/**
 * Readings become what each cup holds, how fast it dries and whether its scale can be trusted.
 *
 * <p>Here live the steps of that chain, one class each, the small state they need between two
 * looks, the forecast made from it, the capacity learned from drained plateaus and the signs of
 * roots. Everything is pure: time and state come in. No dose is decided or judged here, and nothing
 * here knows of pumps, limits or orders.
 */
package dev.cupwarden.core.estimate;
