/** Marks checks against sources that are not ours, and reports them with source and count. */
package dev.cupwarden.core.checks;
