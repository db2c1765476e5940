/**
 * Passes: what was put out, blended from which tank, and the weight as its witness. No limit lives
 * here.
 */
package dev.cupwarden.core.dosing;
