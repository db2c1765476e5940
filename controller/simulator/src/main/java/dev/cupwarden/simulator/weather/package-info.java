/**
 * The climate of the room the bench stands in, seeded: season, day and night, heating, cold spells,
 * sun. Nothing here knows of cups or of the controller.
 */
package dev.cupwarden.simulator.weather;
