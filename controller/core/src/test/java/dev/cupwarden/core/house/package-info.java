/** Habits of the whole code base and directions inside the core, held by machine. */
package dev.cupwarden.core.house;
