/** The whole state of a bench as one immutable value: what the journal keeps between two ticks. */
package dev.cupwarden.core.state;
