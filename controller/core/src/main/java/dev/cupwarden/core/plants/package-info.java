/**
 * What growers know of each kind of plant as a cutting: how wet it roots, how warm, how soon, and
 * whether it shoots first. The facts stand in {@code plants.yaml}, each with its source; whoever
 * reads that file or a bench's own plants makes the records here. No cup and no clock is known.
 */
package dev.cupwarden.core.plants;
