/**
 * A person with a job: looks at the bench every second or third evening, notices roots, lifts cups,
 * waters by hand and forgets to say so, fills tanks, mends what was reported, goes on one journey.
 *
 * <p>Here it is decided what the person does; to do it is the rehearsal's work. Nothing here knows
 * of the controller.
 */
package dev.cupwarden.simulator.grower;
