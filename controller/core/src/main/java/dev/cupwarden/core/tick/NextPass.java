package dev.cupwarden.core.tick;

/**
 * What a cup would get in the next pass of a person's dose once no limit holds.
 *
 * @param roomMl missing up to its refill line
 * @param ml the pass; 0 where less than the least is left
 * @param leastMl smaller passes are not worth a valve
 */
record NextPass(double roomMl, double ml, double leastMl) {}
