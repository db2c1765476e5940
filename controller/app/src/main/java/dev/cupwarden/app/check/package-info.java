/**
 * The command {@code check}: whether a bench may be left alone. One class a subject; each finds
 * what is right and wrong and says it in a sentence. Nothing is mended, and nothing waters but a
 * proof with somebody who stands by.
 */
package dev.cupwarden.app.check;
