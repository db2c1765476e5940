/**
 * The air and light round the bench: vapour pressure, day length, light sums, hours that favour
 * grey mould. Arithmetic on given values only; neither sensors nor rules for watering.
 */
package dev.cupwarden.core.climate;
