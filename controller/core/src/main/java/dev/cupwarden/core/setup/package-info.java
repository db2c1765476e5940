/**
 * The bench as the grower wrote it down: the bench file, what its words mean, and what is wrong
 * with it and where. Records are in base units and already checked.
 *
 * <p>One class reads one part of the file, strictly; nothing is mended. What a cup holds, when it
 * is due and what may be done to it are not decided here, and no file is opened here.
 */
package dev.cupwarden.core.setup;
