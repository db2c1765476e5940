/** Everything that may be done to a host from outside, at once. */
package dev.cupwarden.host.app.attack;
