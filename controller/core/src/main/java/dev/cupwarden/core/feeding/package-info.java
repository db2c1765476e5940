/**
 * How strong, how much of it so far, what it leaves behind; arithmetic of feeds. No limit on a pass
 * lives here.
 */
package dev.cupwarden.core.feeding;
