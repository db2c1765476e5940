/**
 * The command {@code check}: whether a bench may be left alone. One class a subject; each finds
 * what is right and wrong and says it in a sentence. Nothing here waters, and nothing is mended.
 */
package dev.cupwarden.app.check;
