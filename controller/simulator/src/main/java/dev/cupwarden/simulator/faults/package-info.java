/**
 * What goes wrong between a cup and what is read or given: scales, valves, things that lean on
 * cups, disease. Drawn from a seed before a run, so that every policy meets the same faults.
 * Nothing here knows of the controller or of chips.
 */
package dev.cupwarden.simulator.faults;
