/**
 * What goes over the wire and through {@code advise}: its records, its topics, its JSON Schemas
 * (resources {@code schema/}), and how a line of readings is read strictly. Nothing here decides
 * anything about water, and nothing here opens a connection or a stream.
 */
package dev.cupwarden.core.messages;
