package dev.cupwarden.simulator.weather;

/**
 * One day's weather outside and what the heating does.
 *
 * @param meanC mean temperature outside, °C
 * @param cloud 0 clear to 1 overcast
 * @param heated false on the days of a cold spell indoors: heating out of order, a window left open
 */
record DayOutside(double meanC, double cloud, boolean heated) {}
