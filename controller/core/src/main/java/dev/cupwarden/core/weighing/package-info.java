/**
 * Proof of scales and pumps: calibration from known weights, judged against the limits of legal
 * metrology, and volumes of water by weighing. Filtering of readings while the bench runs lives in
 * {@code estimate}.
 */
package dev.cupwarden.core.weighing;
