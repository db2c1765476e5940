/** The host's program as a person starts it. */
package dev.cupwarden.host.app;
