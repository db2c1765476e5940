/**
 * Who may come in: people with a name, a password and a role, benches with a key, and the sessions
 * of people.
 *
 * <p>Must not live here: HTTP and MQTT themselves, or SQL (see {@code store}). A password or a key
 * is seen here once, on its way into a hash, and never kept, printed or logged.
 */
package dev.cupwarden.host.users;
