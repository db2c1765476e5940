/**
 * The one sentence by which the sciences refuse a number: which argument, what was expected, what
 * came. Nothing else; the bench file's own errors with line and column live in {@code setup}.
 */
package dev.cupwarden.core.argument;
