/**
 * Every veto and cap on a pass: one class each, one ordered table. Only here is an {@link
 * dev.cupwarden.core.limits.AllowedPass} made. Nothing here proposes water.
 */
package dev.cupwarden.core.limits;
