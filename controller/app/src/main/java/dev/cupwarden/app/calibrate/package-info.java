/**
 * The command {@code calibrate}: a person with weights, a measuring cup and patience, and the
 * figures that come of it. Whether figures are good enough is judged in the core ({@code weighing},
 * {@code substrate}); here is the conversation, and the history of what was found.
 */
package dev.cupwarden.app.calibrate;
