/**
 * Drivers for the chips of a bench, on Pi4J, and the interlocks of its pump and valves.
 *
 * <p>Lives here: what speaks to a chip or an output line, turns codes into grams and degrees, and
 * keeps the outputs safe whatever the rest of the program does. Does not live here: any rule about
 * when a cup should be watered, any file or network but the kernel's own device files, and anything
 * simulated: the simulator answers the same calls from the other side and shares no constant with
 * these drivers.
 */
package dev.cupwarden.board;
