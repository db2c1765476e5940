/**
 * What a person must know, raised and cleared with hysteresis. Nothing here changes what is
 * watered.
 */
package dev.cupwarden.core.alerts;
