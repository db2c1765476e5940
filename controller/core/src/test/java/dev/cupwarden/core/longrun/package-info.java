/**
 * What tests share that are short in a build and long under {@code -Plong}: seeds tried for a set
 * time, slips of the hand in good input, a folder in memory, and the page that says what long runs
 * saw. What is tested stays with its own module.
 */
package dev.cupwarden.core.longrun;
