/**
 * The wire: an MQTT 5 client between the journal's outbox and a broker. It tells what the journal
 * holds and brings orders in. It never holds up the loop, decides nothing about water, and may be
 * without a broker for weeks.
 */
package dev.cupwarden.app.link;
