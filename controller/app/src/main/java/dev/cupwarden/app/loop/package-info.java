/**
 * The loop of a bench: read, decide, put down, give, tell; and what it does when a part of that
 * fails. What to give is decided in the core; what stands here is only in which order things
 * happen, so that a power cut between any two of them gives nothing twice.
 */
package dev.cupwarden.app.loop;
