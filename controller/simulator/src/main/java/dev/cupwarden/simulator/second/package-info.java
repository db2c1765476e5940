/**
 * A second world, made from other sources than the first: five layers of mix with capillary
 * exchange, roots that go by layer, leaves by the combination equation, rot that is a disease and
 * drought that is an empty stem, a room with a mat, a fan, a lamp and a window, cells that feel the
 * damp, and people with other habits.
 *
 * <p>It was written without a look at the controller's estimate. It knows the neutral {@code
 * world}, the bench file's own records and the levels of faults, and nothing of the first world's
 * physics, weather or people, nor of any of the core's formulas; {@code TwoWorldsApartTest} holds
 * that by imports and by a search of constants. Formulas whose source was recalled, not looked up,
 * say "from memory". No clock, no file, no thread; all functions are {@link
 * java.lang.StrictMath}'s.
 */
package dev.cupwarden.simulator.second;
