/**
 * Commands, loop, journal, MQTT link and clock of the controller. No rule about water lives here.
 */
package dev.cupwarden.app;
