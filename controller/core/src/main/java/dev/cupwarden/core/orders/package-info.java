/** What a person asked, read and in range. What it does to a bench is the tick's. */
package dev.cupwarden.core.orders;
