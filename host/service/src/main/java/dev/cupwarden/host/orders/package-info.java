/**
 * What a person asks of a bench: given an id, a sender and an expiry, kept, and sent.
 *
 * <p>Must not live here: whether an order is wise or allowed. The limits of the controller decide,
 * and its receipt says so; the host only refuses what could not be an order at all.
 */
package dev.cupwarden.host.orders;
