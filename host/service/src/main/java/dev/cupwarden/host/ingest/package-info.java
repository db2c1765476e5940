/**
 * Takes in what benches say: understands each message strictly or sets it aside with the reason,
 * stores in batches, once by key, and tells the bench how far its journal is kept.
 *
 * <p>Must not live here: SQL (see {@code store}), connecting (see {@code broker}), or any judgement
 * of plants and water. A message is acknowledged to the broker only once it is stored, so that a
 * slow disk holds the broker back instead of filling the memory.
 */
package dev.cupwarden.host.ingest;
