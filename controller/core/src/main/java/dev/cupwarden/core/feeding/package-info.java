/**
 * What goes into the water: the arithmetic of feeds, blends, stock and salt, and with it strength,
 * plan, ledger and recipe. Whether and how much to water is not decided here.
 */
package dev.cupwarden.core.feeding;
