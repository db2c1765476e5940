/**
 * Benchmarks, compiled and run only with {@code -Pbench}. One class a subject; each of ours stands
 * beside the plain library call that does the same work, and has its bound in {@link
 * dev.cupwarden.core.bench.Bench}.
 */
package dev.cupwarden.core.bench;
