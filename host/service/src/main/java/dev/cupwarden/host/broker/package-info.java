/**
 * The MQTT 5 broker inside the host, and the connection to any broker.
 *
 * <p>Lives here: starting and stopping the broker, its limits, connecting and connecting again.
 * Must not: what messages mean, or where they are kept.
 */
package dev.cupwarden.host.broker;
