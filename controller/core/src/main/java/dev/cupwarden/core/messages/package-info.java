/** What goes over the wire and over a line of input or output, with its schemas. No decision lives here. */
package dev.cupwarden.core.messages;
