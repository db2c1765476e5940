/**
 * Looking back: what is stored of a bench as tables and files for other programs, and the dry-downs
 * of a cup laid over one another.
 *
 * <p>Must not live here: SQL (see {@code store}), HTTP and commands. A curve is fitted by the
 * core's own room for that.
 */
package dev.cupwarden.host.review;
