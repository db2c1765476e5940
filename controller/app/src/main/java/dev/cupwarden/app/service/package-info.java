/**
 * The controller as a service: what it tells the service manager, and the watchdogs that end it
 * when it no longer ticks. What a tick does is the loop's; nothing here decides about water.
 */
package dev.cupwarden.app.service;
