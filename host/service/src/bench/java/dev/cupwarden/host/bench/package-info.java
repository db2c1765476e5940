/** Figures of the host, printed; never a test. */
package dev.cupwarden.host.bench;
