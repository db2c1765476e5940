/**
 * What the host keeps: tables, the SQL that reads and writes them, and nothing else.
 *
 * <p>Lives here: opening a database (SQLite, or any that the one set of migrations runs on), batch
 * writes within a transaction, queries by index. Must not: MQTT, HTTP, or what a message may
 * contain. All writes of one batch happen in one transaction; a key that is there already is left
 * as it is, which makes at-least-once into once.
 */
package dev.cupwarden.host.store;
