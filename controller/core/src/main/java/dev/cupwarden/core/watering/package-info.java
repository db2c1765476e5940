/** Is a cup due, how much is missing, how long has it been wet. No limit on a pass lives here. */
package dev.cupwarden.core.watering;
