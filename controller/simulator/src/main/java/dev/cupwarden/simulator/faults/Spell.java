package dev.cupwarden.simulator.faults;

/** One stretch of a fault: from a tick up to, not including, another; its size as its kind says. */
record Spell(long fromTick, long toTick, double size) {}
